"""The farm's own row and the people who work on it."""

from __future__ import annotations

from datetime import date

from sqlalchemy import false
from sqlmodel import Field

from farmops.records.base import Row, check, table_options, unique, whole, words


class FarmRow(Row, table=True):
    """The one farm of this store and how it measures; altitude in micrometres.

    `stands_on_day` is the day on which the clock of an invented farm stands still.
    """

    __tablename__ = "farm"
    __table_args__ = table_options(
        check("one", "id = 1"),
        check("mass_known", "mass IN ('lb_oz', 'kg')"),
        check("volume_known", "volume IN ('gal', 'L')"),
        check("area_known", "area IN ('sq_ft', 'm2')"),
        check("length_known", "length IN ('ft', 'cm', 'm')"),
        check("temperature_known", "temperature IN ('F', 'C')"),
        check("currency_code", "length(currency) = 3"),
    )

    name: str = words()
    mass: str = words()
    volume: str = words()
    area: str = words()
    length: str = words()
    temperature: str = words()
    currency: str = words()
    decimal_comma: bool
    time_zone: str = words()
    altitude_um: int | None = whole(required=False)
    altitude_typed: str | None = words(required=False)
    opened_day: date
    stands_on_day: date | None


class PersonRow(Row, table=True):
    """Somebody who works here; a minor is not given the chores that are for adults only."""

    __tablename__ = "person"
    __table_args__ = table_options(unique("name"))

    name: str = words()
    minor: bool = Field(default=False, sa_column_kwargs={"server_default": false()})
    note: str | None = words(required=False)
