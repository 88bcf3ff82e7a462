"""The registry of conditions: what can hold for the farm, a unit or a bed, and so call for a chore."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from datetime import date, timedelta
from inspect import getdoc

from farmops.model.chores import AppliesTo
from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.model.units import StateFrom, UnitState
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

Held = Mapping[int | None, Sequence[Holding]]
"""Holdings by the id of the unit or bed; those of the farm stand under None."""


@dataclass(frozen=True, slots=True)
class Condition:
    """What can hold: for which kind of place, in words, from which tables it follows, and how it is read."""

    name: str
    place: AppliesTo
    words: str
    tables: frozenset[str]
    read: Callable[[Reader], Held]


CONDITIONS: dict[str, Condition] = {}


def condition(
    name: str, *, place: AppliesTo, tables: Collection[str]
) -> Callable[[Callable[[Reader], Held]], Callable[[Reader], Held]]:
    """Enters a function in the registry; the first paragraph of its docstring tells growers what the condition means.

    `tables` are all whose rows can move a holding: chores are brought up to date when one of them is written.
    Holdings that a record has ended are left out; one with an end to come keeps it.
    """

    def register(read: Callable[[Reader], Held]) -> Callable[[Reader], Held]:
        words = " ".join((getdoc(read) or "").split("\n\n")[0].split())
        CONDITIONS[name] = Condition(name, place, words, frozenset(tables), read)
        return read

    return register


def named(name: str) -> Condition:
    """The condition of that name. Raises NotUnderstood, naming those there are."""
    if name not in CONDITIONS:
        from difflib import get_close_matches

        near = get_close_matches(name, CONDITIONS, n=1)
        hint = f"Did you mean '{near[0]}'? " if near else ""
        raise NotUnderstood(f"There is no condition '{plain(name)}'. {hint}Known: {', '.join(CONDITIONS)}.")
    return CONDITIONS[name]


def following_from(tables: Collection[str]) -> list[str]:
    """The names of the conditions that rows of these tables can move."""
    return [one.name for one in CONDITIONS.values() if not one.tables.isdisjoint(tables)]


def by_place(found: Iterable[tuple[int | None, Holding]]) -> Held:
    """Holdings with their places as a mapping."""
    held: dict[int | None, list[Holding]] = {}
    for place, holding in found:
        held.setdefault(place, []).append(holding)
    return held


def spans_in(states: Sequence[StateFrom], wanted: Collection[UnitState]) -> list[tuple[date, date | None]]:
    """The spans, both ends included, in which a unit is in one of some states; None for no end booked."""
    found: list[tuple[date, date | None]] = []
    for one, following in zip(states, [*states[1:], None], strict=True):
        if one.state not in wanted:
            continue
        until = following.from_day - timedelta(days=1) if following else None
        goes_on = found and found[-1][1] == one.from_day - timedelta(days=1)
        first = found.pop()[0] if goes_on else one.from_day
        found.append((first, until))
    return found
