"""The round of a day carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from farmops.exchange.round_sheet import sheet_of
from farmops.exchange.round_text import text_of
from farmops.exchange.written import How, Written, write
from farmops.reports.round import Round

if TYPE_CHECKING:
    from farmops.exchange.pages.document import Pages
    from farmops.exchange.pages.papers import Paper


def written(found: Round, how: How, unit: str | None = None) -> Written:
    """Write a round, whose head names the one unit it is of. Raises as `write` does."""
    sheet = sheet_of(found, unit)

    def pages(paper: Paper, font: str | None) -> Pages:
        from farmops.exchange.round_page import page_of

        return page_of(sheet, paper, font)

    return write(how, f"{sheet.day}, {sheet.counted}", found.farm.measures, lambda: text_of(sheet), pages)


def round_text(found: Round, unit: str | None = None) -> str:
    """A round as plain text, 72 columns wide."""
    return text_of(sheet_of(found, unit))
