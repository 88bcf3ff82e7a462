"""Money paid, and what produce and fish are worth from day to day."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.costs import Category, CostKind
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class CostRow(Row, table=True):
    """Money paid, in minor units; without a unit it is shared by all active ones."""

    __tablename__ = "cost"
    __table_args__ = table_options(
        one_of("kind", CostKind),
        one_of("category", Category),
        check("amount_positive", "amount_minor > 0"),
        check("life_with_capital", "(kind = 'capital') = (life_months IS NOT NULL)"),
        check("life_positive", "life_months > 0"),
        check("salvage_with_capital", "(kind = 'capital') = (salvage_minor IS NOT NULL)"),
        check("salvage_below_amount", "salvage_minor BETWEEN 0 AND amount_minor"),
        Index(None, "day"),
    )

    day: date
    what: str = words()
    category: str = words()
    payee: str | None = words(required=False)
    amount_minor: int = whole()
    amount_typed: str = words()
    unit_id: int | None = link("unit", required=False)
    kind: str = words()
    life_months: int | None = whole(required=False)
    salvage_minor: int | None = whole(required=False)
    note: str | None = words(required=False)


class PriceRow(Row, table=True):
    """What a crop or a species is worth from a day on: minor units per milligrams, undivided."""

    __tablename__ = "price"
    __table_args__ = table_options(
        check("one_product", "(crop_id IS NULL) <> (species IS NULL)"),
        check("price_not_negative", "price_minor >= 0"),
        check("per_positive", "per_mg > 0"),
        unique("crop_id", "from_day"),
        unique("species", "from_day"),
    )

    crop_id: int | None = link("crop", required=False)
    species: str | None = words(required=False)
    from_day: date
    price_minor: int = whole()
    per_mg: int = whole()
    typed: str = words()
