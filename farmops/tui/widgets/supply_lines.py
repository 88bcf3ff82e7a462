"""Lists of supplies: what is held, what was bought, what was used and counted."""

from __future__ import annotations

from datetime import date

from farmops.model.supplies import Supply, SupplyLot, SupplyUse
from farmops.quantities import Measures, show_money
from farmops.quantities.supplies import show_held
from farmops.reports.store import Store
from farmops.reports.supplies_held import SupplyHeld, bought, taken
from farmops.tui.widgets.listing_lines import Column, Line

BOUGHT_COLUMNS = (
    Column("day", "day"),
    Column("supply", "supply", grow=True),
    Column("amount", "amount", align="right"),
    Column("paid", "paid", align="right"),
    Column("until", "good until"),
    Column("payee", "from whom", priority=1),
    Column("lot", "lot", priority=2),
)
USED_COLUMNS = (
    Column("day", "day"),
    Column("supply", "supply", grow=True),
    Column("kind", "it was"),
    Column("amount", "amount", align="right"),
    Column("unit", "for"),
    Column("note", "note", priority=1),
)


def held_line(one: SupplyHeld, measures: Measures) -> Line:
    """What is held of a supply, in the columns of Money; what calls for somebody stands out."""
    watch = watch_words(one, measures)
    lasts = "" if one.days_left is None else f", lasts {one.days_left} days"
    what = f"{one.supply.name}: {show_held(one.supply.held_by, one.held, measures)}{lasts}"
    until, worth = str(one.good_until or ""), show_money(one.worth_minor, measures)
    cells = (until, what, "all", worth, watch or one.supply.category.value, "")
    return Line(f"supplies {one.supply.id}", cells, look="late" if watch else "normal", data=one.supply)


def watch_words(one: SupplyHeld, measures: Measures) -> str:
    """What to see to: past its date, to reorder, or to count anew."""
    said = (
        "past its date" if one.past_its_date else "",
        "reorder" if one.to_reorder else "",
        "count it" if one.beyond else "",
    )
    return ", ".join(word for word in said if word)


def all_bought(store: Store, today: date, unit: str | None) -> list[SupplyLot]:
    """What was bought of all supplies, newest first."""
    return bought(store)


def bought_line(one: SupplyLot, measures: Measures) -> Line:
    """What was bought at once."""
    paid = "was there" if one.cost_minor is None else show_money(one.cost_minor, measures)
    cells = (
        str(one.day),
        one.supply,
        show_held(one.held_by, one.amount, measures),
        paid,
        str(one.expires_day or ""),
        one.payee or "",
        one.lot_code or "",
    )
    return Line(f"bought supplies {one.id}", cells, data=one)


def all_used(store: Store, today: date, unit: str | None) -> list[SupplyUse]:
    """What was used where the person stands, for all, or counted, newest first."""
    return [one for one in taken(store) if unit is None or one.unit in (unit, None)]


def used_line(one: SupplyUse, measures: Measures) -> Line:
    """What was used, thrown away or counted."""
    amount = show_held(one.held_by, one.amount, measures)
    cells = (str(one.day), one.supply, one.kind.value, amount, one.unit or "all", one.note or "")
    return Line(f"used supplies {one.id}", cells, data=one)


def is_supply(line: Line | None) -> bool:
    """Whether a line stands for a supply that is held."""
    return line is not None and isinstance(line.data, Supply)
