"""The first schema: the farm, its units, beds, crops, fish lots, harvests, money and chores, and the journal."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Lay the tables of version 1."""
    op.create_table(
        "crop",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("library_key", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_crop")),
        sa.UniqueConstraint("name", name=op.f("uq_crop_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "farm",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("mass", sa.Text(), nullable=False),
        sa.Column("volume", sa.Text(), nullable=False),
        sa.Column("area", sa.Text(), nullable=False),
        sa.Column("length", sa.Text(), nullable=False),
        sa.Column("temperature", sa.Text(), nullable=False),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.Column("decimal_comma", sa.Boolean(), nullable=False),
        sa.Column("time_zone", sa.Text(), nullable=False),
        sa.Column("altitude_um", sa.BigInteger(), nullable=True),
        sa.Column("altitude_typed", sa.Text(), nullable=True),
        sa.Column("opened_day", sa.Date(), nullable=False),
        sa.Column("stands_on_day", sa.Date(), nullable=True),
        sa.CheckConstraint("area IN ('sq_ft', 'm2')", name=op.f("ck_farm_area_known")),
        sa.CheckConstraint("length IN ('ft', 'cm', 'm')", name=op.f("ck_farm_length_known")),
        sa.CheckConstraint("mass IN ('lb_oz', 'kg')", name=op.f("ck_farm_mass_known")),
        sa.CheckConstraint("temperature IN ('F', 'C')", name=op.f("ck_farm_temperature_known")),
        sa.CheckConstraint("volume IN ('gal', 'L')", name=op.f("ck_farm_volume_known")),
        sa.CheckConstraint("id = 1", name=op.f("ck_farm_one")),
        sa.CheckConstraint("length(currency) = 3", name=op.f("ck_farm_currency_code")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_farm")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "fish_lot",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("species", sa.Text(), nullable=False),
        sa.Column("library_key", sa.Text(), nullable=True),
        sa.Column("stocked_day", sa.Date(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("mean_mg", sa.BigInteger(), nullable=False),
        sa.Column("mean_typed", sa.Text(), nullable=False),
        sa.Column("closed_day", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("closed_day >= stocked_day", name=op.f("ck_fish_lot_closed_after_stocking")),
        sa.CheckConstraint("mean_mg > 0", name=op.f("ck_fish_lot_mean_positive")),
        sa.CheckConstraint("number > 0", name=op.f("ck_fish_lot_number_positive")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fish_lot")),
        sa.UniqueConstraint("code", name=op.f("uq_fish_lot_code")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "journal",
        sa.Column("seq", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("actor", sa.Text(), nullable=False),
        sa.Column("through", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("undoes", sa.Text(), nullable=True),
        sa.Column("redoes", sa.Text(), nullable=True),
        sa.Column("schema_version", sa.Text(), nullable=False),
        sa.Column("images", sa.Text(), nullable=False),
        sa.Column("result", sa.Text(), nullable=False),
        sa.Column("previous", sa.Text(), nullable=False),
        sa.Column("hash", sa.Text(), nullable=False),
        sa.CheckConstraint("length(hash) = 64", name=op.f("ck_journal_hash_length")),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_journal")),
        sa.UniqueConstraint("operation", name=op.f("uq_journal_operation")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_journal_undoes"), "journal", ["undoes"], unique=False)
    op.create_table(
        "person",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
        sa.UniqueConstraint("name", name=op.f("uq_person_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "unit",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.Column("tank_ml", sa.BigInteger(), nullable=True),
        sa.Column("tank_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('coupled', 'hydroponic', 'fish only', 'holding')", name=op.f("ck_unit_kind_known")
        ),
        sa.CheckConstraint("tank_ml > 0", name=op.f("ck_unit_tank_positive")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_unit")),
        sa.UniqueConstraint("code", name=op.f("uq_unit_code")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "bed",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("depth_um", sa.BigInteger(), nullable=True),
        sa.Column("depth_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("kind IN ('media', 'raft', 'film', 'soil')", name=op.f("ck_bed_kind_known")),
        sa.CheckConstraint("depth_um > 0", name=op.f("ck_bed_depth_positive")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_bed_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bed")),
        sa.UniqueConstraint("unit_id", "name", name=op.f("uq_bed_unit_id_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_bed_unit_id"), "bed", ["unit_id"], unique=False)
    op.create_table(
        "cost",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("category", sa.Text(), nullable=False),
        sa.Column("payee", sa.Text(), nullable=True),
        sa.Column("amount_minor", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("life_months", sa.BigInteger(), nullable=True),
        sa.Column("salvage_minor", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("(kind = 'capital') = (life_months IS NOT NULL)", name=op.f("ck_cost_life_with_capital")),
        sa.CheckConstraint(
            "(kind = 'capital') = (salvage_minor IS NOT NULL)", name=op.f("ck_cost_salvage_with_capital")
        ),
        sa.CheckConstraint(
            "category IN ('feed', 'seed and plants', 'fish', 'power', 'water', 'supplies', 'repairs', 'building', 'tools', 'insurance', 'fees and permits', 'hired labour', 'other')",
            name=op.f("ck_cost_category_known"),
        ),
        sa.CheckConstraint("kind IN ('operating', 'capital')", name=op.f("ck_cost_kind_known")),
        sa.CheckConstraint("amount_minor > 0", name=op.f("ck_cost_amount_positive")),
        sa.CheckConstraint("life_months > 0", name=op.f("ck_cost_life_positive")),
        sa.CheckConstraint("salvage_minor BETWEEN 0 AND amount_minor", name=op.f("ck_cost_salvage_below_amount")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_cost_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cost")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_cost_day"), "cost", ["day"], unique=False)
    op.create_index(op.f("ix_cost_unit_id"), "cost", ["unit_id"], unique=False)
    op.create_table(
        "lot_place",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_lot_place_fish_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_lot_place_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lot_place")),
        sa.UniqueConstraint("fish_lot_id", "from_day", name=op.f("uq_lot_place_fish_lot_id_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_lot_place_fish_lot_id"), "lot_place", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_lot_place_unit_id"), "lot_place", ["unit_id"], unique=False)
    op.create_table(
        "price",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("crop_id", sa.BigInteger(), nullable=True),
        sa.Column("species", sa.Text(), nullable=True),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("price_minor", sa.BigInteger(), nullable=False),
        sa.Column("per_mg", sa.BigInteger(), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.CheckConstraint("(crop_id IS NULL) <> (species IS NULL)", name=op.f("ck_price_one_product")),
        sa.CheckConstraint("per_mg > 0", name=op.f("ck_price_per_positive")),
        sa.CheckConstraint("price_minor >= 0", name=op.f("ck_price_price_not_negative")),
        sa.ForeignKeyConstraint(
            ["crop_id"], ["crop.id"], name=op.f("fk_price_crop_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_price")),
        sa.UniqueConstraint("crop_id", "from_day", name=op.f("uq_price_crop_id_from_day")),
        sa.UniqueConstraint("species", "from_day", name=op.f("uq_price_species_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_price_crop_id"), "price", ["crop_id"], unique=False)
    op.create_table(
        "unit_state",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.CheckConstraint(
            "state IN ('planned', 'building', 'cycling', 'running', 'wintering', 'resting', 'retired')",
            name=op.f("ck_unit_state_state_known"),
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_unit_state_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_unit_state")),
        sa.UniqueConstraint("unit_id", "from_day", name=op.f("uq_unit_state_unit_id_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_unit_state_unit_id"), "unit_state", ["unit_id"], unique=False)
    op.create_table(
        "bed_size",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("bed_id", sa.BigInteger(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("area_mm2", sa.BigInteger(), nullable=False),
        sa.Column("area_typed", sa.Text(), nullable=False),
        sa.CheckConstraint("area_mm2 > 0", name=op.f("ck_bed_size_area_positive")),
        sa.ForeignKeyConstraint(
            ["bed_id"], ["bed.id"], name=op.f("fk_bed_size_bed_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bed_size")),
        sa.UniqueConstraint("bed_id", "from_day", name=op.f("uq_bed_size_bed_id_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_bed_size_bed_id"), "bed_size", ["bed_id"], unique=False)
    op.create_table(
        "chore",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("bed_id", sa.BigInteger(), nullable=True),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=True),
        sa.Column("grade", sa.Text(), nullable=False),
        sa.Column("rule_kind", sa.Text(), nullable=False),
        sa.Column("rule_text", sa.Text(), nullable=False),
        sa.Column("rule_words", sa.Text(), nullable=False),
        sa.Column("start_day", sa.Date(), nullable=False),
        sa.Column("part", sa.Text(), nullable=False),
        sa.Column("minutes", sa.BigInteger(), nullable=False),
        sa.Column("instructions", sa.Text(), nullable=True),
        sa.Column("caution", sa.Text(), nullable=True),
        sa.Column("readings", sa.Text(), nullable=True),
        sa.Column("confirmation", sa.Text(), nullable=True),
        sa.Column("adults_only", sa.Boolean(), nullable=False),
        sa.Column("months", sa.Text(), nullable=True),
        sa.Column("states", sa.Text(), nullable=True),
        sa.Column("with_fish", sa.Boolean(), nullable=False),
        sa.Column("template_key", sa.Text(), nullable=True),
        sa.Column("template_version", sa.BigInteger(), nullable=True),
        sa.Column("next_due", sa.Date(), nullable=True),
        sa.CheckConstraint(
            "grade IN ('life support', 'fish care', 'food safety', 'crop', 'upkeep', 'paperwork')",
            name=op.f("ck_chore_grade_known"),
        ),
        sa.CheckConstraint("part IN ('morning', 'midday', 'evening', 'none')", name=op.f("ck_chore_part_known")),
        sa.CheckConstraint("rule_kind IN ('once', 'calendar', 'after')", name=op.f("ck_chore_rule_kind_known")),
        sa.CheckConstraint(
            "(unit_id IS NOT NULL AND bed_id IS NULL AND fish_lot_id IS NULL) OR (unit_id IS NULL AND (bed_id IS NULL OR fish_lot_id IS NULL))",
            name=op.f("ck_chore_one_place"),
        ),
        sa.CheckConstraint("minutes BETWEEN 0 AND 1440", name=op.f("ck_chore_minutes_sensible")),
        sa.ForeignKeyConstraint(
            ["bed_id"], ["bed.id"], name=op.f("fk_chore_bed_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"], ["fish_lot.id"], name=op.f("fk_chore_fish_lot_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_chore_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chore")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_chore_bed_id"), "chore", ["bed_id"], unique=False)
    op.create_index(op.f("ix_chore_fish_lot_id"), "chore", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_chore_next_due"), "chore", ["next_due"], unique=False)
    op.create_index(op.f("ix_chore_unit_id"), "chore", ["unit_id"], unique=False)
    op.create_table(
        "planting",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("bed_id", sa.BigInteger(), nullable=False),
        sa.Column("crop_id", sa.BigInteger(), nullable=False),
        sa.Column("variety", sa.Text(), nullable=True),
        sa.Column("started_day", sa.Date(), nullable=False),
        sa.Column("started_by", sa.Text(), nullable=False),
        sa.Column("cleared_day", sa.Date(), nullable=True),
        sa.Column("plants", sa.BigInteger(), nullable=True),
        sa.Column("area_mm2", sa.BigInteger(), nullable=True),
        sa.Column("area_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("started_by IN ('sowing', 'transplanting')", name=op.f("ck_planting_started_by_known")),
        sa.CheckConstraint("area_mm2 > 0", name=op.f("ck_planting_area_positive")),
        sa.CheckConstraint("cleared_day >= started_day", name=op.f("ck_planting_cleared_after_start")),
        sa.CheckConstraint("plants > 0", name=op.f("ck_planting_plants_positive")),
        sa.ForeignKeyConstraint(
            ["bed_id"], ["bed.id"], name=op.f("fk_planting_bed_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["crop_id"], ["crop.id"], name=op.f("fk_planting_crop_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_planting")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_planting_bed_id"), "planting", ["bed_id"], unique=False)
    op.create_index(op.f("ix_planting_crop_id"), "planting", ["crop_id"], unique=False)
    op.create_table(
        "chore_pause",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("chore_id", sa.BigInteger(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.CheckConstraint("until_day >= from_day", name=op.f("ck_chore_pause_until_after_from")),
        sa.ForeignKeyConstraint(
            ["chore_id"], ["chore.id"], name=op.f("fk_chore_pause_chore_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chore_pause")),
        sa.UniqueConstraint("chore_id", "from_day", name=op.f("uq_chore_pause_chore_id_from_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_chore_pause_chore_id"), "chore_pause", ["chore_id"], unique=False)
    op.create_table(
        "harvest",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("planting_id", sa.BigInteger(), nullable=True),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=True),
        sa.Column("mass_mg", sa.BigInteger(), nullable=False),
        sa.Column("mass_typed", sa.Text(), nullable=False),
        sa.Column("tare_mg", sa.BigInteger(), nullable=False),
        sa.Column("tare_typed", sa.Text(), nullable=True),
        sa.Column("number", sa.BigInteger(), nullable=True),
        sa.Column("use", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("fingerprint", sa.Text(), nullable=True),
        sa.CheckConstraint("use IN ('sold', 'home', 'given', 'waste', 'feed')", name=op.f("ck_harvest_use_known")),
        sa.CheckConstraint("(planting_id IS NULL) <> (fish_lot_id IS NULL)", name=op.f("ck_harvest_one_origin")),
        sa.CheckConstraint("mass_mg > 0", name=op.f("ck_harvest_mass_positive")),
        sa.CheckConstraint("number > 0", name=op.f("ck_harvest_number_positive")),
        sa.CheckConstraint("tare_mg >= 0", name=op.f("ck_harvest_tare_not_negative")),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_harvest_fish_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["planting_id"],
            ["planting.id"],
            name=op.f("fk_harvest_planting_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_harvest")),
        sa.UniqueConstraint("fingerprint", name=op.f("uq_harvest_fingerprint")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_harvest_day"), "harvest", ["day"], unique=False)
    op.create_index(op.f("ix_harvest_fish_lot_id"), "harvest", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_harvest_planting_id"), "harvest", ["planting_id"], unique=False)
    op.create_table(
        "settlement",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("chore_id", sa.BigInteger(), nullable=False),
        sa.Column("occurrence", sa.Date(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("on_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("reason", sa.Text(), nullable=True),
        sa.Column("confirmed", sa.Text(), nullable=True),
        sa.Column("minutes", sa.BigInteger(), nullable=True),
        sa.Column("actor", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "(kind = 'deferred') = (until_day IS NOT NULL)", name=op.f("ck_settlement_until_with_deferred")
        ),
        sa.CheckConstraint("kind <> 'skipped' OR reason IS NOT NULL", name=op.f("ck_settlement_reason_with_skipped")),
        sa.CheckConstraint("kind IN ('done', 'skipped', 'deferred')", name=op.f("ck_settlement_kind_known")),
        sa.CheckConstraint("minutes >= 0", name=op.f("ck_settlement_minutes_not_negative")),
        sa.ForeignKeyConstraint(
            ["chore_id"], ["chore.id"], name=op.f("fk_settlement_chore_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_settlement")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_settlement_chore_id"), "settlement", ["chore_id"], unique=False)
