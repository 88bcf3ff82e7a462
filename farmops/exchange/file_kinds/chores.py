"""Files about work: chores, how each time was settled, the use that chores fall due by."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, PLACES, UNIT, Kind, Take, each
from farmops.model.chores import Chore, ChoreClass, NewChore, PartOfDay, SettledAs, Settling
from farmops.model.text import plain
from farmops.model.units import UnitState
from farmops.model.usage import Counter, NewUsage
from farmops.model.values import Measured
from farmops.schedule.use_words import read_amount

V = TypeVar("V")
RFC = re.compile(r"(?:rrule:)?freq=", re.IGNORECASE)
"""How a rule begins that is taken literally."""
USUAL_MINUTES = 5


def _chore(cells: Cells, take: Take) -> NewChore:
    rule = cells.note("rule")
    if rule is None:
        raise RowRefusedError("rule", "no rule; say when it is due, such as 14 days after, Mon Thu, month on the 1st")
    minutes, place = cells.whole("minutes"), take.names.somewhere(cells)
    return NewChore(
        cells.name("chore"),
        rule,
        cells.day("start"),
        literal=RFC.match(rule) is not None,
        grade=cells.chosen("class", ChoreClass) or ChoreClass.UPKEEP,
        part=cells.chosen("part", PartOfDay) or PartOfDay.NONE,
        minutes=USUAL_MINUTES if minutes is None else minutes,
        instructions=cells.note("instructions"),
        caution=cells.note("caution"),
        readings=_listed(cells, "readings", str),
        confirmation=cells.note("confirmation"),
        adults_only=cells.yes("adults-only") or False,
        months=_listed(cells, "months", int),
        states=_listed(cells, "states", UnitState),
        with_fish=cells.yes("with-fish") or False,
        person_id=None if cells.empty("person") else take.names.person(cells, "person"),
        unit_id=place.get("unit_id"),
        bed_id=place.get("bed_id"),
        fish_lot_id=place.get("fish_lot_id"),
    )


def _listed(cells: Cells, column: str, kind: Callable[[str], V]) -> tuple[V, ...]:
    """The words of a cell, parted by commas."""
    words = [] if cells.empty(column) else [word.strip() for word in cells.text(column).split(",") if word.strip()]
    try:
        return tuple(map(kind, words))
    except ValueError:
        raise RowRefusedError(column, f"{plain(cells.text(column))} is not understood here") from None


def _settling(cells: Cells, take: Take) -> Settling:
    """A time that stands twice in a file was meant twice, as in any file, so nothing is asked about it."""
    chore, kind = take.names.chore(cells), cells.chosen("settled", SettledAs) or SettledAs.DONE
    return Settling(
        chore.id,
        kind,
        cells.day(),
        occurrence=cells.day_or_none("occurrence"),
        until=cells.day_or_none("until"),
        reason=cells.note("why"),
        confirmed=_confirmed(cells, chore),
        minutes=cells.whole("minutes"),
        actor=None if cells.empty("who") else cells.name("who"),
        sure=True,
    )


def _confirmed(cells: Cells, chore: Chore) -> str | None:
    """What a chore insists on, by its words or by a yes."""
    words = cells.note("confirmed")
    if words is None or (words.lower() == "yes" and chore.confirmation):
        return chore.confirmation if words else None
    if not chore.confirmed_by(words):
        asked = chore.confirmation or "no confirmation"
        raise RowRefusedError("confirmed", f"{chore.title} asks for {asked}, not {plain(words)}")
    return chore.confirmation


def _usage(cells: Cells, take: Take) -> NewUsage:
    counter = cells.chosen("counter", Counter)
    if counter is None:
        raise RowRefusedError("counter", f"no counter; understood: {', '.join(Counter)}")
    unit, typed = take.names.unit(cells), cells.numbers("amount")
    with in_column("amount"):
        amount = Measured(read_amount(counter, typed, cells.customs.measures), typed)
    return NewUsage(unit, counter, cells.day(), amount, cells.note())


CHORES = (
    Column("chore", needed=True, also=("title",)),
    Column("rule", needed=True, also=("every", "due", "when", "rule words")),
    Column("start", needed=True, also=("start day", "from", "first day")),
    *PLACES,
    Column("class", also=("grade",)),
    Column("part", also=("part of day",)),
    Column("minutes", also=("min",)),
    Column("instructions", also=("how",)),
    Column("caution"),
    Column("readings", also=("read",)),
    Column("confirmation", also=("confirm",)),
    Column("adults-only", also=("adults only",)),
    Column("months", also=("month",)),
    Column("states", also=("in state",)),
    Column("with-fish", also=("with fish",)),
    Column("person", also=("who",), numbered=("person id",)),
)
DONE = (
    Column("date", needed=True, also=("day", "on day")),
    Column("chore", needed=True, also=("title",), numbered=("chore id", "chore number", "no.", "number")),
    *PLACES,
    Column("settled", also=("kind", "done")),
    Column("minutes", also=("min", "took")),
    Column("who", also=("by", "done by", "actor", "person")),
    Column("why", also=("reason",)),
    Column("confirmed", also=("confirmation", "seen")),
    Column("until", also=("until day",)),
    Column("occurrence", also=("due",)),
)
USED = (
    DATE,
    UNIT,
    Column("counter", needed=True, also=("what",)),
    Column("amount", needed=True, also=("used", "use", "typed")),
    NOTE,
)
KINDS = (
    Kind("chores", CHORES, each(_chore)),
    Kind("chores done", DONE, each(_settling)),
    Kind("usage", USED, each(_usage)),
)
