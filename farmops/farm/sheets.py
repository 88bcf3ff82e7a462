"""A sheet booked back: many chores settled in one operation, the lines that are refused named by their number."""

from __future__ import annotations

from farmops.farm.chores import settle
from farmops.farm.operation import Operation, operation
from farmops.model.chores import Settled, Settling
from farmops.model.errors import FarmopsError, Refused
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One line of a sheet, and what it says of its chore."""

    number: int
    settling: Settling


@dataclass(frozen=True, slots=True)
class Sheet:
    """Lines that are booked together; `all_or_nothing` books none of them when one is refused."""

    lines: tuple[SheetLine, ...]
    all_or_nothing: bool = False


@dataclass(frozen=True, slots=True)
class BookedLine:
    """A line of the sheet that was booked."""

    number: int
    settled: Settled


@dataclass(frozen=True, slots=True)
class RefusedLine:
    """A line of the sheet that was not booked, and why; `chore_id` None where it names none."""

    number: int
    chore_id: int | None
    reason: str


@dataclass(frozen=True, slots=True)
class SheetBooked:
    """What became of the lines."""

    booked: tuple[BookedLine, ...]
    refused: tuple[RefusedLine, ...]


class SheetRefused(Refused):
    """Nothing of a sheet was booked, because of the lines it names."""

    def __init__(self, refused: tuple[RefusedLine, ...]) -> None:
        super().__init__("\n".join(f"line {one.number}: {one.reason}" for one in refused))
        self.refused = refused


@operation("book back sheet")
def book_sheet(op: Operation, entry: Sheet) -> SheetBooked:
    """Settle what the lines say. Raises SheetRefused when all are refused, or one of all or nothing."""
    booked: list[BookedLine] = []
    refused: list[RefusedLine] = []
    for line in entry.lines:
        try:
            booked.append(BookedLine(line.number, settle.body(op, line.settling)))
        except FarmopsError as error:
            refused.append(RefusedLine(line.number, line.settling.chore_id, str(error)))
    if refused and (entry.all_or_nothing or not booked):
        raise SheetRefused(tuple(refused))
    return SheetBooked(tuple(booked), tuple(refused))
