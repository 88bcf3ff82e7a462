"""Booking the rows of a file in one operation: what the farm holds already stays out, what is refused is named."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from farmops.farm.file_rows import (
    chores,
    doses,
    fish,
    growing,
    incidents,
    instruments,
    lots,
    money,
    papers,
    people,
    power,
    selling,
    sharing,
    supplies,
    treatments,
    units,
    water,
    weather,
)
from farmops.farm.file_rows.booking import Booking
from farmops.farm.file_rows.rows import Aside, FileRow, FileRows, RowsBooked
from farmops.farm.operation import Operation, operation
from farmops.farm.progress import watched
from farmops.model.errors import FarmopsError, Refused, Unlikely
from farmops.model.lines import stretches
from farmops.model.text import plain
from farmops.records.base import Row

AT_ONCE = 500
"""Rows that are written together."""
ROOMS = (
    units,
    growing,
    fish,
    lots,
    water,
    doses,
    treatments,
    instruments,
    chores,
    people,
    incidents,
    weather,
    money,
    sharing,
    power,
    supplies,
    selling,
    papers,
)
BOOKINGS: dict[str, Booking[Any]] = {kind: booking for room in ROOMS for kind, booking in room.BOOKINGS.items()}


@operation("import file")
def book_rows(op: Operation, entry: FileRows) -> RowsBooked:
    """Book the rows that the farm does not hold yet; those that cannot be are named, and so are unlikely ones.

    Raises Refused where the file is to be booked as a whole and a row of it cannot be.
    """
    run = _Run(op, BOOKINGS[entry.kind], entry.rows)
    for row in watched(entry.rows, entry.watch):
        run.take(row)
    run.write()
    if entry.whole and (run.refused or run.asked):
        raise Refused(f"Not booked: {len(run.refused) + len(run.asked)} rows cannot be. Look at the file again.")
    return run.done()


class _Run:
    """Goes through the rows of a file once."""

    def __init__(self, op: Operation, booking: Booking[Any], rows: Sequence[FileRow]) -> None:
        self.op, self.booking = op, booking
        self.held = Counter(booking.held(op.reader, [row.entry for row in rows]) if rows else ())
        self.book = booking.begin(op)
        self.there = booking.there(op) if booking.there else _nothing_is_there
        self.waiting: list[Row] = []
        self.booked: list[int] = []
        self.already: list[int] = []
        self.refused: list[Aside] = []
        self.asked: list[Aside] = []

    def take(self, row: FileRow) -> None:
        """Book one, unless it is there already, is refused or is to be asked about."""
        mark = self.booking.mark(row.entry)
        if self.held[mark]:
            self.held[mark] -= 1
            self.already.append(row.line)
            return
        try:
            if self.there(row.entry):
                self.already.append(row.line)
                return
            self._book(row.entry)
        except Unlikely as error:
            self.asked.append(_aside(row, error))
        except FarmopsError as error:
            self.refused.append(_aside(row, error))
        else:
            self.booked.append(row.line)

    def _book(self, entry: object) -> None:
        if self.booking.one_by_one:
            with self.op.attempt():
                self.book(entry)
            return
        self.waiting += self.op.checked(self.book(entry))
        if len(self.waiting) >= AT_ONCE:
            self.write()

    def done(self) -> RowsBooked:
        """What became of all of them."""
        booked, already = stretches(self.booked), stretches(self.already)
        aside = tuple(self.refused), tuple(self.asked)
        return RowsBooked(len(self.booked), len(self.already), *aside, booked, already)

    def write(self) -> None:
        """Write the rows that wait for it."""
        self.op.transaction.add_all(self.waiting)
        self.waiting = []


def _nothing_is_there(_: object) -> bool:
    return False


def _aside(row: FileRow, error: FarmopsError) -> Aside:
    reason = plain(str(error)).removeprefix("Not booked yet: ").removeprefix("Not booked: ")
    return Aside(row.line, row.column, reason)
