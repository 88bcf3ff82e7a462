"""Many costs or plantings booked together or not at all: a page of the account book, a season of plantings."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from farmops.farm.costs import cost_row
from farmops.farm.harvests import Booked
from farmops.farm.operation import Operation, operation
from farmops.farm.plantings import change_planting, plant
from farmops.farm.unlikely import ask_room
from farmops.model.costs import NewCost
from farmops.model.frozen import dataclass
from farmops.model.plantings import NewPlanting, PlantingChange


@dataclass(frozen=True, slots=True)
class Costs:
    """Costs that are booked together."""

    entries: tuple[NewCost, ...]


@dataclass(frozen=True, slots=True)
class Grown:
    """A planting with its last day, None while it grows."""

    planting: NewPlanting
    cleared_day: date | None = None


@dataclass(frozen=True, slots=True)
class Plantings:
    """Plantings that are booked together."""

    entries: tuple[Grown, ...]


@operation("costs")
def record_costs(op: Operation, entry: Costs) -> Booked:
    """Book many costs in one operation."""
    op.add_all([cost_row(op, cost) for cost in entry.entries])
    return Booked(len(entry.entries))


@operation("plantings")
def plant_many(op: Operation, entry: Plantings) -> Booked:
    """Book many plantings in one operation, those cleared since with their last day."""
    for one in entry.entries:
        plant_one(op, one)
    return Booked(len(entry.entries))


def plant_one(op: Operation, entry: Grown) -> None:
    """Book a planting with its last day within an operation. Asks once that is known how long it stood."""
    planted = plant.body(op, replace(entry.planting, sure=True))
    if entry.cleared_day is not None:
        planted = change_planting.body(op, PlantingChange(planted.id, cleared_day=entry.cleared_day))
    ask_room(op, planted, sure=entry.planting.sure)
