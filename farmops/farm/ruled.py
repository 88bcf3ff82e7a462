"""Which modules hold the rules over which tables: a change loads the rules over what it wrote, not all there are."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib import import_module

RULED_BY = {
    "person": ("farm",),
    "planting": ("plantings", "sales"),
    "fish_lot": ("fish", "populations", "sales"),
    "lot_place": ("holds", "populations"),
    "harvest": ("harvests", "holds", "populations"),
    "recurring_cost": ("recurring",),
    "cost": ("costs",),
    "chore": ("chores",),
    "reading": ("instruments", "readings"),
    "usage": ("usage",),
    "forecast": ("forecasts",),
    "note": ("notes",),
    "absence": ("absences",),
    "incident": ("incidents",),
    "joint_split": ("sharing",),
    "sale": ("sales",),
    "sale_line": ("sales",),
    "standing_order": ("orders",),
    "supply": ("supplies",),
    "supply_lot": ("supplies",),
    "supply_use": ("supplies",),
    "paper": ("papers",),
    "device": ("power",),
    "meter": ("power",),
    "power_price": ("power",),
    "sample_weighing": ("fish_events", "populations"),
    "loss": ("fish_events", "populations"),
    "transfer": ("holds", "populations"),
    "feeding": ("fish_events", "populations"),
    "instrument": ("instruments",),
    "own_limit": ("own_limits",),
    "dose": ("doses",),
    "top_up": ("sources",),
    "treatment": ("treatments",),
}
"""Each table that rules look at: the modules whose `@rule` or `@rule_over` names it. A test holds it against them."""


def load_rules(tables: Iterable[str]) -> None:
    """Load every rule over some tables."""
    for table in tables:
        _load(table)


@cache
def _load(table: str) -> None:
    for module in RULED_BY.get(table, ()):
        import_module(f"farmops.farm.{module}")
