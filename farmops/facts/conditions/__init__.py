"""Conditions that call for chores. One more is one more function under `@condition` in a module named here."""

from __future__ import annotations

from farmops.facts.conditions import (
    of_drift,
    of_fish,
    of_papers,
    of_plantings,
    of_supplies,
    of_units,
    of_water,
    of_weather,
)
from farmops.facts.conditions.registry import CONDITIONS, Condition, Held, condition, following_from, named

__all__ = [
    "CONDITIONS",
    "Condition",
    "Held",
    "condition",
    "following_from",
    "named",
    "of_drift",
    "of_fish",
    "of_papers",
    "of_plantings",
    "of_supplies",
    "of_units",
    "of_water",
    "of_weather",
]
