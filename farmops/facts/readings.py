"""Readings of the water and of the flow, and the latest of each."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from farmops.model.readings import NITROGEN, Doubt, Form, Measure, Reading
from farmops.records.reading import Reader

DOUBT = f"""
    CASE WHEN reading.instrument_id IS NULL THEN NULL
        WHEN NOT (
            SELECT passed FROM instrument_check
            WHERE instrument_check.instrument_id = reading.instrument_id AND instrument_check.day >= reading.day
            ORDER BY instrument_check.day, instrument_check.id LIMIT 1
        ) OR NOT (
            SELECT passed FROM instrument_check
            WHERE instrument_check.instrument_id = reading.instrument_id AND instrument_check.day < reading.day
            ORDER BY instrument_check.day DESC, instrument_check.id DESC LIMIT 1
        ) THEN '{Doubt.FAILED}'
        WHEN instrument.expires_day < reading.day THEN '{Doubt.EXPIRED}'
    END
"""
READINGS = f"""
    SELECT reading.id, reading.day, reading.minute, reading.unit_id, unit.code AS unit, reading.measure, reading.value,
        reading.form, reading.typed, reading.settlement_id, reading.note, reading.operation, reading.instrument_id,
        instrument.name AS instrument, {DOUBT} AS doubt
    FROM reading JOIN unit ON unit.id = reading.unit_id
    LEFT JOIN instrument ON instrument.id = reading.instrument_id
"""
MOMENT = """
    COALESCE({0}.minute, (
        SELECT MAX(before.minute) FROM reading AS before
        WHERE before.unit_id = {0}.unit_id AND before.measure = {0}.measure AND before.day = {0}.day
            AND before.id < {0}.id
    ), -1)
"""
IN_ORDER = f"ORDER BY reading.day, {MOMENT.format('reading')}, reading.id"
ALL_MEASURES = " UNION ALL ".join(f"SELECT '{one.value}' AS measure, {at} AS place" for at, one in enumerate(Measure))
LATEST = f"""
    SELECT found.* FROM unit AS place
    CROSS JOIN ({ALL_MEASURES}) AS kind
    JOIN ({{select}}) AS found ON found.id = (
        SELECT held.id FROM reading AS held
        WHERE held.unit_id = place.id AND held.measure = kind.measure AND held.day <= :last
        ORDER BY held.day DESC, {MOMENT.format("held")} DESC, held.id DESC LIMIT 1
    )
    {{only}} ORDER BY place.position, place.id, kind.place
"""


def readings(
    reader: Reader, first: date, last: date, unit: int | None = None, measure: Measure | None = None
) -> list[Reading]:
    """The readings of a span of days, both included, oldest first; of one unit, of one measure, or all.

    Within a day the hour orders them; one without an hour comes after those that were booked before it.
    """
    wanted = ["reading.day BETWEEN :first AND :last"]
    given: dict[str, object] = {"first": first, "last": last}
    if unit is not None:
        wanted.append("reading.unit_id = :unit")
        given["unit"] = unit
    if measure is not None:
        wanted.append("reading.measure = :measure")
        given["measure"] = measure.value
    return reader.all(Reading, f"{READINGS} WHERE {' AND '.join(wanted)} {IN_ORDER}", **given)


def reading(reader: Reader, id: int) -> Reading | None:
    """The reading of that id."""
    return reader.one(Reading, f"{READINGS} WHERE reading.id = :id", id=id)


def latest(reader: Reader, on: date, measure: Measure | None = None) -> list[Reading]:
    """The last reading of each unit and measure up to a day, in walking order; of one measure, or of all."""
    if measure is None:
        return reader.all(Reading, LATEST.format(select=READINGS, only=""), last=on)
    query = LATEST.format(select=READINGS, only="WHERE kind.measure = :measure")
    return reader.all(Reading, query, last=on, measure=measure.value)


def of_settlements(reader: Reader, ids: Iterable[int]) -> list[Reading]:
    """The readings that were booked with doings of chores, in the order they were booked."""
    listed = ", ".join(str(int(id)) for id in sorted(set(ids))) or "NULL"
    return reader.all(Reading, f"{READINGS} WHERE reading.settlement_id IN ({listed}) ORDER BY reading.id")


def last_forms(reader: Reader) -> dict[Measure, Form]:
    """The form in which each nitrogen compound was read last on this farm: what its kits report."""
    found = [one for measure in NITROGEN for one in latest(reader, date.max, measure)]
    found.sort(key=lambda one: (one.day, one.id))
    return {one.measure: one.form for one in found if one.form is not None}
