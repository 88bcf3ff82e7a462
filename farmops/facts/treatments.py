"""Treatments, and which beds and fish lots they hold until when."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from farmops import clock
from farmops.facts.farm import farm
from farmops.facts.fish import Stay, stays
from farmops.model.treatments import Hold, Treatment
from farmops.records.reading import Reader, day

COLUMNS = """
    treatment.id, treatment.day, treatment.at, unit.id AS unit_id, unit.code AS unit, treatment.bed_id,
    home.code || '-' || bed.name AS bed, treatment.fish_lot_id AS lot_id, treatment.product, treatment.active,
    treatment.registration, treatment.against, treatment.amount_typed, treatment.reentry_hours,
    treatment.harvest_days, treatment.fish_days, treatment.actor, treatment.note, treatment.operation
"""
ON_BEDS = f"""
    SELECT {COLUMNS}, CAST(NULL AS TEXT) AS lot
    FROM treatment
    LEFT JOIN bed ON bed.id = treatment.bed_id
    LEFT JOIN unit AS home ON home.id = bed.unit_id
    JOIN unit ON unit.id = COALESCE(treatment.unit_id, bed.unit_id)
"""
TREATMENTS = f"""
    SELECT {COLUMNS}, fish_lot.code AS lot
    FROM treatment
    LEFT JOIN bed ON bed.id = treatment.bed_id
    LEFT JOIN unit AS home ON home.id = bed.unit_id
    LEFT JOIN fish_lot ON fish_lot.id = treatment.fish_lot_id
    LEFT JOIN lot_place ON lot_place.fish_lot_id = treatment.fish_lot_id AND lot_place.from_day = (
        SELECT MAX(held.from_day) FROM lot_place AS held
        WHERE held.fish_lot_id = treatment.fish_lot_id AND held.from_day <= treatment.day
    )
    JOIN unit ON unit.id = COALESCE(treatment.unit_id, bed.unit_id, lot_place.unit_id)
"""
IN_ORDER = "ORDER BY treatment.at, treatment.id"
BEDS = "SELECT id, unit_id FROM bed ORDER BY id"
MOVES = "SELECT day, from_lot_id, to_lot_id FROM transfer ORDER BY day, id"
Move = tuple[date, int, int]


def treatments(reader: Reader, first: date, last: date) -> list[Treatment]:
    """The treatments of a span of days, both included, in the order they were done."""
    where = "WHERE treatment.day BETWEEN :first AND :last"
    return reader.all(Treatment, f"{TREATMENTS} {where} {IN_ORDER}", first=first, last=last)


def treatment(reader: Reader, id: int) -> Treatment | None:
    """The treatment of that number."""
    return reader.one(Treatment, f"{TREATMENTS} WHERE treatment.id = :id", id=id)


def bed_holds(reader: Reader) -> dict[int, list[Hold]]:
    """The holds on what grows in each bed that ever had one, by the id of the bed, in the order of the treatments.

    What was done to a bed holds that bed, what was done to a unit all of its beds.
    """
    done = reader.all(Treatment, f"{ON_BEDS} {IN_ORDER}")
    if not done:
        return {}
    zone, found = farm(reader).time_zone, dict[int, list[Hold]]()
    for row in reader.rows(BEDS):
        for one in done:
            over = _hold(one, one.day, one.harvest_days, zone)
            if (row["id"] if one.bed_id else row["unit_id"]) == (one.bed_id or one.unit_id) and over.covers(one.day):
                found.setdefault(row["id"], []).append(over)
    return found


def lot_holds(reader: Reader) -> dict[int, list[Hold]]:
    """The holds on each fish lot that ever had one, by the id of the lot, in the order of the treatments.

    What was done to a lot holds that lot, anything else all fish that live in the unit while it holds. The hold goes
    with the fish: into another unit, and by a transfer into another lot.
    """
    done = treatments(reader, date.min, date.max)
    if not done:
        return {}
    zone, homes = farm(reader).time_zone, stays(reader)
    moves = [(day(row["day"]), row["from_lot_id"], row["to_lot_id"]) for row in reader.rows(MOVES)]
    found: dict[int, list[Hold]] = {}
    for one in done:
        over = _hold(one, one.day, one.fish_days or 0, zone)
        if over.covers(one.day):
            for lot, since in sorted(_exposed(over, homes, moves).items()):
                found.setdefault(lot, []).append(_hold(one, since, one.fish_days or 0, zone))
    return found


def _hold(one: Treatment, since: date, days: int, zone: str) -> Hold:
    """Counted in days of the calendar, and never over before people may go in again."""
    entered = one.at + timedelta(hours=one.reentry_hours)
    free_day = max(one.day + timedelta(days=days), entered.astimezone(clock.time_zone(zone)).date())
    free_at = max(clock.days_later(one.at, days, zone), entered)
    return Hold(one, since, free_day, free_at, clock.hour_of(free_at, zone))


def _exposed(over: Hold, homes: Iterable[Stay], moves: Iterable[Move]) -> dict[int, date]:
    """The lots that carry a hold, and from which day."""
    done, found = over.treatment, dict[int, date]()
    if done.lot_id is not None:
        found[done.lot_id] = done.day
    else:
        for stay in homes:
            since = max(stay.first, done.day)
            if stay.unit_id == done.unit_id and since < over.free_day and (stay.last is None or stay.last >= since):
                found[stay.lot_id] = min(found.get(stay.lot_id, since), since)
    return _carried(over, found, tuple(moves))


def _carried(over: Hold, found: dict[int, date], moves: tuple[Move, ...]) -> dict[int, date]:
    grown = True
    while grown:
        grown = False
        for moved, source, target in moves:
            carries = source in found and found[source] <= moved < over.free_day
            if carries and moved < found.get(target, date.max):
                found[target], grown = moved, True
    return found
