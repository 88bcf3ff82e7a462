"""Rows about the water: readings."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from farmops.facts import instruments as instrument_facts
from farmops.facts import readings as reading_facts
from farmops.farm.file_rows.booking import Book, Booking, Mark
from farmops.farm.operation import Operation
from farmops.farm.readings import reading_rows
from farmops.model.readings import NewReadings, Reading
from farmops.records.base import Row
from farmops.records.reading import Reader
from farmops.science.judging import as_reported


def _book_readings(op: Operation) -> Book[NewReadings]:
    forms = reading_facts.last_forms(op.reader)
    usual = cache(lambda day: instrument_facts.read_with(op.reader, day))

    def book(entry: NewReadings) -> Sequence[Row]:
        known = forms, usual(entry.day)
        return reading_rows(op, entry.unit_id, entry.day, entry.readings, minute=entry.minute, known=known)

    return book


def _readings_held(reader: Reader, entries: Sequence[NewReadings]) -> list[Mark]:
    days = [one.day for one in entries]
    return [_reading_mark(one) for one in reading_facts.readings(reader, min(days), max(days))]


def _reading_mark(one: Reading) -> Mark:
    value = as_reported(one.measure, one.value, one.form)
    return one.unit_id, one.day, one.minute, (one.measure, f"{one.bound}{value:.6g}")


def _new_reading_mark(entry: NewReadings) -> Mark:
    (one,) = entry.readings
    sign = one.typed.lstrip()[:1]
    bound = sign if sign in ("<", ">") else ""
    return entry.unit_id, entry.day, entry.minute, (one.measure, f"{bound}{one.value:.6g}")


BOOKINGS: dict[str, Booking[Any]] = {"readings": Booking(_new_reading_mark, _readings_held, _book_readings)}
