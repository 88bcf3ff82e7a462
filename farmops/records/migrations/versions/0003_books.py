"""Books: how costs are shared, labour, sales, supplies, papers and power."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from farmops.records.migrations.changing import change_table

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Lay the tables of version 3 and widen those there are."""
    op.create_table(
        "cost_label",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("label_set", sa.Text(), nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("category", sa.Text(), nullable=True),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cost_label")),
        sa.UniqueConstraint("label_set", "label", name=op.f("uq_cost_label_label_set_label")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "driver",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("category", sa.Text(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("driver", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "category IN ('all', 'feed', 'seed and plants', 'fish', 'power', 'water', 'supplies', 'repairs', 'building', 'tools', 'insurance', 'fees and permits', 'hired labour', 'other')",
            name=op.f("ck_driver_category_known"),
        ),
        sa.CheckConstraint(
            "driver IN ('equal', 'bed area', 'tank volume', 'biomass', 'minutes worked', 'pump watt-hours', 'fixed shares')",
            name=op.f("ck_driver_driver_known"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_driver")),
        sa.UniqueConstraint("category", "from_day", name=op.f("uq_driver_category_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "joint_split",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("method", sa.Text(), nullable=False),
        sa.Column("produce_thousandths", sa.BigInteger(), nullable=True),
        sa.CheckConstraint(
            "(method = 'fixed shares') = (produce_thousandths IS NOT NULL)",
            name=op.f("ck_joint_split_share_with_fixed"),
        ),
        sa.CheckConstraint(
            "method IN ('weight', 'sales value', 'net realisable value', 'constant gross margin', 'fixed shares')",
            name=op.f("ck_joint_split_method_known"),
        ),
        sa.CheckConstraint("produce_thousandths BETWEEN 0 AND 1000", name=op.f("ck_joint_split_share_of_all")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_joint_split")),
        sa.UniqueConstraint("from_day", name=op.f("uq_joint_split_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "power_price",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("price_minor", sa.BigInteger(), nullable=False),
        sa.Column("per_wh", sa.BigInteger(), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.CheckConstraint("per_wh > 0", name=op.f("ck_power_price_per_positive")),
        sa.CheckConstraint("price_minor >= 0", name=op.f("ck_power_price_price_not_negative")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_power_price")),
        sa.UniqueConstraint("from_day", name=op.f("uq_power_price_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "sale",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("buyer", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sale")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_sale_day"), "sale", ["day"], unique=False)
    op.create_table(
        "supply",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("category", sa.Text(), nullable=False),
        sa.Column("held_by", sa.Text(), nullable=False),
        sa.Column("reorder_at", sa.BigInteger(), nullable=True),
        sa.Column("reorder_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "category IN ('feed', 'seed and plants', 'fish', 'power', 'water', 'supplies', 'repairs', 'building', 'tools', 'insurance', 'fees and permits', 'hired labour', 'other')",
            name=op.f("ck_supply_category_known"),
        ),
        sa.CheckConstraint("held_by IN ('mass', 'volume', 'count')", name=op.f("ck_supply_held_by_known")),
        sa.CheckConstraint("reorder_at >= 0", name=op.f("ck_supply_reorder_not_negative")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_supply")),
        sa.UniqueConstraint("name", name=op.f("uq_supply_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "device",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("rated_mw", sa.BigInteger(), nullable=False),
        sa.Column("rated_typed", sa.Text(), nullable=False),
        sa.Column("minutes_a_day", sa.BigInteger(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("minutes_a_day BETWEEN 0 AND 1440", name=op.f("ck_device_minutes_of_a_day")),
        sa.CheckConstraint("rated_mw > 0", name=op.f("ck_device_rated_positive")),
        sa.CheckConstraint("until_day >= from_day", name=op.f("ck_device_until_after_from")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_device_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_device_unit_id"), "device", ["unit_id"], unique=False)
    op.create_table(
        "driver_share",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("driver_id", sa.BigInteger(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("parts", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("parts >= 0", name=op.f("ck_driver_share_parts_not_negative")),
        sa.ForeignKeyConstraint(
            ["driver_id"], ["driver.id"], name=op.f("fk_driver_share_driver_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_driver_share_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_driver_share")),
        sa.UniqueConstraint("driver_id", "unit_id", name=op.f("uq_driver_share_driver_id_unit_id")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_driver_share_driver_id"), "driver_share", ["driver_id"], unique=False)
    op.create_index(op.f("ix_driver_share_unit_id"), "driver_share", ["unit_id"], unique=False)
    op.create_table(
        "labour_rate",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("person_id", sa.BigInteger(), nullable=True),
        sa.Column("rate_minor", sa.BigInteger(), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.CheckConstraint("rate_minor >= 0", name=op.f("ck_labour_rate_rate_not_negative")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.id"], name=op.f("fk_labour_rate_person_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_labour_rate")),
        sa.UniqueConstraint("person_id", "from_day", name=op.f("uq_labour_rate_person_id_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_labour_rate_person_id"), "labour_rate", ["person_id"], unique=False)
    op.create_table(
        "meter",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("shown_wh", sa.BigInteger(), nullable=False),
        sa.Column("shown_typed", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("shown_wh >= 0", name=op.f("ck_meter_shown_not_negative")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_meter_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_meter")),
        sa.UniqueConstraint("unit_id", "day", name=op.f("uq_meter_unit_id_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_meter_unit_id"), "meter", ["unit_id"], unique=False)
    op.create_table(
        "paper",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("number", sa.Text(), nullable=True),
        sa.Column("issued_by", sa.Text(), nullable=True),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("file", sa.Text(), nullable=True),
        sa.Column("file_name", sa.Text(), nullable=True),
        sa.Column("file_sha256", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('permit', 'insurance', 'scale seal', 'certificate', 'contract', 'other')",
            name=op.f("ck_paper_kind_known"),
        ),
        sa.CheckConstraint(
            "(file IS NULL) = (file_name IS NULL) AND (file IS NULL) = (file_sha256 IS NULL)",
            name=op.f("ck_paper_file_whole"),
        ),
        sa.CheckConstraint("until_day >= from_day", name=op.f("ck_paper_until_after_from")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_paper_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_paper")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_paper_unit_id"), "paper", ["unit_id"], unique=False)
    op.create_table(
        "recurring_cost",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("category", sa.Text(), nullable=False),
        sa.Column("payee", sa.Text(), nullable=True),
        sa.Column("amount_minor", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("rule_text", sa.Text(), nullable=False),
        sa.Column("rule_words", sa.Text(), nullable=False),
        sa.Column("start_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("label", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "category IN ('feed', 'seed and plants', 'fish', 'power', 'water', 'supplies', 'repairs', 'building', 'tools', 'insurance', 'fees and permits', 'hired labour', 'other')",
            name=op.f("ck_recurring_cost_category_known"),
        ),
        sa.CheckConstraint("amount_minor > 0", name=op.f("ck_recurring_cost_amount_positive")),
        sa.CheckConstraint("until_day >= start_day", name=op.f("ck_recurring_cost_until_after_start")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_recurring_cost_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_recurring_cost")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_recurring_cost_unit_id"), "recurring_cost", ["unit_id"], unique=False)
    op.create_table(
        "standing_order",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("buyer", sa.Text(), nullable=False),
        sa.Column("crop_id", sa.BigInteger(), nullable=True),
        sa.Column("species", sa.Text(), nullable=True),
        sa.Column("sold_by", sa.Text(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("price_minor", sa.BigInteger(), nullable=False),
        sa.Column("per_amount", sa.BigInteger(), nullable=False),
        sa.Column("price_typed", sa.Text(), nullable=False),
        sa.Column("rule_text", sa.Text(), nullable=False),
        sa.Column("rule_words", sa.Text(), nullable=False),
        sa.Column("start_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "sold_by IN ('weight', 'bunch', 'head', 'dozen', 'each')", name=op.f("ck_standing_order_sold_by_known")
        ),
        sa.CheckConstraint("(crop_id IS NULL) <> (species IS NULL)", name=op.f("ck_standing_order_one_product")),
        sa.CheckConstraint("amount > 0", name=op.f("ck_standing_order_amount_positive")),
        sa.CheckConstraint("per_amount > 0", name=op.f("ck_standing_order_per_positive")),
        sa.CheckConstraint("price_minor >= 0", name=op.f("ck_standing_order_price_not_negative")),
        sa.CheckConstraint("until_day >= start_day", name=op.f("ck_standing_order_until_after_start")),
        sa.ForeignKeyConstraint(
            ["crop_id"], ["crop.id"], name=op.f("fk_standing_order_crop_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_standing_order")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_standing_order_crop_id"), "standing_order", ["crop_id"], unique=False)
    op.create_table(
        "sale_line",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("sale_id", sa.BigInteger(), nullable=False),
        sa.Column("planting_id", sa.BigInteger(), nullable=True),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=True),
        sa.Column("sold_by", sa.Text(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("unsold", sa.BigInteger(), nullable=False),
        sa.Column("returned", sa.BigInteger(), nullable=False),
        sa.Column("price_minor", sa.BigInteger(), nullable=False),
        sa.Column("per_amount", sa.BigInteger(), nullable=False),
        sa.Column("price_typed", sa.Text(), nullable=False),
        sa.Column("mass_mg", sa.BigInteger(), nullable=True),
        sa.Column("mass_typed", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "sold_by IN ('weight', 'bunch', 'head', 'dozen', 'each')", name=op.f("ck_sale_line_sold_by_known")
        ),
        sa.CheckConstraint("(planting_id IS NULL) <> (fish_lot_id IS NULL)", name=op.f("ck_sale_line_one_origin")),
        sa.CheckConstraint("amount > 0", name=op.f("ck_sale_line_amount_positive")),
        sa.CheckConstraint("mass_mg > 0", name=op.f("ck_sale_line_mass_positive")),
        sa.CheckConstraint("per_amount > 0", name=op.f("ck_sale_line_per_positive")),
        sa.CheckConstraint("price_minor >= 0", name=op.f("ck_sale_line_price_not_negative")),
        sa.CheckConstraint(
            "unsold >= 0 AND returned >= 0 AND unsold + returned <= amount", name=op.f("ck_sale_line_rest_not_negative")
        ),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_sale_line_fish_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["planting_id"],
            ["planting.id"],
            name=op.f("fk_sale_line_planting_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["sale_id"], ["sale.id"], name=op.f("fk_sale_line_sale_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sale_line")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_sale_line_fish_lot_id"), "sale_line", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_sale_line_planting_id"), "sale_line", ["planting_id"], unique=False)
    op.create_index(op.f("ix_sale_line_sale_id"), "sale_line", ["sale_id"], unique=False)
    op.create_table(
        "supply_lot",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("supply_id", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("cost_id", sa.BigInteger(), nullable=True),
        sa.Column("lot_code", sa.Text(), nullable=True),
        sa.Column("opened_day", sa.Date(), nullable=True),
        sa.Column("expires_day", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("amount > 0", name=op.f("ck_supply_lot_amount_positive")),
        sa.CheckConstraint("expires_day >= day", name=op.f("ck_supply_lot_expires_after_day")),
        sa.CheckConstraint("opened_day >= day", name=op.f("ck_supply_lot_opened_after_day")),
        sa.ForeignKeyConstraint(
            ["cost_id"], ["cost.id"], name=op.f("fk_supply_lot_cost_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["supply_id"], ["supply.id"], name=op.f("fk_supply_lot_supply_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_supply_lot")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_supply_lot_cost_id"), "supply_lot", ["cost_id"], unique=False)
    op.create_index(op.f("ix_supply_lot_supply_id"), "supply_lot", ["supply_id"], unique=False)
    op.create_index(op.f("ix_supply_lot_supply_id_day"), "supply_lot", ["supply_id", "day"], unique=False)
    op.create_table(
        "supply_use",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("supply_id", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "amount > 0 OR (kind = 'counted' AND amount = 0)", name=op.f("ck_supply_use_amount_sensible")
        ),
        sa.CheckConstraint("kind <> 'counted' OR unit_id IS NULL", name=op.f("ck_supply_use_counted_for_all")),
        sa.CheckConstraint("kind IN ('used', 'thrown away', 'counted')", name=op.f("ck_supply_use_kind_known")),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_supply_use_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["supply_id"], ["supply.id"], name=op.f("fk_supply_use_supply_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_supply_use_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_supply_use")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_supply_use_settlement_id"), "supply_use", ["settlement_id"], unique=False)
    op.create_index(op.f("ix_supply_use_supply_id"), "supply_use", ["supply_id"], unique=False)
    op.create_index(op.f("ix_supply_use_supply_id_day"), "supply_use", ["supply_id", "day"], unique=False)
    op.create_index(op.f("ix_supply_use_unit_id"), "supply_use", ["unit_id"], unique=False)
    change_table(
        "cost",
        columns=[
            sa.Column("bed_id", sa.BigInteger(), nullable=True),
            sa.Column("fish_lot_id", sa.BigInteger(), nullable=True),
            sa.Column("recurring_cost_id", sa.BigInteger(), nullable=True),
            sa.Column("label", sa.Text(), nullable=True),
            sa.Column("receipt", sa.Text(), nullable=True),
            sa.Column("receipt_name", sa.Text(), nullable=True),
            sa.Column("receipt_sha256", sa.Text(), nullable=True),
        ],
        links={"bed_id": "bed", "fish_lot_id": "fish_lot", "recurring_cost_id": "recurring_cost"},
        checks={
            "one_place": (
                "(CASE WHEN unit_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN bed_id IS NULL THEN 0 ELSE 1 END)"
                " + (CASE WHEN fish_lot_id IS NULL THEN 0 ELSE 1 END) <= 1"
            ),
            "receipt_whole": (
                "(receipt IS NULL) = (receipt_name IS NULL) AND (receipt IS NULL) = (receipt_sha256 IS NULL)"
            ),
        },
    )
    change_table(
        "harvest",
        columns=[sa.Column("minutes", sa.BigInteger(), nullable=True)],
        checks={"minutes_sensible": "minutes BETWEEN 0 AND 1440"},
    )
