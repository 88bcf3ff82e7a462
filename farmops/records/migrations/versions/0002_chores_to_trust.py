"""Chores that can be trusted: chores by use and while something holds, readings, notes, who is here, incidents."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from farmops.records.migrations.changing import change_table

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Lay the tables of version 2 and widen those of chores, people and units."""
    change_table(
        "chore",
        columns=[sa.Column("person_id", sa.BigInteger(), nullable=True)],
        links={"person_id": "person"},
        checks={"rule_kind_known": "rule_kind IN ('once', 'calendar', 'after', 'use', 'when')"},
    )
    change_table("person", columns=[sa.Column("minor", sa.Boolean(), server_default=sa.false(), nullable=False)])
    change_table(
        "unit", columns=[sa.Column("breaker", sa.Text(), nullable=True), sa.Column("valve", sa.Text(), nullable=True)]
    )
    op.create_table(
        "chore_template",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("applies_to", sa.Text(), nullable=False),
        sa.Column("occasion", sa.Text(), nullable=False),
        sa.Column("kinds", sa.Text(), nullable=False),
        sa.Column("states", sa.Text(), nullable=False),
        sa.Column("grade", sa.Text(), nullable=False),
        sa.Column("rule", sa.Text(), nullable=False),
        sa.Column("part", sa.Text(), nullable=False),
        sa.Column("minutes", sa.BigInteger(), nullable=False),
        sa.Column("instructions", sa.Text(), nullable=True),
        sa.Column("caution", sa.Text(), nullable=True),
        sa.Column("readings", sa.Text(), nullable=True),
        sa.Column("confirmation", sa.Text(), nullable=True),
        sa.Column("adults_only", sa.Boolean(), nullable=False),
        sa.Column("months", sa.Text(), nullable=True),
        sa.Column("with_fish", sa.Boolean(), nullable=False),
        sa.Column("dropped", sa.Boolean(), nullable=False),
        sa.CheckConstraint("applies_to IN ('farm', 'unit', 'bed')", name=op.f("ck_chore_template_applies_to_known")),
        sa.CheckConstraint(
            "grade IN ('life support', 'fish care', 'food safety', 'crop', 'upkeep', 'paperwork')",
            name=op.f("ck_chore_template_grade_known"),
        ),
        sa.CheckConstraint(
            "occasion IN ('state', 'stocking', 'planting', 'treatment', 'dosing', 'bed cleaning', 'power cut', 'deaths')",
            name=op.f("ck_chore_template_occasion_known"),
        ),
        sa.CheckConstraint(
            "part IN ('morning', 'midday', 'evening', 'none')", name=op.f("ck_chore_template_part_known")
        ),
        sa.CheckConstraint("minutes BETWEEN 0 AND 1440", name=op.f("ck_chore_template_minutes_sensible")),
        sa.CheckConstraint("version > 0", name=op.f("ck_chore_template_version_positive")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chore_template")),
        sa.UniqueConstraint("key", name=op.f("uq_chore_template_key")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "contact",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("calls_for", sa.Text(), nullable=False),
        sa.Column("phone", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_contact")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "forecast",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("low_c", sa.Float(), nullable=True),
        sa.Column("low_typed", sa.Text(), nullable=True),
        sa.Column("high_c", sa.Float(), nullable=True),
        sa.Column("high_typed", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("low_c <= high_c", name=op.f("ck_forecast_low_below_high")),
        sa.CheckConstraint("low_c IS NOT NULL OR high_c IS NOT NULL", name=op.f("ck_forecast_says_something")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_forecast")),
        sa.UniqueConstraint("day", name=op.f("uq_forecast_day")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "incident",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("began_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ended_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("kind IN ('power cut')", name=op.f("ck_incident_kind_known")),
        sa.CheckConstraint("ended_at >= began_at", name=op.f("ck_incident_ends_after_it_began")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_incident")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "absence",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("person_id", sa.BigInteger(), nullable=False),
        sa.Column("from_day", sa.Date(), nullable=False),
        sa.Column("until_day", sa.Date(), nullable=False),
        sa.Column("stand_in_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("stand_in_id <> person_id", name=op.f("ck_absence_somebody_else_stands_in")),
        sa.CheckConstraint("until_day >= from_day", name=op.f("ck_absence_until_after_from")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.id"], name=op.f("fk_absence_person_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["stand_in_id"], ["person.id"], name=op.f("fk_absence_stand_in_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_absence")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_absence_person_id"), "absence", ["person_id"], unique=False)
    op.create_index(op.f("ix_absence_stand_in_id"), "absence", ["stand_in_id"], unique=False)
    op.create_table(
        "incident_step",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("incident_id", sa.BigInteger(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("step", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("actor", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(
            ["incident_id"],
            ["incident.id"],
            name=op.f("fk_incident_step_incident_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_incident_step_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_incident_step")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_incident_step_incident_id"), "incident_step", ["incident_id"], unique=False)
    op.create_index(op.f("ix_incident_step_unit_id"), "incident_step", ["unit_id"], unique=False)
    op.create_table(
        "presence",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("person_id", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.id"], name=op.f("fk_presence_person_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_presence")),
        sa.UniqueConstraint("day", "person_id", name=op.f("uq_presence_day_person_id")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_presence_person_id"), "presence", ["person_id"], unique=False)
    op.create_table(
        "usage",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("counter", sa.Text(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("counter IN ('pump hours', 'feed', 'siphon cycles')", name=op.f("ck_usage_counter_known")),
        sa.CheckConstraint("amount > 0", name=op.f("ck_usage_amount_positive")),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_usage_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_usage")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_usage_unit_id"), "usage", ["unit_id"], unique=False)
    op.create_table(
        "note",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.BigInteger(), nullable=True),
        sa.Column("bed_id", sa.BigInteger(), nullable=True),
        sa.Column("chore_id", sa.BigInteger(), nullable=True),
        sa.Column("text", sa.Text(), nullable=True),
        sa.Column("changed", sa.Text(), nullable=True),
        sa.Column("file", sa.Text(), nullable=True),
        sa.Column("file_name", sa.Text(), nullable=True),
        sa.Column("file_sha256", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "changed IN ('pump', 'air pump', 'siphon', 'media', 'filter', 'liner', 'heater', 'feed', 'water source', 'other')",
            name=op.f("ck_note_changed_known"),
        ),
        sa.CheckConstraint(
            "(CASE WHEN unit_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN bed_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN chore_id IS NULL THEN 0 ELSE 1 END) <= 1",
            name=op.f("ck_note_one_place"),
        ),
        sa.CheckConstraint(
            "(file IS NULL) = (file_name IS NULL) AND (file IS NULL) = (file_sha256 IS NULL)",
            name=op.f("ck_note_file_whole"),
        ),
        sa.CheckConstraint("changed IS NULL OR unit_id IS NOT NULL", name=op.f("ck_note_changed_on_a_unit")),
        sa.CheckConstraint(
            "text IS NOT NULL OR file IS NOT NULL OR changed IS NOT NULL", name=op.f("ck_note_says_something")
        ),
        sa.ForeignKeyConstraint(
            ["bed_id"], ["bed.id"], name=op.f("fk_note_bed_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["chore_id"], ["chore.id"], name=op.f("fk_note_chore_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_note_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_note")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_note_bed_id"), "note", ["bed_id"], unique=False)
    op.create_index(op.f("ix_note_chore_id"), "note", ["chore_id"], unique=False)
    op.create_index(op.f("ix_note_unit_id"), "note", ["unit_id"], unique=False)
    op.create_table(
        "reading",
        sa.Column("id", sa.BigInteger(), nullable=False),
        sa.Column("operation", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("minute", sa.BigInteger(), nullable=True),
        sa.Column("unit_id", sa.BigInteger(), nullable=False),
        sa.Column("measure", sa.Text(), nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("form", sa.Text(), nullable=True),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("settlement_id", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint("form IN ('as N', 'as ion')", name=op.f("ck_reading_form_known")),
        sa.CheckConstraint(
            "measure IN ('pH', 'temperature', 'ammonia', 'nitrite', 'nitrate', 'oxygen', 'alkalinity', 'hardness', 'iron', 'chlorine', 'potassium', 'calcium', 'conductivity', 'flow', 'fill time', 'drain time')",
            name=op.f("ck_reading_measure_known"),
        ),
        sa.CheckConstraint("minute BETWEEN 0 AND 1439", name=op.f("ck_reading_minute_of_a_day")),
        sa.ForeignKeyConstraint(
            ["settlement_id"],
            ["settlement.id"],
            name=op.f("fk_reading_settlement_id"),
            initially="IMMEDIATE",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["unit_id"], ["unit.id"], name=op.f("fk_reading_unit_id"), initially="IMMEDIATE", deferrable=True
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_reading_settlement_id"), "reading", ["settlement_id"], unique=False)
    op.create_index(op.f("ix_reading_unit_id"), "reading", ["unit_id"], unique=False)
    op.create_index(op.f("ix_reading_unit_id_measure_day"), "reading", ["unit_id", "measure", "day"], unique=False)
