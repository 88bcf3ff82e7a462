"""Sales and standing orders."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.sales import SoldBy
from farmops.records.base import Row, check, link, one_of, table_options, whole, words


class SaleRow(Row, table=True):
    """One sale to one buyer on a day; its lines say what."""

    __tablename__ = "sale"
    __table_args__ = table_options(Index(None, "day"))

    day: date
    buyer: str = words()
    note: str | None = words(required=False)


class SaleLineRow(Row, table=True):
    """What was sold from one planting or one fish lot, and what came back.

    `amount`, `unsold` and `returned` are milligrams when sold by weight, else pieces, bunches, heads or dozens; the
    price is minor units for `per_amount` of them, never divided. `mass_mg` is the weight of what was sold by count,
    if it was weighed.
    """

    __tablename__ = "sale_line"
    __table_args__ = table_options(
        check("one_origin", "(planting_id IS NULL) <> (fish_lot_id IS NULL)"),
        one_of("sold_by", SoldBy),
        check("amount_positive", "amount > 0"),
        check("rest_not_negative", "unsold >= 0 AND returned >= 0 AND unsold + returned <= amount"),
        check("price_not_negative", "price_minor >= 0"),
        check("per_positive", "per_amount > 0"),
        check("mass_positive", "mass_mg > 0"),
    )

    sale_id: int = link("sale")
    planting_id: int | None = link("planting", required=False)
    fish_lot_id: int | None = link("fish_lot", required=False)
    sold_by: str = words()
    amount: int = whole()
    amount_typed: str = words()
    unsold: int = whole()
    returned: int = whole()
    price_minor: int = whole()
    per_amount: int = whole()
    price_typed: str = words()
    mass_mg: int | None = whole(required=False)
    mass_typed: str | None = words(required=False)


class StandingOrderRow(Row, table=True):
    """What a buyer takes again and again, by a rule, until a day or for good."""

    __tablename__ = "standing_order"
    __table_args__ = table_options(
        check("one_product", "(crop_id IS NULL) <> (species IS NULL)"),
        one_of("sold_by", SoldBy),
        check("amount_positive", "amount > 0"),
        check("price_not_negative", "price_minor >= 0"),
        check("per_positive", "per_amount > 0"),
        check("until_after_start", "until_day >= start_day"),
    )

    buyer: str = words()
    crop_id: int | None = link("crop", required=False)
    species: str | None = words(required=False)
    sold_by: str = words()
    amount: int = whole()
    amount_typed: str = words()
    price_minor: int = whole()
    per_amount: int = whole()
    price_typed: str = words()
    rule_text: str = words()
    rule_words: str = words()
    start_day: date
    until_day: date | None
    note: str | None = words(required=False)
