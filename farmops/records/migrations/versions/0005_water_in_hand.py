"""What readings, limits and sources can be about: the lowest and highest temperature too; when instruments are checked."""

from __future__ import annotations

import sqlalchemy as sa

from farmops.records.migrations.changing import change_table

revision = "0005"
down_revision = "0004"

MEASURES = (
    *("pH", "temperature", "lowest temperature", "highest temperature", "ammonia", "nitrite", "nitrate", "oxygen"),
    *("alkalinity", "hardness", "iron", "chlorine", "potassium", "calcium", "conductivity", "flow", "fill time"),
    "drain time",
)


def upgrade() -> None:
    """Widen the tables of version 4."""
    known = f"measure IN ({', '.join(repr(one) for one in MEASURES)})"
    for table in ("reading", "own_limit", "source_value"):
        change_table(table, checks={"measure_known": known})
    change_table(
        "instrument",
        columns=[sa.Column("check_days", sa.BigInteger(), nullable=True)],
        checks={"check_days_positive": "check_days > 0"},
    )
