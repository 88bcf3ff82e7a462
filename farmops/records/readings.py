"""Readings of units, the usage of their parts, and forecasts of the weather."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.readings import Form, Measure
from farmops.model.usage import Counter
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class ReadingRow(Row, table=True):
    """One measured value, in the unit of its measure; nitrogen compounds as N, whatever form was read.

    `minute` is the minute of the farm's day; `settlement_id` the doing of a chore that asked for it.
    """

    __tablename__ = "reading"
    __table_args__ = table_options(
        one_of("measure", Measure),
        one_of("form", Form),
        check("minute_of_a_day", "minute BETWEEN 0 AND 1439"),
        Index(None, "unit_id", "measure", "day"),
    )

    day: date
    minute: int | None = whole(required=False)
    unit_id: int = link("unit")
    measure: str = words()
    value: float
    form: str | None = words(required=False)
    typed: str = words()
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)


class UsageRow(Row, table=True):
    """How much a part of a unit worked up to a day since the record before: minutes, milligrams or cycles."""

    __tablename__ = "usage"
    __table_args__ = table_options(one_of("counter", Counter), check("amount_positive", "amount > 0"))

    day: date
    unit_id: int = link("unit")
    counter: str = words()
    amount: int = whole()
    typed: str = words()
    note: str | None = words(required=False)


class ForecastRow(Row, table=True):
    """The lowest and highest air temperature that is forecast for a day, in degrees Celsius."""

    __tablename__ = "forecast"
    __table_args__ = table_options(
        unique("day"),
        check("says_something", "low_c IS NOT NULL OR high_c IS NOT NULL"),
        check("low_below_high", "low_c <= high_c"),
    )

    day: date
    low_c: float | None
    low_typed: str | None = words(required=False)
    high_c: float | None
    high_typed: str | None = words(required=False)
    note: str | None = words(required=False)
