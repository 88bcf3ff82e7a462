"""Supplies as they are held: how much, at what worth, for how many days, good until when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from datetime import date, timedelta
from fractions import Fraction

from farmops.facts import stock as stock_facts
from farmops.facts import supplies as supply_facts
from farmops.facts.farm import farm
from farmops.facts.reading import Reader, Store
from farmops.facts.stock import Came, Went
from farmops.figures import Figure
from farmops.model.errors import NotFound
from farmops.model.frozen import dataclass
from farmops.model.supplies import Movement, Supply, SupplyLot, SupplyUse
from farmops.quantities import Measures
from farmops.reports.supplies_figures import figures_of
from farmops.reports.supplies_used import Walked, by_supply, walk

DAYS_OF_RATE = 28
MOST_USES = 200


@dataclass(frozen=True, slots=True)
class SupplyHeld:
    """What is held of a supply on a day.

    Attributes:
        supply: what it is, and in what it is counted.
        held: how much the books hold, in its unit.
        worth_minor: at the weighted average of what it cost [minor units].
        a_day: how much went in a day of the 28 days to then; None before anything was booked.
        days_left: whole days that it lasts at that rate; None where nothing is used.
        good_until: the earliest date on what is taken to be held, the oldest used first; None where none is known.
        beyond: taken since the last count beyond what the books held, in its unit.
        on: the day.
        figures: `held` and `worth`, down to what was bought, used and counted.
    """

    supply: Supply
    held: int
    worth_minor: int
    a_day: Fraction | None
    days_left: int | None
    good_until: date | None
    beyond: int
    on: date
    figures: dict[str, Figure] = field(default_factory=dict, compare=False)

    @property
    def past_its_date(self) -> bool:
        """Whether some of what is taken to be held is past its date."""
        return self.good_until is not None and self.good_until < self.on

    @property
    def to_reorder(self) -> bool:
        """Whether it is at its reorder level, or below it."""
        return self.supply.reorder_at is not None and self.held <= self.supply.reorder_at


@dataclass(frozen=True, slots=True)
class SupplyBook:
    """A supply with what was bought of it and what was taken, the latest first."""

    line: SupplyHeld
    lots: tuple[SupplyLot, ...]
    uses: tuple[SupplyUse, ...]


def supplies_held(store: Store, on: date | None = None) -> list[SupplyHeld]:
    """Every supply by name, as it was held in the evening of a day, today unless another is named. Raises NoFarm."""
    with store.reading() as reader:
        day = on or farm(reader).today()
        return _held(reader, supply_facts.supplies(reader), day)


def supply_book(store: Store, supply: Supply, on: date | None = None, most: int = MOST_USES) -> SupplyBook:
    """A supply with what was bought of it, and so many at most of what was taken."""
    with store.reading() as reader:
        (line,) = _held(reader, [supply], on or farm(reader).today())
        lots, uses = supply_facts.lots(reader, supply.id), supply_facts.uses(reader, supply.id, most)
    return SupplyBook(line, tuple(lots), tuple(uses))


def supply_called(store: Store, name: str) -> Supply:
    """The supply of that name. Raises NotFound, naming those there are."""
    with store.reading() as reader:
        farm(reader)
        found = supply_facts.supplies(reader)
    wanted = " ".join(name.split()).casefold()
    one = next((one for one in found if one.name.casefold() == wanted), None)
    if one is None:
        known = f"Known: {', '.join(each.name for each in found[:12])}. " if found else ""
        raise NotFound(f"There is no supply of that name. {known}Add one with: farmops supplies add")
    return one


def supplies(store: Store) -> list[Supply]:
    """Every supply, by name. Raises NoFarm."""
    with store.reading() as reader:
        farm(reader)
        return supply_facts.supplies(reader)


def bought(store: Store) -> list[SupplyLot]:
    """What was bought of all supplies, the latest first. Raises NoFarm."""
    with store.reading() as reader:
        farm(reader)
        found = [lot for one in supply_facts.supplies(reader) for lot in supply_facts.lots(reader, one.id)]
    return sorted(found, key=lambda one: (one.day, one.id), reverse=True)


def taken(store: Store, most: int = MOST_USES) -> list[SupplyUse]:
    """The latest that was taken from each supply or counted, so many at most, the latest first. Raises NoFarm."""
    with store.reading() as reader:
        farm(reader)
        found = [use for one in supply_facts.supplies(reader) for use in supply_facts.uses(reader, one.id, most)]
    return sorted(found, key=lambda one: (one.day, one.id), reverse=True)


def bought_numbered(store: Store, number: int) -> SupplyLot:
    """What was bought, by its number. Raises NotFound."""
    with store.reading() as reader:
        farm(reader)
        found = supply_facts.lot(reader, number)
    if found is None:
        raise NotFound(f"Nothing bought has the number {number}. See: farmops supplies show NAME")
    return found


def taken_numbered(store: Store, number: int) -> SupplyUse:
    """What was taken or counted, by its number. Raises NotFound."""
    with store.reading() as reader:
        farm(reader)
        found = supply_facts.use(reader, number)
    if found is None:
        raise NotFound(f"Nothing used or counted has the number {number}. See: farmops supplies show NAME")
    return found


def _held(reader: Reader, supplies: Sequence[Supply], day: date) -> list[SupplyHeld]:
    came, went = by_supply(stock_facts.came(reader, day)), by_supply(stock_facts.went(reader, day, False))
    measures = farm(reader).measures
    return [_line(reader, one, came.get(one.id, []), went.get(one.id, []), day, measures) for one in supplies]


def _line(
    reader: Reader, supply: Supply, came: Sequence[Came], went: Sequence[Went], day: date, measures: Measures
) -> SupplyHeld:
    walked = walk(came, went)
    held = walked.stock.quantity
    a_day = _a_day(walked, [*(one.day for one in came), *(one.day for one in went)], day)
    lots = [one for one in supply_facts.lots(reader, supply.id) if one.day <= day] if held else []
    dates = [one.expires_day for one in stock_facts.still_held(lots, held) if one.expires_day]
    return SupplyHeld(
        supply,
        held,
        walked.stock.cost,
        a_day,
        int(held / a_day) if a_day else None,
        min(dates, default=None),
        walked.beyond,
        day,
        figures_of(supply, came, walked, measures),
    )


def _a_day(walked: Walked, days: Sequence[date], day: date) -> Fraction | None:
    """What went in a day of the 28 days to then, or of those since the supply was first booked."""
    if not days:
        return None
    first = max(min(days), day - timedelta(days=DAYS_OF_RATE - 1))
    lost = Movement.THROWN_AWAY
    gone = sum(one.amount for one in walked.used if one.went.day >= first and one.went.kind is not lost)
    return Fraction(gone, (day - first).days + 1)
