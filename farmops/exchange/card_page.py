"""The wall card of a unit as one printed page, to be read by torchlight."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from reportlab.lib.colors import black
from reportlab.platypus import Flowable, Spacer, Table

from farmops.exchange.card_text import HEADLINE, PRINT_AGAIN, WATCH, rests_on, shut_off, times_of
from farmops.exchange.pages.blocks import FLUSH, SHADE, SMALL, WORDS, Blocks, Box, style
from farmops.exchange.pages.document import Pages, pages_of
from farmops.exchange.pages.lettering import BOLD
from farmops.exchange.pages.papers import Paper
from farmops.reports.wall_card import WallCard

CODE = style(44, 50, BOLD)
HEAD = style(20, 25, BOLD)
MINUTES = style(27, 33, BOLD)
STEP = style(12, 15)
CHECK = style(10, 12.5)
PLACE = style(13, 17)
NUMBER, TICK = 24, 18
EDGED: list[Any] = [("BOX", (0, 0), (-1, -1), 1.2, black), ("INNERGRID", (0, 0), (-1, -1), 0.6, black)]
ROOMY: list[Any] = [(f"{side}PADDING", (0, 0), (-1, -1), 6) for side in ("TOP", "BOTTOM", "LEFT", "RIGHT")]


def page_of(card: WallCard, paper: Paper, own_font: str | None = None) -> Pages:
    """The card as a PDF. Raises NotUnderstood for a font file that is none."""
    return pages_of(
        lambda blocks: list(_story(card, blocks)),
        title=f"Wall card of {card.unit.code}",
        foot=f"{rests_on(card)} {PRINT_AGAIN}",
        paper=paper,
        own_font=own_font,
    )


def _story(card: WallCard, blocks: Blocks) -> Iterator[Flowable]:
    yield blocks.words(card.unit.code, CODE)
    yield blocks.words(HEADLINE.capitalize(), HEAD)
    yield Spacer(0, 6)
    yield from _minutes(card, blocks)
    yield Spacer(0, 8)
    for number, step in enumerate(card.steps, start=1):
        yield _row(blocks, [blocks.words(str(number), HEAD)], NUMBER, blocks.titled(step.title, [step.words], STEP))
    yield blocks.heading("When it is back, see all of it run")
    for step in card.checks:
        yield _row(blocks, [Box()], TICK, blocks.titled(step.title, [step.words], CHECK))
    yield Spacer(0, 8)
    yield _places(card, blocks)


def _minutes(card: WallCard, blocks: Blocks) -> Iterator[Flowable]:
    if card.missing:
        yield blocks.words(f"How long cannot be said: {card.missing}.", PLACE)
        return
    times = times_of(card)
    cells = [[blocks.words(f"water of {warmth}", WORDS), blocks.words(minutes, MINUTES)] for warmth, minutes in times]
    table = Table([cells], colWidths=[blocks.width / len(cells)] * len(cells))
    table.setStyle([*EDGED, *ROOMY, ("BACKGROUND", (0, 0), (-1, -1), SHADE)])
    yield table
    yield blocks.words(WATCH, SMALL)


def _row(blocks: Blocks, mark: list[Any], width: float, what: Flowable) -> Flowable:
    table = Table([[mark, what]], colWidths=[width, blocks.width - width])
    table.setStyle([*FLUSH, ("TOPPADDING", (0, 0), (-1, -1), 1), ("BOTTOMPADDING", (0, 0), (-1, -1), 2)])
    return table


def _places(card: WallCard, blocks: Blocks) -> Flowable:
    """Where to shut it off, and whom to call."""
    places = [blocks.titled(what, [place], PLACE) for what, place in shut_off(card)]
    calls = [blocks.titled(f"Call {one.calls_for}", [one.name, one.phone], PLACE) for one in card.contacts]
    table = Table([[places, calls or [blocks.words(f"Call {'_' * 30}", PLACE)]]], colWidths=[blocks.width / 2] * 2)
    table.setStyle([*EDGED, *ROOMY, ("VALIGN", (0, 0), (-1, -1), "TOP")])
    return table
