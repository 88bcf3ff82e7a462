"""The round as plain text for any printer: 72 columns, a box before each chore."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from farmops.exchange.round_sheet import BOOK_BACK, Sheet, SheetLine
from farmops.model.text import filled, plain, width

COLUMNS = 72
BOX = "[ ]"
BLANK, SHORT_BLANK = "_" * 10, "_" * 5
WIDEST_PLACE = 14
BEFORE_PLACE = len(f"{BOX}{0:>6}  ")
MINUTES = len("  999 min")
NOTE_LINES = 4


def text_of(sheet: Sheet) -> str:
    """The whole sheet, each line at most 72 columns wide."""
    return "\n".join((*_head(sheet), *_body(sheet), *_foot())) + "\n"


def _head(sheet: Sheet) -> Iterator[str]:
    yield from wrapped(sheet.farm, COLUMNS)
    yield sheet.day
    yield sheet.counted
    yield ""
    yield f"Done by {BLANK * 3}   from {SHORT_BLANK} to {SHORT_BLANK}"


def _body(sheet: Sheet) -> Iterator[str]:
    places = min(WIDEST_PLACE, max((width(plain(line.where)) for line in sheet.lines), default=0))
    for section in sheet.sections:
        yield ""
        yield section.title.upper()
        for line in section.lines:
            yield from _chore(line, places)
    if sheet.empty:
        yield ""
        yield from wrapped(sheet.empty, COLUMNS)


def _foot() -> Iterator[str]:
    yield ""
    yield "NOTES"
    for _ in range(NOTE_LINES):
        yield "_" * COLUMNS
    yield ""
    yield BOOK_BACK


def _chore(line: SheetLine, places: int) -> Iterator[str]:
    indent = BEFORE_PLACE + places + 2
    room = COLUMNS - indent
    where, minutes = plain(line.where), f"{line.minutes} min"
    start = f"{BOX}{line.number:>6}  {where}"
    if width(where) > places:
        yield from wrapped(start, COLUMNS)
        start = ""
    first, *more = wrapped(line.title, room - MINUTES)
    yield f"{filled(start, indent)}{filled(first, room - len(minutes))}{minutes}"
    for words in (*more, *_details(line, room)):
        yield " " * indent + words


def _details(line: SheetLine, room: int) -> Iterator[str]:
    if line.remarks:
        yield from wrapped(", ".join(line.remarks), room)
    if line.caution:
        yield from wrapped(f"Caution: {line.caution}", room)
    if line.instructions:
        yield from wrapped(line.instructions, room)
    yield from packed([*(f"{name} {BLANK}" for name in line.blanks), f"took {SHORT_BLANK} min"], room)


def wrapped(text: str, columns: int) -> list[str]:
    """The text in lines of at most so many columns of a terminal, parted between words where there are any."""
    lines = [""]
    for word in plain(text).split(" "):
        together = f"{lines[-1]} {word}" if lines[-1] else word
        if width(together) <= columns:
            lines[-1] = together
        else:
            lines += _pieces(word, columns)
    return lines if lines[0] or len(lines) == 1 else lines[1:]


def packed(items: Sequence[str], columns: int) -> list[str]:
    """As many items to a line as there is room for, none parted that fits on a line of its own."""
    lines = wrapped(items[0], columns)
    for item in items[1:]:
        together = f"{lines[-1]}  {plain(item)}"
        if width(together) <= columns:
            lines[-1] = together
        else:
            lines += wrapped(item, columns)
    return lines


def _pieces(word: str, columns: int) -> list[str]:
    """A word in pieces that fit."""
    pieces = [""]
    for sign in word:
        if width(pieces[-1] + sign) > columns:
            pieces.append("")
        pieces[-1] += sign
    return pieces
