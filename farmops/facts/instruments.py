"""Instruments, their checks, and which one is read with."""

from __future__ import annotations

from datetime import date

from farmops.facts.readings import READINGS, latest
from farmops.model.instruments import Instrument, InstrumentCheck
from farmops.model.readings import Doubt, Measure
from farmops.records.reading import Reader

INSTRUMENTS = """
    SELECT id, name, measures, form, from_day, expires_day, until_day, check_days, note FROM instrument
"""
CHECKS = """
    SELECT instrument_check.id, instrument_check.day, instrument_check.instrument_id, instrument.name AS instrument,
        instrument_check.passed, instrument_check.against, instrument_check.showed, instrument_check.note
    FROM instrument_check JOIN instrument ON instrument.id = instrument_check.instrument_id
"""


def instruments(reader: Reader) -> list[Instrument]:
    """Every instrument, in service or not, in the order in which they came."""
    return reader.all(Instrument, f"{INSTRUMENTS} ORDER BY from_day, id")


def instrument(reader: Reader, id: int) -> Instrument | None:
    """The instrument of that id."""
    return reader.one(Instrument, f"{INSTRUMENTS} WHERE id = :id", id=id)


def checks(reader: Reader) -> list[InstrumentCheck]:
    """Every check, the oldest first."""
    return reader.all(InstrumentCheck, f"{CHECKS} ORDER BY instrument_check.day, instrument_check.id")


def check(reader: Reader, id: int) -> InstrumentCheck | None:
    """The check of that number."""
    return reader.one(InstrumentCheck, f"{CHECKS} WHERE instrument_check.id = :id", id=id)


def read_with(reader: Reader, on: date) -> dict[Measure, Instrument]:
    """What each measure is read with on a day: what it was read with last, if that still serves; else the only one
    that reads it.
    """
    serving = {one.id: one for one in instruments(reader) if one.serves(on)}
    if not serving:
        return {}
    reads = [(one, one.reads) for one in serving.values()]
    able = {measure: [one for one, read in reads if measure in read] for measure in Measure}
    found = {measure: ones[0] for measure, ones in able.items() if len(ones) == 1}
    for one in sorted(latest(reader, on), key=lambda one: (one.day, one.id)):
        last = serving.get(one.instrument_id or 0)
        if last is not None and one.measure in last.reads:
            found[one.measure] = last
    return found


def doubtful(reader: Reader, instrument: int) -> int:
    """How many readings of an instrument a failed check makes doubtful."""
    query = f"SELECT COUNT(*) FROM ({READINGS} WHERE reading.instrument_id = :instrument) AS own WHERE doubt = :failed"
    return int(reader.value(query, instrument=instrument, failed=Doubt.FAILED.value))
