"""Fish and water: weighings of samples, losses, transfers, feedings, instruments, doses, sources, treatments."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from farmops.records.migrations.changing import change_table

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Lay the tables of version 4 and widen those there are."""
    op.create_table(
        "instrument",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("measures", sa.Text(), nullable=False),
        sa.Column("form", sa.Text(), nullable=True),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("expires_day", sa.Date(), nullable=True),
        sa.Column("until_day", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("form IN ('as N', 'as ion')", name=op.f("ck_instrument_form_known")),
        sa.CheckConstraint("expires_day >= from_day", name=op.f("ck_instrument_expires_after_from")),
        sa.CheckConstraint("until_day >= from_day", name=op.f("ck_instrument_until_after_from")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_instrument")),
        sa.UniqueConstraint("name", name=op.f("uq_instrument_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "water_source",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('rain', 'well', 'surface', 'mains with chlorine', 'mains with chloramine', 'mains')",
            name=op.f("ck_water_source_kind_known"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_water_source")),
        sa.UniqueConstraint("name", name=op.f("uq_water_source_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "own_limit",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("measure", sa.Text(), nullable=False),
        sa.Column("low", sa.Float(), nullable=True),
        sa.Column("high", sa.Float(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "measure IN ('pH', 'temperature', 'ammonia', 'nitrite', 'nitrate', 'oxygen', 'alkalinity', 'hardness', 'iron', 'chlorine', 'potassium', 'calcium', 'conductivity', 'flow', 'fill time', 'drain time')",
            name=op.f("ck_own_limit_measure_known"),
        ),
        sa.CheckConstraint("low <= high", name=op.f("ck_own_limit_low_below_high")),
        sa.CheckConstraint("low IS NOT NULL OR high IS NOT NULL", name=op.f("ck_own_limit_says_something")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_own_limit_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_own_limit")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_own_limit_unit_id"), "own_limit", ["unit_id"], unique=False)
    op.create_table(
        "source_value",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("water_source_id", sa.BigInteger(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("measure", sa.Text(), nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("form", sa.Text(), nullable=True),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.CheckConstraint("form IN ('as N', 'as ion')", name=op.f("ck_source_value_form_known")),
        sa.CheckConstraint(
            "measure IN ('pH', 'temperature', 'ammonia', 'nitrite', 'nitrate', 'oxygen', 'alkalinity', 'hardness', 'iron', 'chlorine', 'potassium', 'calcium', 'conductivity', 'flow', 'fill time', 'drain time')",
            name=op.f("ck_source_value_measure_known"),
        ),
        sa.ForeignKeyConstraint(
            ["water_source_id"],
            ["water_source.id"],
            name=op.f("fk_source_value_water_source_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_source_value")),
        sa.UniqueConstraint(
            "water_source_id", "measure", "from_day", name=op.f("uq_source_value_water_source_id_measure_from_day")
        ),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_source_value_water_source_id"), "source_value", ["water_source_id"], unique=False)
    op.create_table(
        "loss",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("cause", sa.Text(), nullable=False),
        sa.Column("disposal", sa.Text(), nullable=True),
        sa.Column("mass_mg", sa.BigInteger(), nullable=True),
        sa.Column("mass_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "cause IN ('unknown', 'oxygen', 'water', 'temperature', 'disease', 'injury', 'predator', 'jumped out', 'culled')",
            name=op.f("ck_loss_cause_known"),
        ),
        sa.CheckConstraint(
            "disposal IN ('buried', 'composted', 'waste bin', 'collected', 'sent to a vet', 'other')",
            name=op.f("ck_loss_disposal_known"),
        ),
        sa.CheckConstraint("mass_mg > 0", name=op.f("ck_loss_mass_positive")),
        sa.CheckConstraint("number > 0", name=op.f("ck_loss_number_positive")),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"], ["fish_lot.id"], name=op.f("fk_loss_fish_lot_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_loss")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_loss_fish_lot_id"), "loss", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_loss_fish_lot_id_day"), "loss", ["fish_lot_id", "day"], unique=False)
    op.create_table(
        "transfer",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("from_lot_id", sa.BigInteger(), nullable=False),
        sa.Column("to_lot_id", sa.BigInteger(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("mean_mg", sa.BigInteger(), nullable=True),
        sa.Column("mean_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("from_lot_id <> to_lot_id", name=op.f("ck_transfer_two_lots")),
        sa.CheckConstraint("mean_mg > 0", name=op.f("ck_transfer_mean_positive")),
        sa.CheckConstraint("number > 0", name=op.f("ck_transfer_number_positive")),
        sa.ForeignKeyConstraint(
            ["from_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_transfer_from_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["to_lot_id"], ["fish_lot.id"], name=op.f("fk_transfer_to_lot_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_transfer")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_transfer_from_lot_id"), "transfer", ["from_lot_id"], unique=False)
    op.create_index(op.f("ix_transfer_to_lot_id"), "transfer", ["to_lot_id"], unique=False)
    op.create_table(
        "treatment",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("bed_id", sa.BigInteger(), nullable=True),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=True),
        sa.Column("product", sa.Text(), nullable=False),
        sa.Column("active", sa.Text(), nullable=True),
        sa.Column("registration", sa.Text(), nullable=True),
        sa.Column("against", sa.Text(), nullable=True),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("reentry_hours", sa.BigInteger(), nullable=False),
        sa.Column("harvest_days", sa.BigInteger(), nullable=False),
        sa.Column("fish_days", sa.BigInteger(), nullable=True),
        sa.Column("actor", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(CASE WHEN unit_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN bed_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN fish_lot_id IS NULL THEN 0 ELSE 1 END) = 1",
            name=op.f("ck_treatment_one_place"),
        ),
        sa.CheckConstraint("fish_days >= 0", name=op.f("ck_treatment_fish_not_negative")),
        sa.CheckConstraint("harvest_days >= 0", name=op.f("ck_treatment_harvest_not_negative")),
        sa.CheckConstraint("reentry_hours >= 0", name=op.f("ck_treatment_reentry_not_negative")),
        sa.ForeignKeyConstraint(
            ["bed_id"], ["bed.id"], name=op.f("fk_treatment_bed_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_treatment_fish_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_treatment_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_treatment")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_treatment_bed_id"), "treatment", ["bed_id"], unique=False)
    op.create_index(op.f("ix_treatment_fish_lot_id"), "treatment", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_treatment_unit_id"), "treatment", ["unit_id"], unique=False)
    op.create_table(
        "instrument_check",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("instrument_id", sa.BigInteger(), nullable=False),
        sa.Column("passed", sa.Boolean(), nullable=False),
        sa.Column("against", sa.Text(), nullable=True),
        sa.Column("showed", sa.Text(), nullable=True),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name=op.f("fk_instrument_check_instrument_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_instrument_check_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_instrument_check")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_instrument_check_instrument_id"), "instrument_check", ["instrument_id"], unique=False)
    op.create_index(op.f("ix_instrument_check_settlement_id"), "instrument_check", ["settlement_id"], unique=False)
    op.create_table(
        "sample_weighing",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("mass_mg", sa.BigInteger(), nullable=False),
        sa.Column("mass_typed", sa.Text(), nullable=False),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("mass_mg > 0", name=op.f("ck_sample_weighing_mass_positive")),
        sa.CheckConstraint("number > 0", name=op.f("ck_sample_weighing_number_positive")),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_sample_weighing_fish_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_sample_weighing_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sample_weighing")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_sample_weighing_fish_lot_id"), "sample_weighing", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_sample_weighing_fish_lot_id_day"), "sample_weighing", ["fish_lot_id", "day"], unique=False)
    op.create_index(op.f("ix_sample_weighing_settlement_id"), "sample_weighing", ["settlement_id"], unique=False)
    op.create_table(
        "top_up",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("volume_ml", sa.BigInteger(), nullable=False),
        sa.Column("volume_typed", sa.Text(), nullable=False),
        sa.Column("water_source_id", sa.BigInteger(), nullable=True),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("volume_ml > 0", name=op.f("ck_top_up_volume_positive")),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_top_up_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_top_up_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["water_source_id"],
            ["water_source.id"],
            name=op.f("fk_top_up_water_source_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_top_up")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_top_up_settlement_id"), "top_up", ["settlement_id"], unique=False)
    op.create_index(op.f("ix_top_up_unit_id"), "top_up", ["unit_id"], unique=False)
    op.create_index(op.f("ix_top_up_water_source_id"), "top_up", ["water_source_id"], unique=False)
    op.create_table(
        "dose",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("held_by", sa.Text(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("amount_typed", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=True),
        sa.Column("supply_use_id", sa.BigInteger(), nullable=True),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("held_by IN ('mass', 'volume')", name=op.f("ck_dose_held_by_known")),
        sa.CheckConstraint("amount > 0", name=op.f("ck_dose_amount_positive")),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_dose_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["supply_use_id"],
            ["supply_use.id"],
            name=op.f("fk_dose_supply_use_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_dose_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_dose")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_dose_settlement_id"), "dose", ["settlement_id"], unique=False)
    op.create_index(op.f("ix_dose_supply_use_id"), "dose", ["supply_use_id"], unique=False)
    op.create_index(op.f("ix_dose_unit_id"), "dose", ["unit_id"], unique=False)
    op.create_table(
        "feeding",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("fish_lot_id", sa.BigInteger(), nullable=False),
        sa.Column("mass_mg", sa.BigInteger(), nullable=False),
        sa.Column("mass_typed", sa.Text(), nullable=False),
        sa.Column("ate", sa.Text(), nullable=True),
        sa.Column("supply_use_id", sa.BigInteger(), nullable=True),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("ate IN ('all', 'some', 'none')", name=op.f("ck_feeding_ate_known")),
        sa.CheckConstraint("mass_mg > 0", name=op.f("ck_feeding_mass_positive")),
        sa.ForeignKeyConstraint(
            ["fish_lot_id"],
            ["fish_lot.id"],
            name=op.f("fk_feeding_fish_lot_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_feeding_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["supply_use_id"],
            ["supply_use.id"],
            name=op.f("fk_feeding_supply_use_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_feeding")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_feeding_fish_lot_id"), "feeding", ["fish_lot_id"], unique=False)
    op.create_index(op.f("ix_feeding_fish_lot_id_day"), "feeding", ["fish_lot_id", "day"], unique=False)
    op.create_index(op.f("ix_feeding_settlement_id"), "feeding", ["settlement_id"], unique=False)
    op.create_index(op.f("ix_feeding_supply_use_id"), "feeding", ["supply_use_id"], unique=False)
    op.create_table(
        "sample_fish",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("sample_weighing_id", sa.BigInteger(), nullable=False),
        sa.Column("mass_mg", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("mass_mg > 0", name=op.f("ck_sample_fish_mass_positive")),
        sa.ForeignKeyConstraint(
            ["sample_weighing_id"],
            ["sample_weighing.id"],
            name=op.f("fk_sample_fish_sample_weighing_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sample_fish")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_sample_fish_sample_weighing_id"), "sample_fish", ["sample_weighing_id"], unique=False)
    change_table(
        "fish_lot",
        columns=[sa.Column("source", sa.Text(), nullable=True), sa.Column("paper_id", sa.BigInteger(), nullable=True)],
        links={"paper_id": "paper"},
        checks={"number_positive": None, "number_not_negative": "number >= 0"},
    )
    change_table(
        "harvest",
        columns=[
            sa.Column("dressed_mg", sa.BigInteger(), nullable=True),
            sa.Column("dressed_typed", sa.Text(), nullable=True),
        ],
        checks={"dressed_below_whole": "dressed_mg BETWEEN 1 AND mass_mg"},
    )
    op.create_index(op.f("ix_cost_kind_day"), "cost", ["kind", "day"], unique=False)
    op.create_index(op.f("ix_chore_rule_kind_rule_text"), "chore", ["rule_kind", "rule_text"], unique=False)
    op.create_index(
        op.f("ix_harvest_planting_id_day_use_mass_mg"),
        "harvest",
        ["planting_id", "day", "use", "mass_mg"],
        unique=False,
    )
    change_table(
        "reading",
        columns=[sa.Column("instrument_id", sa.BigInteger(), nullable=True)],
        links={"instrument_id": "instrument"},
    )
