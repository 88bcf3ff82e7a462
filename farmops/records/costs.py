"""Money paid, how shared money is shared out, and what produce, fish and an hour of work are worth from day to day."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.costs import ALL_SHARED, Category, CostKind, Driver, JointMethod
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class CostRow(Row, table=True):
    """Money paid, in minor units; without a unit, bed or lot it is shared by all active units.

    `label` is a word of a set of tax labels; the receipt is a copy kept beside the store.
    """

    __tablename__ = "cost"
    __table_args__ = table_options(
        one_of("kind", CostKind),
        one_of("category", Category),
        check("amount_positive", "amount_minor > 0"),
        check("life_with_capital", "(kind = 'capital') = (life_months IS NOT NULL)"),
        check("life_positive", "life_months > 0"),
        check("salvage_with_capital", "(kind = 'capital') = (salvage_minor IS NOT NULL)"),
        check("salvage_below_amount", "salvage_minor BETWEEN 0 AND amount_minor"),
        check(
            "one_place",
            "(CASE WHEN unit_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN bed_id IS NULL THEN 0 ELSE 1 END)"
            " + (CASE WHEN fish_lot_id IS NULL THEN 0 ELSE 1 END) <= 1",
        ),
        check(
            "receipt_whole",
            "(receipt IS NULL) = (receipt_name IS NULL) AND (receipt IS NULL) = (receipt_sha256 IS NULL)",
        ),
        Index(None, "day"),
        Index(None, "kind", "day"),
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
    bed_id: int | None = link("bed", required=False)
    fish_lot_id: int | None = link("fish_lot", required=False)
    recurring_cost_id: int | None = link("recurring_cost", required=False)
    label: str | None = words(required=False)
    receipt: str | None = words(required=False)
    receipt_name: str | None = words(required=False)
    receipt_sha256: str | None = words(required=False)
    note: str | None = words(required=False)


class RecurringCostRow(Row, table=True):
    """A cost that comes again by a rule; each time is booked as a cost that names it."""

    __tablename__ = "recurring_cost"
    __table_args__ = table_options(
        one_of("category", Category),
        check("amount_positive", "amount_minor > 0"),
        check("until_after_start", "until_day >= start_day"),
    )

    what: str = words()
    category: str = words()
    payee: str | None = words(required=False)
    amount_minor: int = whole()
    amount_typed: str = words()
    unit_id: int | None = link("unit", required=False)
    rule_text: str = words()
    rule_words: str = words()
    start_day: date
    until_day: date | None
    label: str | None = words(required=False)
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


class DriverRow(Row, table=True):
    """What the shared costs of a category, or of all that have none of their own, go to the units by from a day on."""

    __tablename__ = "driver"
    __table_args__ = table_options(
        unique("category", "from_day"),
        one_of("driver", Driver),
        check("category_known", f"category IN ({', '.join(repr(word) for word in (ALL_SHARED, *map(str, Category)))})"),
    )

    category: str = words()
    from_day: date
    driver: str = words()


class DriverShareRow(Row, table=True):
    """The fixed share of a unit under a driver, in parts of all shares."""

    __tablename__ = "driver_share"
    __table_args__ = table_options(unique("driver_id", "unit_id"), check("parts_not_negative", "parts >= 0"))

    driver_id: int = link("driver")
    unit_id: int = link("unit")
    parts: int = whole()


class JointSplitRow(Row, table=True):
    """How the cost of a unit is split between its produce and its fish from a day on.

    The shares, in thousandths of the cost, are given for the method of fixed shares alone.
    """

    __tablename__ = "joint_split"
    __table_args__ = table_options(
        unique("from_day"),
        one_of("method", JointMethod),
        check("share_with_fixed", "(method = 'fixed shares') = (produce_thousandths IS NOT NULL)"),
        check("share_of_all", "produce_thousandths BETWEEN 0 AND 1000"),
    )

    from_day: date
    method: str = words()
    produce_thousandths: int | None = whole(required=False)


class LabourRateRow(Row, table=True):
    """What an hour of work is worth from a day on, of one person or of everybody who has none of their own."""

    __tablename__ = "labour_rate"
    __table_args__ = table_options(unique("person_id", "from_day"), check("rate_not_negative", "rate_minor >= 0"))

    from_day: date
    person_id: int | None = link("person", required=False)
    rate_minor: int = whole()
    typed: str = words()


class CostLabelRow(Row, table=True):
    """A label of a set that the farm has loaded, and the category that takes it when nothing else is said."""

    __tablename__ = "cost_label"
    __table_args__ = table_options(unique("label_set", "label"))

    label_set: str = words()
    label: str = words()
    category: str | None = words(required=False)
    position: int = whole()
