"""Which chores come with a state, told before it is booked."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.facts.sets import sets
from farmops.model.units import Unit, UnitKind, UnitState

SHOWN = 4


def coming_titles(store: Store, unit: Unit, state: UnitState, day: date) -> list[str]:
    """The chores that a unit, its beds and the farm would get if it entered a state on a day."""
    with store.reading() as reader:
        known, today = sets(reader, unit.id), farm_facts.farm(reader).today()
    return [one.template.title for one in known.on_state(unit, state, day, today)]


def titles_on_joining(store: Store, kind: UnitKind, state: UnitState) -> list[str]:
    """The chores that a unit, which has no beds and fish yet, and the farm would get if it joined the row."""
    with store.reading() as reader:
        return [one.template.title for one in sets(reader).on_joining(kind, state)]


def coming_words(titles: Sequence[str], most: int = SHOWN) -> str:
    """How many chores come, and the first of them: `12 chores come with it: Feed the fish; ...; and 8 others.`"""
    if not titles:
        return "No new chore comes with it."
    kinds = list(dict.fromkeys(titles))
    shown = kinds if len(kinds) <= most + 1 else [*kinds[:most], f"and {len(kinds) - most} others"]
    come = "1 chore comes" if len(titles) == 1 else f"{len(titles)} chores come"
    return f"{come} with it: {'; '.join(shown)}."
