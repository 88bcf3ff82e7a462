"""Weighings of what came out."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.harvests import Use
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class HarvestRow(Row, table=True):
    """One weighing, net of its tare, in milligrams, from one planting or one fish lot.

    `minutes` of work it took; `dressed_mg` is what is left of fish that were gutted.
    """

    __tablename__ = "harvest"
    __table_args__ = table_options(
        check("one_origin", "(planting_id IS NULL) <> (fish_lot_id IS NULL)"),
        check("mass_positive", "mass_mg > 0"),
        check("tare_not_negative", "tare_mg >= 0"),
        check("number_positive", "number > 0"),
        check("minutes_sensible", "minutes BETWEEN 0 AND 1440"),
        check("dressed_below_whole", "dressed_mg BETWEEN 1 AND mass_mg"),
        one_of("use", Use),
        unique("fingerprint"),
        Index(None, "day"),
        Index(None, "planting_id", "day", "use", "mass_mg"),
    )

    day: date
    planting_id: int | None = link("planting", required=False)
    fish_lot_id: int | None = link("fish_lot", required=False)
    mass_mg: int = whole()
    mass_typed: str = words()
    tare_mg: int = whole()
    tare_typed: str | None = words(required=False)
    number: int | None = whole(required=False)
    use: str = words()
    minutes: int | None = whole(required=False)
    dressed_mg: int | None = whole(required=False)
    dressed_typed: str | None = words(required=False)
    note: str | None = words(required=False)
    fingerprint: str | None = words(required=False)
