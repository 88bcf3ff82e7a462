"""The care sheet as printed pages: each week a table of days with boxes, the bags, the rules, and how it is done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from reportlab.lib.colors import black
from reportlab.platypus import Flowable, KeepTogether, PageBreak, Spacer, Table

from farmops.exchange.care_text import (
    day_words,
    days_of,
    feed_words,
    for_whom,
    how_words,
    notes_of,
    shut_off_words,
    title_of,
    when_words,
    where_words,
)
from farmops.exchange.pages.blocks import FAINT, FLUSH, SHADE, SMALL, Blocks, Box, style
from farmops.exchange.pages.document import Pages, pages_of
from farmops.exchange.pages.lettering import BOLD
from farmops.exchange.pages.papers import Paper
from farmops.reports.care import CareLine, CareSheet

FINE = style(7.6, 9.4)
FINE_BOLD = style(7.6, 9.4, BOLD)
CALL = style(11, 14, BOLD)
WHAT_SHARE = 0.31
"""How much of the width the name of a chore takes; the days share the rest."""
BAGS_ACROSS, DAY_WIDTH = 4, 52
GAP = 14
TIGHT: list[Any] = [(f"{side}PADDING", (0, 0), (-1, -1), 1.5) for side in ("TOP", "BOTTOM")]
GRID: list[Any] = [
    ("LINEBELOW", (0, 0), (-1, -1), 0.4, FAINT),
    ("LINEBELOW", (0, 0), (-1, 0), 0.9, black),
    *FLUSH,
    *TIGHT,
]


def page_of(sheet: CareSheet, paper: Paper, own_font: str | None = None) -> Pages:
    """The sheet as a PDF. Raises NotUnderstood for a font file that is none."""
    foot = f"{title_of(sheet)}, {days_of(sheet)}"
    return pages_of(lambda blocks: list(_story(sheet, blocks)), title=foot, foot=foot, paper=paper, own_font=own_font)


def _story(sheet: CareSheet, blocks: Blocks) -> Iterator[Flowable]:
    for at, week in enumerate(sheet.weeks):
        if at:
            yield PageBreak()
        yield from _week(week, blocks)


def _week(sheet: CareSheet, blocks: Blocks) -> Iterator[Flowable]:
    yield from blocks.head(title_of(sheet), days_of(sheet), for_whom(sheet), *notes_of(sheet))
    yield blocks.words(_call(sheet), CALL)
    yield Spacer(0, 4)
    yield _grid(sheet, blocks)
    yield from _feed(sheet, blocks)
    yield Spacer(0, 8)
    yield _two_columns(blocks, _rules(sheet, blocks), _care(sheet, blocks))
    yield blocks.heading("How it is done")
    for line in sheet.lines:
        yield _how(line, blocks)


def _call(sheet: CareSheet) -> str:
    known = "  ·  ".join(f"{one.calls_for}: {one.name} {one.phone}" for one in sheet.contacts)
    return f"Call  {known}" if known else f"Call  {'_' * 40}"


def _grid(sheet: CareSheet, blocks: Blocks) -> Flowable:
    """A row for each chore, a column for each day, a box wherever it is due."""
    days = sheet.days
    first = blocks.width * (WHAT_SHARE if len(days) > 1 else 0.8)
    heads: list[Any] = [blocks.words("", FINE)]
    heads += [[blocks.words(day_words(day), FINE_BOLD), blocks.words(_minutes(sheet, day), FINE)] for day in days]
    rows: list[list[Any]] = [
        heads,
        *([_what(line, blocks), *(_cell(line, day, blocks) for day in days)] for line in sheet.lines),
    ]
    table = Table(rows, colWidths=[first, *[(blocks.width - first) / len(days)] * len(days)], repeatRows=1)
    table.setStyle([*GRID, ("RIGHTPADDING", (0, 0), (-1, -1), 4)])
    return table


def _minutes(sheet: CareSheet, day: date) -> str:
    return f"{sheet.minutes_on(day)} min"


def _what(line: CareLine, blocks: Blocks) -> Flowable:
    same = line.everywhere
    remarks = [when_words(line), *([where_words(same)] if same else [])]
    return blocks.titled(line.chore.title, remarks, SMALL)


def _cell(line: CareLine, day: date, blocks: Blocks) -> list[Flowable]:
    due = line.on(day)
    if due is None:
        return []
    places = [] if line.everywhere else [blocks.words(where_words(due.places), FINE)]
    return [Box(9), *places]


def _feed(sheet: CareSheet, blocks: Blocks) -> Iterator[Flowable]:
    fed = [one for one in sheet.units if one.feed is not None]
    if not fed:
        return
    told = [blocks.titled(one.unit.code, [feed_words(one)], FINE) for one in fed]
    yield KeepTogether([blocks.heading("Feed: one bag, a ceiling; stop when they slow"), *told])
    rows = [row for day in sheet.days for row in _bags(sheet, day, blocks)]
    if rows:
        table = Table(rows, colWidths=[DAY_WIDTH, *[12, (blocks.width - DAY_WIDTH) / BAGS_ACROSS - 12] * BAGS_ACROSS])
        table.setStyle([*FLUSH, *TIGHT])
        yield table


def _bags(sheet: CareSheet, day: date, blocks: Blocks) -> Iterator[list[Any]]:
    """The bags of a day, a box before each, the day before the first of them."""
    bags = [one for one in sheet.bags if one.day == day]
    for start in range(0, len(bags), BAGS_ACROSS):
        cells: list[Any] = [blocks.words(day_words(day) if start == 0 else "", FINE)]
        for bag in bags[start : start + BAGS_ACROSS]:
            cells += [Box(8), blocks.words(bag.label, FINE_BOLD)]
        yield cells + [""] * (1 + 2 * BAGS_ACROSS - len(cells))


def _two_columns(blocks: Blocks, left: Sequence[Flowable], right: Sequence[Flowable]) -> Flowable:
    half = (blocks.width - GAP) / 2
    table = Table([[list(left), "", list(right)]], colWidths=[half, GAP, half])
    table.setStyle([*FLUSH, ("BACKGROUND", (0, 0), (0, 0), SHADE), ("LEFTPADDING", (0, 0), (0, 0), 5), *TIGHT])
    return table


def _rules(sheet: CareSheet, blocks: Blocks) -> list[Flowable]:
    found: list[Flowable] = []
    for title, rules in (("Do not feed when", sheet.stop), ("Never", sheet.never)):
        found += [blocks.words(title, FINE_BOLD), *(blocks.words(f"• {one}", FINE) for one in rules), Spacer(0, 3)]
    return found


def _care(sheet: CareSheet, blocks: Blocks) -> list[Flowable]:
    found: list[Flowable] = [blocks.words("Take care", FINE_BOLD)]
    found += [blocks.words(f"• {one}", FINE) for one in sheet.cautions]
    found += [Spacer(0, 3), blocks.words("Where to shut it off", FINE_BOLD)]
    return found + [blocks.titled(one.unit.code, [shut_off_words(one)], FINE) for one in sheet.units]


def _how(line: CareLine, blocks: Blocks) -> Flowable:
    words = " ".join(f"{head}{told}" for head, told in how_words(line))
    return KeepTogether([blocks.titled(line.chore.title, [words] if words else [], FINE), Spacer(0, 2)])
