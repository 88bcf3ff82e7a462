"""What the tables say of the feed that went into a unit."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from farmops.facts import unit_feed
from farmops.model.fish import Ate
from farmops.model.fish_events import Feeding
from farmops.records.fish import FeedingRow, FishLotRow
from farmops.records.units import UnitRow
from tests.facts.tables import SPANS, Answer, Tables, columns, in_span, says

COLUMNS = ("id", "day", "mass_mg", "mass_typed", "supply_use_id", "settlement_id", "note")


def _lives(rows: Tables, row: FeedingRow, unit: int) -> bool:
    home = rows.place_on(row.fish_lot_id, row.day)
    return home is not None and home.unit_id == unit


@says(unit_feed.fed_in_unit)
def feedings_of_units(rows: Tables) -> Iterator[Answer]:
    every = sorted(rows[FeedingRow], key=lambda row: (row.day, row.id))
    for unit in rows[UnitRow]:
        for span in (*SPANS, (date.min, date.max)):
            yield (
                (unit.id, *span),
                [
                    Feeding(
                        **columns(row, *COLUMNS),
                        lot_id=row.fish_lot_id,
                        lot=rows.get(FishLotRow, row.fish_lot_id).code,
                        ate=Ate(row.ate) if row.ate else None,
                    )
                    for row in every
                    if in_span(row.day, span) and _lives(rows, row, unit.id)
                ],
            )
