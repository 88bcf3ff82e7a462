"""Supplies, what was bought of them and what became of it; and papers that run out."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.costs import Category
from farmops.model.papers import PaperKind
from farmops.model.supplies import HeldBy, Movement
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class SupplyRow(Row, table=True):
    """A thing that is bought, held and used up; amounts are milligrams, millilitres or pieces."""

    __tablename__ = "supply"
    __table_args__ = table_options(
        unique("name"),
        one_of("category", Category),
        one_of("held_by", HeldBy),
        check("reorder_not_negative", "reorder_at >= 0"),
    )

    name: str = words()
    category: str = words()
    held_by: str = words()
    reorder_at: int | None = whole(required=False)
    reorder_typed: str | None = words(required=False)
    note: str | None = words(required=False)


class SupplyLotRow(Row, table=True):
    """What was bought of a supply at once; what it cost is the cost it names, or nothing for what was there already."""

    __tablename__ = "supply_lot"
    __table_args__ = table_options(
        check("amount_positive", "amount > 0"),
        check("expires_after_day", "expires_day >= day"),
        check("opened_after_day", "opened_day >= day"),
        Index(None, "supply_id", "day"),
    )

    supply_id: int = link("supply")
    day: date
    amount: int = whole()
    amount_typed: str = words()
    cost_id: int | None = link("cost", required=False)
    lot_code: str | None = words(required=False)
    opened_day: date | None
    expires_day: date | None
    note: str | None = words(required=False)


class SupplyUseRow(Row, table=True):
    """What was taken from a supply, for one unit or for all; or, when counted, what was found to be left."""

    __tablename__ = "supply_use"
    __table_args__ = table_options(
        one_of("kind", Movement),
        check("amount_sensible", "amount > 0 OR (kind = 'counted' AND amount = 0)"),
        check("counted_for_all", "kind <> 'counted' OR unit_id IS NULL"),
        Index(None, "supply_id", "day"),
    )

    supply_id: int = link("supply")
    day: date
    kind: str = words()
    amount: int = whole()
    amount_typed: str = words()
    unit_id: int | None = link("unit", required=False)
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)


class PaperRow(Row, table=True):
    """A paper and the last day on which it is good; the file is a copy kept beside the store."""

    __tablename__ = "paper"
    __table_args__ = table_options(
        one_of("kind", PaperKind),
        check("until_after_from", "until_day >= from_day"),
        check("file_whole", "(file IS NULL) = (file_name IS NULL) AND (file IS NULL) = (file_sha256 IS NULL)"),
    )

    kind: str = words()
    name: str = words()
    number: str | None = words(required=False)
    issued_by: str | None = words(required=False)
    unit_id: int | None = link("unit", required=False)
    from_day: date
    until_day: date | None
    file: str | None = words(required=False)
    file_name: str | None = words(required=False)
    file_sha256: str | None = words(required=False)
    note: str | None = words(required=False)
