"""What an operation was about, in a few words: of the first row that it added or removed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from farmops.farm.operation import Operation
from farmops.model.journal import Image
from farmops.model.text import plain
from farmops.quantities import MASS

NAMES = ("title", "what", "measure", "name", "code")
DAYS = ("day", "on_day", "bought_day", "started_day", "stocked_day", "from_day")
PLACES = ("chore", "planting", "bed", "crop", "fish_lot", "unit")
"""Whose rows are named after what belongs to them."""
LONGEST = 60


def about(op: Operation, images: Sequence[Image]) -> str:
    """`12 lb, WREN-N CHARD, 14 Oct`, and how many more rows like it; nothing where a row has no words of its own."""
    chosen = next((one for one in images if one.before is None or one.after is None), None)
    row = chosen and (chosen.after or chosen.before)
    if not chosen or not row:
        return ""
    alike = sum(one.table == chosen.table for one in images) - 1
    parts = [_amount(op, row), plain(_named(op, chosen.table, row))[:LONGEST], _day(row)]
    words = ", ".join(part for part in parts if part)
    return f"{words}, and {alike} more" if words and alike else words


def _amount(op: Operation, row: Mapping[str, Any]) -> str:
    if row.get("mass_mg") is not None:
        return MASS.show(row["mass_mg"], op.farm.measures)
    return plain(str(row.get("amount_typed") or row.get("typed") or ""))


def _day(row: Mapping[str, Any]) -> str:
    day = next((row[name] for name in DAYS if row.get(name)), None)
    if not day:
        return ""
    found = date.fromisoformat(str(day))
    return f"{found.day} {found:%b}"


def _named(op: Operation, table: str, row: Mapping[str, Any]) -> str:
    """The row by its name and the places that it belongs to: `WREN-N CHARD`, `Feed the fish WREN`."""
    own = next((str(row[name]) for name in NAMES if row.get(name)), "")
    places = " ".join(dict.fromkeys(_places(op, table, row)))
    if table == "bed" and places:
        return f"{places}-{own}"
    return f"{own} {places}".strip()


def _places(op: Operation, table: str, row: Mapping[str, Any]) -> Iterator[str]:
    for linked, id in sorted(op.transaction.links(table, row), key=lambda one: one[0]):
        there = op.transaction.standing(linked, [id]).get(id) if linked in PLACES else None
        if there is not None:
            yield _named(op, linked, there)
