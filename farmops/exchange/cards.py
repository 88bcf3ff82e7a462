"""Wall cards carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from farmops.exchange.card_text import text_of
from farmops.exchange.files import write_file
from farmops.exchange.pages.papers import paper_of
from farmops.exchange.written import How, Written, write_text
from farmops.model.units import Unit
from farmops.reports.store import Store
from farmops.reports.wall_card import WallCard, wall_card


def write_card(store: Store, unit: Unit, how: How) -> Written:
    """Write the wall card of a unit as a PDF or as plain text, mode 0600.

    Raises:
        NotFound: no such folder.
        NotUnderstood: the font file is none.
        Refused: a file is there already, or cannot be written.
    """
    return written(wall_card(store, unit), how)


def written(card: WallCard, how: How) -> Written:
    """Write a card."""
    what = f"Wall card of {card.unit.code}"
    if how.as_text:
        return write_text(how, what, text_of(card))
    from farmops.exchange.card_page import page_of

    paper = how.paper or paper_of(card.farm.measures)
    pages = page_of(card, paper, how.font)
    return Written(write_file(how.file, pages.content, replace=how.replace), what, paper, pages.count, pages.lacking)
