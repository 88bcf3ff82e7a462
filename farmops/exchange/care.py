"""The care sheet carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from datetime import date

from farmops.exchange.care_text import days_of, text_of, title_of
from farmops.exchange.files import write_file
from farmops.exchange.pages.papers import paper_of
from farmops.exchange.written import How, Written, write_text
from farmops.reports.care import CareSheet, care_sheet
from farmops.reports.store import Store


def write_care(store: Store, how: How, first: date | None = None, last: date | None = None) -> Written:
    """Write the care sheet of a span of days as a PDF or as plain text, mode 0600.

    Raises:
        NotFound: no such folder.
        NotUnderstood: the font file is none.
        Refused: a file is there already, or cannot be written; the span cannot be.
    """
    return written(care_sheet(store, first, last), how)


def written(sheet: CareSheet, how: How) -> Written:
    """Write a sheet."""
    what = f"{title_of(sheet)}, {days_of(sheet)}"
    if how.as_text:
        return write_text(how, what, text_of(sheet))
    from farmops.exchange.care_page import page_of

    paper = how.paper or paper_of(sheet.farm.measures)
    pages = page_of(sheet, paper, how.font)
    return Written(write_file(how.file, pages.content, replace=how.replace), what, paper, pages.count, pages.lacking)
