"""Readings of units and the instruments they came from, the usage of parts, and forecasts of the weather."""

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
    instrument_id: int | None = link("instrument", required=False)
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


class InstrumentRow(Row, table=True):
    """What is read with: a kit, a meter, a thermometer. The measures it reads, parted by commas."""

    __tablename__ = "instrument"
    __table_args__ = table_options(
        unique("name"),
        one_of("form", Form),
        check("expires_after_from", "expires_day >= from_day"),
        check("until_after_from", "until_day >= from_day"),
        check("check_days_positive", "check_days > 0"),
    )

    name: str = words()
    measures: str = words()
    form: str | None = words(required=False)
    from_day: date
    expires_day: date | None
    until_day: date | None
    note: str | None = words(required=False)
    check_days: int | None = whole(required=False)


class InstrumentCheckRow(Row, table=True):
    """An instrument held against something known on a day."""

    __tablename__ = "instrument_check"
    __table_args__ = table_options()

    day: date
    instrument_id: int = link("instrument")
    passed: bool
    against: str | None = words(required=False)
    showed: str | None = words(required=False)
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)


class LimitRow(Row, table=True):
    """The grower's own limits of a measure from a day on, for one unit or for all; in the unit of the measure."""

    __tablename__ = "own_limit"
    __table_args__ = table_options(
        one_of("measure", Measure),
        check("says_something", "low IS NOT NULL OR high IS NOT NULL"),
        check("low_below_high", "low <= high"),
    )

    from_day: date
    unit_id: int | None = link("unit", required=False)
    measure: str = words()
    low: float | None
    high: float | None
    note: str | None = words(required=False)
