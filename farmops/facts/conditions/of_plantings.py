"""What can hold for a bed: a planting in it is ready to pick, or past its time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from farmops import library
from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.facts.treatments import bed_holds
from farmops.library import CropFacts
from farmops.model.chores import AppliesTo
from farmops.model.frozen import dataclass
from farmops.model.plantings import StartedBy
from farmops.model.treatments import Hold
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

STANDING = """
    SELECT planting.id, planting.bed_id, crop.name AS crop, crop.library_key, planting.started_day,
        planting.started_by, MAX(harvest.day) AS picked_day
    FROM planting
    JOIN crop ON crop.id = planting.crop_id
    LEFT JOIN harvest ON harvest.planting_id = planting.id
    WHERE planting.cleared_day IS NULL AND crop.library_key IS NOT NULL
    GROUP BY planting.id, planting.bed_id, crop.name, crop.library_key, planting.started_day, planting.started_by
    ORDER BY planting.id
"""


@dataclass(frozen=True, slots=True)
class Standing:
    """A planting that is not cleared, of a crop of which something is known, and the day of its last weighing."""

    id: int
    bed_id: int
    crop: str
    library_key: str
    started_day: date
    started_by: StartedBy
    picked_day: date | None


@condition("planting ready", place=AppliesTo.BED, tables=("planting", "harvest", "treatment"))
def ready(reader: Reader) -> Held:
    """A planting can be picked: for the first time, or again where the crop is cut again and again; never before the
    hold of a treatment is over; until a weighing from it, or clearing.

    The days are the fewest that the packaged facts on the crop name.
    """
    held = bed_holds(reader)
    found = _from(reader, "ready", ready_from, "a weighing from it, or clearing")
    return by_place((bed, _after_holds(holding, held.get(bed, ()))) for bed, holding in found)


def _after_holds(holding: Holding, holds: Iterable[Hold]) -> Holding:
    """What is ready rests while a treatment holds it, and says after what it waits."""
    later = [one for one in holds if one.free_day > holding.since]
    last = max(later, key=lambda one: one.free_day, default=None)
    if last is None:
        return holding
    words = f"{holding.why}, hold of {last.treatment.product} over"
    return replace(holding, since=last.free_day, why=words)


@condition("planting overdue", place=AppliesTo.BED, tables=("planting", "harvest"))
def overdue(reader: Reader) -> Held:
    """A planting is past its time: the most days to its first pick have gone by; until it is cleared, or picked for
    the first time where the crop is cut again and again.
    """
    return by_place(_from(reader, "past its time", overdue_from, "clearing, or a first weighing of what is cut again"))


Begins = Callable[[Standing, CropFacts], date | None]


def _from(reader: Reader, what: str, begins: Begins, ends: str) -> Iterator[tuple[int, Holding]]:
    for one in reader.all(Standing, STANDING):
        facts = library.crop(one.library_key)
        since = begins(one, facts) if facts else None
        if since is not None:
            yield one.bed_id, Holding(since, None, f"{one.crop} {what}", ends)


def ready_from(planting: Standing, facts: CropFacts) -> date | None:
    """The first day on which it can be picked; None when it was picked for good, or nothing is known."""
    if planting.picked_day is not None:
        return _later(planting.picked_day, facts.pick_again_days)
    return _later(planting.started_day, _days_to_pick(planting, facts, facts.days_to_harvest_low))


def overdue_from(planting: Standing, facts: CropFacts) -> date | None:
    """The first day on which its time is over; None when that is not known: what is cut again has no end."""
    if planting.picked_day is not None and facts.pick_again_days is not None:
        return None
    days = _days_to_pick(planting, facts, facts.days_to_harvest_high)
    return _later(planting.started_day, None if days is None else days + 1)


def _days_to_pick(planting: Standing, facts: CropFacts, days: int | None) -> int | None:
    """Days from its start to the first pick; those a seed takes to come up are added where they count from plants."""
    sown_early = planting.started_by is StartedBy.SOWING and facts.counted_from is StartedBy.TRANSPLANTING
    if days is None or not sown_early:
        return days
    return days + (facts.germination_days_low or 0)


def _later(day: date, days: int | None) -> date | None:
    return None if days is None else day + timedelta(days=days)
