"""Fish lots and the units they live in."""

from __future__ import annotations

from datetime import date

from farmops.records.base import Row, check, link, table_options, unique, whole, words


class FishLotRow(Row, table=True):
    """Fish kept together; mean weight at stocking in milligrams."""

    __tablename__ = "fish_lot"
    __table_args__ = table_options(
        unique("code"),
        check("number_positive", "number > 0"),
        check("mean_positive", "mean_mg > 0"),
        check("closed_after_stocking", "closed_day >= stocked_day"),
    )

    code: str = words()
    species: str = words()
    library_key: str | None = words(required=False)
    stocked_day: date
    number: int = whole()
    mean_mg: int = whole()
    mean_typed: str = words()
    closed_day: date | None
    note: str | None = words(required=False)


class LotPlaceRow(Row, table=True):
    """The unit a fish lot lives in, from a day on."""

    __tablename__ = "lot_place"
    __table_args__ = table_options(unique("fish_lot_id", "from_day"))

    fish_lot_id: int = link("fish_lot")
    unit_id: int = link("unit")
    from_day: date
