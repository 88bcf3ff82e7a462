"""What can be, but hardly is, asked about once before it is booked: mostly a slip of a unit or of a digit.

The bounds are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from farmops import library
from farmops.facts import beds as bed_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import plantings as planting_facts
from farmops.facts.chores import Plan
from farmops.facts.rations import rations
from farmops.farm.operation import Operation
from farmops.model.beds import BedSize, NewBedSize
from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import Unlikely
from farmops.model.fish_events import NewFeeding
from farmops.model.plantings import Planting
from farmops.model.text import plain
from farmops.model.values import Keep, Measured
from farmops.quantities import AREA, LENGTH, MASS, VOLUME
from farmops.records.chores import ChoreRow
from farmops.records.fish import FishLotRow
from farmops.schedule.due import next_due, standing

SHALLOWEST_UM, DEEPEST_UM = 30_000, 1_000_000
SMALLEST_ML, LARGEST_ML = 20_000, 20_000_000
MUCH_FEED = 2
"""How many times its ration a lot is hardly fed in a day."""
MG_PER_G = 1000
FULL_BEDS = 2
"""How often over a bed may be said to be planted at a time: rows stand between rows."""


def ask_depth(op: Operation, depth: Measured | Keep | None, *, sure: bool) -> None:
    """Raise Unlikely for a bed that is hardly so deep, or so shallow."""
    if sure or not isinstance(depth, Measured) or SHALLOWEST_UM <= depth.exact <= DEEPEST_UM:
        return
    said, low, high = (LENGTH.show(um, op.farm.measures) for um in (depth.exact, SHALLOWEST_UM, DEEPEST_UM))
    raise Unlikely(
        f"Not booked yet: a bed {said} deep, is that right? Beds are {low} to {high} deep as a rule; "
        f"a number alone is in {op.farm.measures.length}."
    )


def ask_tank(op: Operation, tank: Measured | Keep | None, *, sure: bool) -> None:
    """Raise Unlikely for a tank that hardly holds so much, or so little."""
    if sure or not isinstance(tank, Measured) or SMALLEST_ML <= tank.exact <= LARGEST_ML:
        return
    said, low, high = (VOLUME.show(ml, op.farm.measures) for ml in (tank.exact, SMALLEST_ML, LARGEST_ML))
    raise Unlikely(
        f"Not booked yet: a tank of {said}, is that right? Tanks hold {low} to {high} as a rule; "
        f"a number alone is in {op.farm.measures.volume}."
    )


def ask_species(op: Operation, name: str, *, sure: bool) -> None:
    """Raise Unlikely for a species that no packaged facts go with, unless the farm keeps it already."""
    if sure or library.species(name) or name.lower() in {lot.species for lot in fish_facts.lots(op.reader)}:
        return
    near = library.species_near(name)
    known = ", ".join(one.name.lower() for one in library.all_species())
    meant = f"Did you mean {' or '.join(near)}? Or is" if near else f"There are facts on {known}. Is"
    raise Unlikely(
        f"Not booked yet: no packaged facts go with {plain(name)}, so no ration and no limits of its own. "
        f"{meant} it right?"
    )


def ask_room(op: Operation, planting: Planting, *, sure: bool) -> None:
    """Raise Unlikely for a planting larger than its bed, or for one more where the bed is full already."""
    sizes = bed_facts.sizes(op.reader, planting.bed_id)
    if sure or planting.area_mm2 is None or not sizes:
        return
    room, said = _area_on(sizes, planting.started_day), planting.area_mm2
    if said > room:
        raise Unlikely(
            f"Not booked yet: {_shown(op, said)} of {planting.crop}, is that right? "
            f"The whole bed {planting.bed} has {_shown(op, room)}."
        )
    day, most = max(_planted(op, planting), key=lambda one: one[1] / _area_on(sizes, one[0]))
    if most > FULL_BEDS * _area_on(sizes, day):
        raise Unlikely(
            f"Not booked yet: with it {_shown(op, most)} would stand in {planting.bed} on {day}, which has "
            f"{_shown(op, _area_on(sizes, day))}. Is it right, and nothing there cleared?"
        )


def ask_again(title: str, plan: Plan, entry: Settling) -> None:
    """Raise Unlikely for a chore that was done on that day already and asks for no more, unless its time is named."""
    if entry.sure or entry.kind is not SettledAs.DONE or entry.occurrence is not None:
        return
    before = any((one.kind, one.on) == (SettledAs.DONE, entry.on) for one in plan.history)
    if before and standing(plan.rule, plan.history, plan.activity, entry.on) is None:
        due = next_due(plan.rule, plan.history, plan.activity)
        again = f", and is due again on {due}" if due is not None and due > entry.on else ""
        raise Unlikely(f"Not booked yet: {title} was done on {entry.on} already{again}. Is it done once more?")


def ask_adult(op: Operation, row: ChoreRow, entry: Settling) -> None:
    """Raise Unlikely where a minor did what is for adults only: a grown-up may have been at it."""
    if entry.sure or entry.kind is not SettledAs.DONE or not row.adults_only:
        return
    name = (entry.actor or op.by).strip()
    if any(one.minor and one.name.casefold() == name.casefold() for one in farm_facts.people(op.reader)):
        raise Unlikely(f"Not booked yet: {row.title} is for adults only, and {name} is a minor. Did an adult do it?")


def ask_feed(op: Operation, lot: FishLotRow, entry: NewFeeding) -> None:
    """Raise Unlikely for a lot that is fed in a day far more than its ration; where there is none, nothing is asked."""
    own = () if entry.sure else (one for one in rations(op.reader, entry.day) if one.lot_id == lot.id)
    ration = next((one for one in own if one.caps), None)
    if ration is None:
        return
    fed_mg, most_mg = ration.fed_g * MG_PER_G + entry.mass.exact, min(grams for _, grams in ration.caps) * MG_PER_G
    if fed_mg > MUCH_FEED * most_mg:
        fed, most = (MASS.show(round(mg), op.farm.measures) if mg else "nothing" for mg in (fed_mg, most_mg))
        raise Unlikely(
            f"Not booked yet: {fed} of feed for {lot.code} on {entry.day}, is that right? Its ration is {most}; "
            f"a number alone is in {op.farm.measures.mass.partition('_')[0]}."
        )


def ask_shrinking(op: Operation, size: NewBedSize, *, sure: bool) -> None:
    """Raise Unlikely for a bed made smaller than what stands in it while it has that size."""
    if sure:
        return
    sizes, room = bed_facts.sizes(op.reader, size.bed_id), size.area.exact
    for day, plantings in _standing_with(op, size, sizes):
        planted = sum(one.area_mm2 or 0 for one in plantings)
        if planted > room and not (sizes and _area_on(sizes, day) <= room):
            crops = ", ".join(dict.fromkeys(one.crop for one in plantings))
            raise Unlikely(
                f"Not booked yet: {_shown(op, planted)} of {crops} stand in {plantings[0].bed} on {day}, "
                f"which would have {_shown(op, room)}. Is it right, and nothing there cleared?"
            )


def _standing_with(
    op: Operation, size: NewBedSize, sizes: Sequence[BedSize]
) -> Iterator[tuple[date, Sequence[Planting]]]:
    """What stands in a bed and names its area: on the first day of a size, and on each day of it on which one comes."""
    areas = [one for one in planting_facts.in_bed(op.reader, size.bed_id) if one.area_mm2]
    end = min((one.from_day for one in sizes if one.from_day > size.from_day), default=date.max)
    for day in sorted({max(one.started_day, size.from_day) for one in areas}):
        there = [one for one in areas if _stands(one, day) and one.cleared_day != day]
        if there and day < end:
            yield day, there


def _planted(op: Operation, planting: Planting) -> Iterator[tuple[date, int]]:
    """The areas said for its bed, summed for each day of it on which one comes [mm2]."""
    beside = [one for one in planting_facts.in_bed(op.reader, planting.bed_id) if one.area_mm2]
    for day in {max(one.started_day, planting.started_day) for one in beside}:
        if _stands(planting, day):
            yield day, sum(one.area_mm2 or 0 for one in beside if _stands(one, day))


def _stands(planting: Planting, day: date) -> bool:
    return planting.started_day <= day and (planting.cleared_day is None or day <= planting.cleared_day)


def _area_on(sizes: Sequence[BedSize], day: date) -> int:
    """The size of a day, before the first one that first one [mm2]."""
    return next((size for size in reversed(sizes) if size.from_day <= day), sizes[0]).area_mm2


def _shown(op: Operation, area_mm2: int) -> str:
    return AREA.show(area_mm2, op.farm.measures)
