"""What the tables say of treatments, of what they hold, and of what was weighed all the same."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from farmops.facts import held_weighings, treatments
from farmops.model.harvests import Harvest
from farmops.model.treatments import Hold, Treatment
from farmops.records.beds import BedRow
from farmops.records.farm import FarmRow
from farmops.records.fish import FishLotRow, TransferRow
from farmops.records.harvests import HarvestRow
from farmops.records.plantings import PlantingRow
from farmops.records.units import UnitRow
from farmops.records.water import TreatmentRow
from tests.facts.of_work import _harvest
from tests.facts.tables import SPANS, Answer, Tables, columns, in_span, says

DAY = timedelta(days=1)
COLUMNS = (
    *("id", "day", "bed_id", "product", "active", "registration", "against", "amount_typed"),
    *("reentry_hours", "harvest_days", "fish_days", "actor", "note", "operation"),
)
EVER = (date.min, date.max)


def _unit_id(rows: Tables, row: TreatmentRow) -> int:
    if row.bed_id is not None:
        return rows.get(BedRow, row.bed_id).unit_id
    home = rows.place_on(row.fish_lot_id, row.day) if row.fish_lot_id is not None else None
    return home.unit_id if home else row.unit_id or 0


def _treatment(rows: Tables, row: TreatmentRow) -> Treatment:
    unit = rows.get(UnitRow, _unit_id(rows, row))
    return Treatment(
        **columns(row, *COLUMNS),
        at=row.at.replace(tzinfo=UTC) if row.at.tzinfo is None else row.at,
        unit_id=unit.id,
        unit=unit.code,
        bed=rows.bed_code(row.bed_id) if row.bed_id is not None else None,
        lot_id=row.fish_lot_id,
        lot=rows.get(FishLotRow, row.fish_lot_id).code if row.fish_lot_id is not None else None,
    )


def _done(rows: Tables) -> list[Treatment]:
    return sorted((_treatment(rows, row) for row in rows[TreatmentRow]), key=lambda one: (one.at, one.id))


@says(treatments.treatments)
def treatments_of_spans(rows: Tables) -> Iterator[Answer]:
    for span in (*SPANS, EVER):
        yield span, [one for one in _done(rows) if in_span(one.day, span)]


@says(treatments.treatment)
def each_treatment(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for one in _done(rows):
        yield (one.id,), one


def _hold(rows: Tables, one: Treatment, days: int, since: date) -> Hold | None:
    zone = ZoneInfo(rows.get(FarmRow, 1).time_zone)
    entered: datetime = one.at + timedelta(hours=one.reentry_hours)
    free_day = max(one.day + days * DAY, entered.astimezone(zone).date())
    free_at = max(entered, (one.at.astimezone(zone) + days * DAY).astimezone(UTC))
    return Hold(one, since, free_day, free_at, f"{free_at.astimezone(zone):%H:%M}") if free_day > one.day else None


def held_beds(rows: Tables) -> dict[int, list[Hold]]:
    """The holds on each bed."""
    found: dict[int, list[Hold]] = {}
    for one in _done(rows):
        hold = _hold(rows, one, one.harvest_days, one.day)
        for bed in rows[BedRow]:
            if hold and one.lot_id is None and bed.id == (one.bed_id or bed.id) and bed.unit_id == one.unit_id:
                found.setdefault(bed.id, []).append(hold)
    return found


@says(treatments.bed_holds)
def holds_on_beds(rows: Tables) -> Iterator[Answer]:
    yield (), held_beds(rows)


def held_lots(rows: Tables) -> dict[int, list[Hold]]:
    """The holds on each fish lot: day by day, who was in the place, and into what they were put."""
    found: dict[int, list[Hold]] = {}
    for one in _done(rows):
        whole = _hold(rows, one, one.fish_days or 0, one.day)
        carriers = _carriers(rows, one, whole) if whole else {}
        for lot in sorted(carriers):
            hold = _hold(rows, one, one.fish_days or 0, carriers[lot])
            assert hold is not None
            found.setdefault(lot, []).append(hold)
    return found


def _carriers(rows: Tables, one: Treatment, hold: Hold) -> dict[int, date]:
    carriers: dict[int, date] = {}
    for n in range((hold.free_day - one.day).days):
        day = one.day + n * DAY
        for lot in rows[FishLotRow]:
            home = rows.place_on(lot.id, day)
            here = home is not None and home.unit_id == one.unit_id and day <= (lot.closed_day or day)
            if lot.id == one.lot_id or (one.lot_id is None and here):
                carriers.setdefault(lot.id, day)
        moved = [move for move in rows[TransferRow] if move.day == day]
        for move in moved * (len(moved) + 1):
            if move.from_lot_id in carriers:
                carriers.setdefault(move.to_lot_id, day)
    return carriers


@says(treatments.lot_holds)
def holds_on_lots(rows: Tables) -> Iterator[Answer]:
    yield (), held_lots(rows)


def _covering(rows: Tables, row: HarvestRow, holds: list[Hold]) -> list[Hold]:
    return [hold for hold in holds if hold.since <= row.day < hold.free_day and row.use != "waste"]


def _holds_of(rows: Tables, row: HarvestRow) -> list[Hold]:
    if row.planting_id is not None:
        return held_beds(rows).get(rows.get(PlantingRow, row.planting_id).bed_id, [])
    return held_lots(rows).get(row.fish_lot_id or 0, [])


def _in_order(rows: Tables) -> list[HarvestRow]:
    return sorted(rows[HarvestRow], key=lambda row: (row.day, row.id))


@says(held_weighings.weighed_inside)
def weighings_inside(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for one in _done(rows):
        found: list[Harvest] = []
        for row in _in_order(rows):
            own = [hold for hold in _covering(rows, row, _holds_of(rows, row)) if hold.treatment.id == one.id]
            if own and row.day > one.day:
                found.append(_harvest(rows, row))
        yield (one.id,), found


@says(held_weighings.weighed_within)
def weighings_of_their_days(rows: Tables) -> Iterator[Answer]:
    yield ([],), []
    for holds in held_beds(rows).values():
        first, last = min(hold.since for hold in holds), max(hold.free_day for hold in holds)
        own = [row for row in _in_order(rows) if first <= row.day <= last and row.use != "waste"]
        yield (holds,), [_harvest(rows, row) for row in own]
