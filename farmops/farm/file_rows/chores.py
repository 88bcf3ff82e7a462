"""Rows about work: chores, how each time was settled, the use that chores fall due by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from farmops.facts import chores as chore_facts
from farmops.facts import usage as usage_facts
from farmops.farm.chore_rows import rule_columns
from farmops.farm.chores import describe, settle
from farmops.farm.file_rows.booking import Booking, Mark, alike, by, named
from farmops.farm.operation import Operation
from farmops.farm.usage import record_usage
from farmops.model.chores import Chore, NewChore, Settled, Settling
from farmops.model.usage import NewUsage
from farmops.records.reading import Reader

TITLED = "SELECT COUNT(*) FROM chore WHERE LOWER(title) = LOWER(:title)"


def _chore_there(op: Operation, said: NewChore) -> bool:
    """Whether a chore of that title stands in its place with the very same rule."""
    if not op.reader.value(TITLED, title=said.title):
        return False
    titled = [one for one in chore_facts.chores(op.reader) if alike(one.title) == alike(said.title)]
    found = [one for one in titled if _stands(one, said)]
    if not found:
        return False
    farm = op.farm
    rule = rule_columns(said.rule, said.start_day, literal=said.literal, zone=farm.time_zone, measures=farm.measures)
    wanted = rule["rule_kind"], rule["rule_text"], rule["start_day"]
    return any((one.rule_kind, one.rule_text, one.start_day) == wanted for one in found)


def _stands(chore: Chore, said: NewChore) -> bool:
    if chore.bed_id is not None or chore.fish_lot_id is not None:
        return (chore.bed_id, chore.fish_lot_id) == (said.bed_id, said.fish_lot_id)
    return (chore.unit_id, None, None) == (said.unit_id, said.bed_id, said.fish_lot_id)


def _settled_held(reader: Reader, entries: Sequence[Settling]) -> Iterator[Mark]:
    days = [one.on for one in entries]
    yield from map(_settled_mark, chore_facts.settled_between(reader, min(days), max(days)))


def _settled_mark(one: Settled) -> Mark:
    return one.chore_id, one.on_day, one.kind, one.until_day


def _used_held(reader: Reader, entries: Sequence[NewUsage]) -> list[Mark]:
    return [(one.unit_id, one.day, one.counter, one.amount) for one in usage_facts.usages(reader)]


BOOKINGS: dict[str, Booking[Any]] = {
    "chores": named(_chore_there, describe),
    "chores done": Booking(
        lambda one: (one.chore_id, one.on, one.kind, one.until),
        _settled_held,
        by(settle.body),
        one_by_one=True,
    ),
    "usage": Booking(
        lambda one: (one.unit_id, one.day, one.counter, one.amount.exact),
        _used_held,
        by(record_usage.body),
        one_by_one=True,
    ),
}
