"""Wall cards carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from farmops.exchange.card_text import text_of
from farmops.exchange.written import How, Written, write
from farmops.reports.wall_card import WallCard

if TYPE_CHECKING:
    from farmops.exchange.pages.document import Pages
    from farmops.exchange.pages.papers import Paper


def written(card: WallCard, how: How) -> Written:
    """Write a card. Raises as `write` does."""

    def pages(paper: Paper, font: str | None) -> Pages:
        from farmops.exchange.card_page import page_of

        return page_of(card, paper, font)

    return write(how, f"Wall card of {card.unit.code}", card.farm.measures, lambda: text_of(card), pages)
