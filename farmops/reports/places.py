"""The chores of a place: of one unit with its beds and fish, or of the whole farm."""

from __future__ import annotations

from farmops.facts import chores as chore_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader
from farmops.model.chores import Chore
from farmops.model.errors import NotFound
from farmops.model.units import Unit


def chores_in(reader: Reader, unit: str | None) -> list[Chore]:
    """Every chore of a unit, or of the farm where none is named, in walking order. Raises NotFound."""
    chores = chore_facts.chores(reader)
    return chores if unit is None else of_unit(chores, unit_named(reader, unit))


def of_unit(chores: list[Chore], unit: Unit) -> list[Chore]:
    """Those of a unit, of its beds and of the fish in it."""
    return [chore for chore in chores if chore.unit_id == unit.id]


def unit_named(reader: Reader, code: str) -> Unit:
    """The unit of that code. Raises NotFound, naming those there are."""
    found = unit_facts.unit_called(reader, code)
    if found is None:
        known = ", ".join(one.code for one in unit_facts.units(reader)) or "none yet"
        raise NotFound(f"There is no unit {code}. Known: {known}.")
    return found
