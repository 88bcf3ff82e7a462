"""Power: what hangs on it, what the meter said, and what a kilowatt-hour costs."""

from __future__ import annotations

from datetime import date

from farmops.records.base import Row, check, link, table_options, unique, whole, words


class DeviceRow(Row, table=True):
    """Something that runs on power in one unit or for all: rated milliwatts, minutes it runs a day, from a day on."""

    __tablename__ = "device"
    __table_args__ = table_options(
        check("rated_positive", "rated_mw > 0"),
        check("minutes_of_a_day", "minutes_a_day BETWEEN 0 AND 1440"),
        check("until_after_from", "until_day >= from_day"),
    )

    name: str = words()
    unit_id: int | None = link("unit", required=False)
    rated_mw: int = whole()
    rated_typed: str = words()
    minutes_a_day: int = whole()
    from_day: date
    until_day: date | None
    note: str | None = words(required=False)


class MeterRow(Row, table=True):
    """What a power meter showed on a day, of one unit or of all, in watt-hours."""

    __tablename__ = "meter"
    __table_args__ = table_options(check("shown_not_negative", "shown_wh >= 0"), unique("unit_id", "day"))

    day: date
    unit_id: int | None = link("unit", required=False)
    shown_wh: int = whole()
    shown_typed: str = words()
    note: str | None = words(required=False)


class PowerPriceRow(Row, table=True):
    """What power costs from a day on: minor units for so many watt-hours, never divided."""

    __tablename__ = "power_price"
    __table_args__ = table_options(
        unique("from_day"), check("price_not_negative", "price_minor >= 0"), check("per_positive", "per_wh > 0")
    )

    from_day: date
    price_minor: int = whole()
    per_wh: int = whole()
    typed: str = words()
