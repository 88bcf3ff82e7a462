"""Booking a sheet back: its lines understood one by one, and all that can be booked in one operation."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path

from farmops.exchange.plain_files import content_of
from farmops.exchange.sheet_lines import How, chore_number, settling_of
from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.farm.sheets import BookedLine, RefusedLine, Sheet, SheetLine, SheetRefused, book_sheet
from farmops.model.chores import Chore
from farmops.model.errors import CheckFailed, FarmopsError, NotFound, NotUnderstood, Refused
from farmops.model.frozen import dataclass
from farmops.model.journal import Through
from farmops.model.readings import Form
from farmops.model.text import plain

PIPED = "-"
LONGEST_LINE = 2_000
LARGEST = 500_000
"""Bytes of a sheet: the chores of a farm, each on a line, take a hundredth of it."""
ADVICE = "A sheet has a line for each chore."
Row = tuple[int, str]
"""A line of a sheet and its number."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of the lines, and the chores they were about."""

    booked: tuple[BookedLine, ...]
    refused: tuple[RefusedLine, ...]
    chores: Mapping[int, Chore]

    @property
    def exit_code(self) -> int:
        """1 when refused lines kept everything out, 4 when they stand beside booked ones, else 0."""
        if not self.refused:
            return 0
        return CheckFailed.exit_code if self.booked else Refused.exit_code


def text_of(place: str) -> str:
    """The text of a file, or of what is piped in for `-`. Raises NotFound or NotUnderstood in words."""
    name = "What is piped in" if place == PIPED else plain(place)
    try:
        return (_piped() if place == PIPED else content_of(Path(place), LARGEST, ADVICE)).decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NotUnderstood(f"{name} is no text in UTF-8. Save it as plain text, UTF-8.") from None


def _piped() -> bytes:
    try:
        content = sys.stdin.buffer.read(LARGEST + 1)
    except OSError:
        raise NotFound("What is piped in cannot be read. Name a file instead.") from None
    if len(content) > LARGEST:
        raise NotUnderstood(f"More than {LARGEST:,} bytes are piped in. {ADVICE}")
    return content


def rows_of(text: str) -> list[Row]:
    """The lines of a sheet by number; empty ones and those that begin with `#` and a blank say nothing."""
    lines = ((number, line.strip()) for number, line in enumerate(text.splitlines(), start=1))
    return [(number, line) for number, line in lines if line and not line.startswith("# ")]


def book_back(
    store: Store,
    rows: Sequence[Row],
    *,
    on: date,
    by: str,
    operation: str | None = None,
    through: Through = Through.COMMAND,
    all_or_nothing: bool = False,
    form: Form | None = None,
    sure: bool = False,
) -> Outcome:
    """Book what the lines say in one operation, or nothing when one is refused and it is all or nothing.

    Args:
        store: the farm's store.
        rows: the lines of the sheet by number.
        on: the day they tell of.
        by: who books.
        operation: the id of the booking; sent twice it is carried out once.
        through: what it is booked through.
        all_or_nothing: whether one refused line holds all others back.
        form: what nitrogen kits report where a line does not say.
        sure: whether unlikely readings are booked without asking.

    Raises:
        NoFarm: the store holds no farm.
        NotUnderstood: there is no line.
    """
    if not rows:
        raise NotUnderstood("There is no line to book. Each begins with the number of a chore: 12 6 min pH=7.1")
    with store.reading() as reader:
        how = How(farm_facts.farm(reader).measures, on, form, sure)
        chores = {one.id: one for one in chore_facts.with_ids(reader, _numbers(rows))}
    lines, refused = _understood(rows, chores, how)
    if not lines or (refused and all_or_nothing):
        return Outcome((), tuple(refused), chores)
    try:
        done = book_sheet(store, Sheet(tuple(lines), all_or_nothing), by=by, operation=operation, through=through)
    except SheetRefused as error:
        return Outcome((), _in_order(refused, error.refused), chores)
    return Outcome(done.booked, _in_order(refused, done.refused), chores)


def _numbers(rows: Sequence[Row]) -> Iterator[int]:
    for _, text in rows:
        try:
            yield chore_number(text)
        except NotUnderstood:
            continue


def _understood(
    rows: Sequence[Row], chores: Mapping[int, Chore], how: How
) -> tuple[list[SheetLine], list[RefusedLine]]:
    """The lines that say something, and those that do not; a chore is on a sheet once."""
    lines: dict[int, SheetLine] = {}
    refused: list[RefusedLine] = []
    for number, text in rows:
        try:
            _refuse_endless(text)
            settling = settling_of(text, chores, how)
            _refuse_twice(lines.get(settling.chore_id), settling.chore_id)
            lines[settling.chore_id] = SheetLine(number, settling)
        except FarmopsError as error:
            refused.append(RefusedLine(number, None, str(error)))
    return list(lines.values()), refused


def _refuse_endless(text: str) -> None:
    if len(text) > LONGEST_LINE:
        raise NotUnderstood(f"The line has {len(text):,} signs; at most {LONGEST_LINE:,} are read. {ADVICE}")


def _refuse_twice(before: SheetLine | None, chore_id: int) -> None:
    if before is not None:
        raise Refused(f"Not booked: chore {chore_id} stands on line {before.number} already.")


def _in_order(first: Sequence[RefusedLine], second: Sequence[RefusedLine]) -> tuple[RefusedLine, ...]:
    return tuple(sorted((*first, *second), key=lambda one: one.number))
