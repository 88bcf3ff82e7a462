"""What the tables say of readings that should hold still, since what they depend on was changed last."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from farmops.economics.drift import moving
from farmops.facts import drifting
from farmops.facts.drifting import Series
from farmops.model.notes import Changed
from farmops.model.readings import Measure
from farmops.quantities import Measures
from farmops.quantities.drifting import NO_CYCLE_WORDS, drift_words
from farmops.records.farm import FarmRow
from farmops.records.notes import NoteRow
from farmops.records.readings import ReadingRow
from farmops.records.units import UnitRow
from farmops.schedule.rules import Holding
from tests.facts.of_limits import readings_in_order
from tests.facts.tables import DAYS, Answer, Tables, columns, says

CYCLE = ("fill time", "drain time", "flow")
CYCLE_PARTS, WATER_PARTS = {"pump", "siphon", "media", "filter"}, {"water source", "feed", "filter", "media"}


def _series(rows: Tables, last: date) -> list[Series]:
    found = []
    for unit in sorted(rows[UnitRow], key=lambda row: rows.walking(row.id)):
        own = [row for row in readings_in_order(rows) if row.unit_id == unit.id and row.day <= last]
        for name in dict.fromkeys(row.measure for row in own):
            parts = CYCLE_PARTS if name in CYCLE else WATER_PARTS
            notes = [
                row for row in rows[NoteRow] if row.unit_id == unit.id and row.changed in parts and row.day <= last
            ]
            note = max(notes, key=lambda row: (row.day, row.id), default=None)
            kept = [row for row in own if row.measure == name and (note is None or row.day >= note.day)]
            if kept:
                found.append(_one(unit, name, kept, note))
    return found


def _one(unit: UnitRow, name: str, kept: list[ReadingRow], note: NoteRow | None) -> Series:
    days, values = tuple(row.day for row in kept), tuple(row.value for row in kept)
    altered = (note.day, Changed(note.changed)) if note and note.changed else (None, None)
    return Series(unit.id, unit.code, Measure(name), days, values, *altered)


@says(drifting.series)
def series_since_the_last_change(rows: Tables) -> Iterator[Answer]:
    for day in (*DAYS, date.max):
        found = _series(rows, day)
        yield (day,), found
        yield (day, (Measure.PH, Measure.FILL_TIME)), [one for one in found if one.measure.value in ("pH", "fill time")]


ENDS = "a reading as usual again, or a note that pump, siphon, media or filter was changed"


def drifting_from(rows: Tables, wanted: str, side: int) -> dict[int | None, list[Holding]]:
    """By unit: where the latest readings lie on a side, from the second of them on."""
    found: dict[int | None, list[Holding]] = {}
    for one in _series(rows, date.max):
        timed = [pair for pair in zip(one.days, one.values, strict=True) if pair[1] != 1440]
        known = moving([value for _, value in timed])
        if one.measure.value == wanted and known and known.side == side and one.values[-1] != 1440:
            running = next(at for at, was in enumerate(reversed((0, *known.sides))) if was != side)
            if running > 1:
                found.setdefault(one.unit_id, []).append(
                    Holding(timed[-running + 1][0], None, _words(rows, one, timed[-1][1]), ENDS)
                )
    return found


def _words(rows: Tables, one: Series, value: float) -> str:
    known = moving([each for each in one.values if each != 1440])
    assert known is not None
    names = ("mass", "volume", "area", "length", "temperature", "currency", "decimal_comma")
    measures = Measures(**columns(rows.get(FarmRow, 1), *names))
    usual = (known.usual.low, known.usual.high)
    return drift_words(one.measure, value, usual, known.side, known.running, measures)


def not_cycling(rows: Tables) -> dict[int | None, list[Holding]]:
    """By unit: the first of the latest readings that saw no cycle, of whichever time."""
    found: dict[int | None, list[Holding]] = {}
    for one in _series(rows, date.max):
        pairs = list(zip(one.days, one.values, strict=True))
        while len(pairs) > 1 and pairs[-2][1] == 1440 == pairs[-1][1]:
            pairs.pop()
        if one.measure.value in CYCLE and pairs[-1][1] == 1440:
            since = min([pairs[-1][0], *(held.since for held in found.get(one.unit_id, ()))])
            found[one.unit_id] = [Holding(since, None, NO_CYCLE_WORDS, "a fill or drain time that was timed")]
    return found
