"""The round as a printed page: boxes, blanks and cautions in walking order."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.platypus import Flowable, KeepTogether, Spacer

from farmops.exchange.pages.blocks import RIGHT, RIGHT_TO_FILL_IN, SMALL, Blocks, blank
from farmops.exchange.pages.document import Pages, pages_of
from farmops.exchange.pages.papers import Paper
from farmops.exchange.round_sheet import BOOK_BACK, Sheet, SheetLine, SheetSection

NOTE_LINES = 5


def page_of(sheet: Sheet, paper: Paper, own_font: str | None = None) -> Pages:
    """The sheet as a PDF. Raises NotUnderstood for a font file that is none."""
    title = f"{sheet.farm}, {sheet.day}"
    return pages_of(lambda blocks: list(_story(sheet, blocks)), title=title, foot=title, paper=paper, own_font=own_font)


def _story(sheet: Sheet, blocks: Blocks) -> Iterator[Flowable]:
    yield from blocks.head(sheet.farm, sheet.day, sheet.counted)
    yield blocks.blanks(blank("Done by", 36), blank("from"), blank("to"))
    for section in sheet.sections:
        yield from _section(section, blocks)
    if sheet.empty:
        yield blocks.words(sheet.empty)
    yield blocks.notes("Notes", NOTE_LINES)
    yield Spacer(0, 6)
    yield blocks.words(BOOK_BACK, SMALL)


def _section(section: SheetSection, blocks: Blocks) -> Iterator[Flowable]:
    """The heading stays with the first line; no line is parted between two pages while it fits on one."""
    first, *others = [_line(line, blocks) for line in section.lines]
    yield KeepTogether([blocks.heading(section.title), first])
    for line in others:
        yield KeepTogether([line])


def _line(line: SheetLine, blocks: Blocks) -> Flowable:
    took = blocks.blanks(blank("took", 7, "min"), looks=RIGHT_TO_FILL_IN)
    right = [blocks.words(f"{line.minutes} min", RIGHT), took]
    return blocks.to_do(str(line.number), line.where, list(_what(line, blocks)), right)


def _what(line: SheetLine, blocks: Blocks) -> Iterator[Flowable]:
    yield blocks.titled(line.title, line.remarks)
    if line.caution:
        yield blocks.caution(line.caution)
    if line.instructions:
        yield blocks.words(line.instructions, SMALL)
    if line.blanks:
        yield blocks.blanks(*map(blank, line.blanks))
