"""The care sheet carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from farmops.exchange.care_text import days_of, text_of, title_of
from farmops.exchange.written import How, Written, write
from farmops.reports.care import CareSheet

if TYPE_CHECKING:
    from farmops.exchange.pages.document import Pages
    from farmops.exchange.pages.papers import Paper


def written(sheet: CareSheet, how: How) -> Written:
    """Write a sheet. Raises as `write` does."""

    def pages(paper: Paper, font: str | None) -> Pages:
        from farmops.exchange.care_page import page_of

        return page_of(sheet, paper, font)

    what = f"{title_of(sheet)}, {days_of(sheet)}"
    return write(how, what, sheet.farm.measures, lambda: text_of(sheet), pages)
