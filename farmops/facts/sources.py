"""Where water comes from, what it is like there, and what of it was put into units."""

from __future__ import annotations

from datetime import date

from farmops.model.water import SourceValue, TopUp, WaterSource
from farmops.records.reading import Reader

SOURCES = "SELECT id, name, kind, note FROM water_source"
VALUES = """
    SELECT source_value.id, source_value.water_source_id AS source_id, water_source.name AS source,
        source_value.from_day, source_value.measure, source_value.value, source_value.form, source_value.typed
    FROM source_value JOIN water_source ON water_source.id = source_value.water_source_id
"""
TOP_UPS = """
    SELECT top_up.id, top_up.day, top_up.unit_id, unit.code AS unit, top_up.volume_ml, top_up.volume_typed,
        top_up.water_source_id AS source_id, water_source.name AS source, water_source.kind, top_up.note
    FROM top_up JOIN unit ON unit.id = top_up.unit_id
    LEFT JOIN water_source ON water_source.id = top_up.water_source_id
"""


def sources(reader: Reader) -> list[WaterSource]:
    """Every source, in the order in which they were named."""
    return reader.all(WaterSource, f"{SOURCES} ORDER BY id")


def source(reader: Reader, id: int) -> WaterSource | None:
    """The source of that id."""
    return reader.one(WaterSource, f"{SOURCES} WHERE id = :id", id=id)


def values(reader: Reader) -> list[SourceValue]:
    """What every source is like from its days on, the oldest first."""
    return reader.all(SourceValue, f"{VALUES} ORDER BY source_value.from_day, source_value.id")


def top_ups(reader: Reader, first: date, last: date) -> list[TopUp]:
    """Every top-up of a span of days, both included, the latest first."""
    where = "WHERE top_up.day BETWEEN :first AND :last"
    return reader.all(TopUp, f"{TOP_UPS} {where} ORDER BY top_up.day DESC, top_up.id DESC", first=first, last=last)


def top_up(reader: Reader, id: int) -> TopUp | None:
    """The top-up of that number."""
    return reader.one(TopUp, f"{TOP_UPS} WHERE top_up.id = :id", id=id)
