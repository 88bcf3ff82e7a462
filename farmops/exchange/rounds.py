"""The round of a day carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from farmops.exchange.files import write_file
from farmops.exchange.pages.papers import Paper, paper_of
from farmops.exchange.round_sheet import Sheet, sheet_of
from farmops.exchange.round_text import text_of
from farmops.reports.round import round_of
from farmops.reports.store import Store

MOST_NAMED = 20


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which round is to be printed, where to, and how. `paper` None is the one the farm uses."""

    file: str
    on: date | None = None
    unit: str | None = None
    paper: Paper | None = None
    font: str | None = None
    replace: bool = False


@dataclass(frozen=True, slots=True)
class Printed:
    """What was written; `lacking` are the signs for which a stand-in was drawn."""

    file: Path
    paper: Paper
    pages: int
    sheet: Sheet
    lacking: str

    @property
    def told(self) -> str:
        """What was written, in a line, and what could not be drawn."""
        pages = "1 page" if self.pages == 1 else f"{self.pages} pages"
        written = f"{self.sheet.day}, {self.sheet.counted}: {pages} ({self.paper}) in {self.file}."
        if not self.lacking:
            return written
        advice = "give a font that has them, or take the text, which lacks none"
        return f"{written} Not drawn: {named(self.lacking)}; {advice}."


def named(signs: str) -> str:
    """The first of some signs, and how many more there are."""
    more = f" and {len(signs) - MOST_NAMED} more" if len(signs) > MOST_NAMED else ""
    return " ".join(signs[:MOST_NAMED]) + more


def print_round(store: Store, wanted: Wanted) -> Printed:
    """Write the round of a day as a PDF, mode 0600.

    Raises:
        NotFound: no such unit, or no such folder.
        NotUnderstood: the font file is none.
        Refused: a file is there already, or it cannot be written.
    """
    from farmops.exchange.round_page import page_of

    found = round_of(store, wanted.on, unit=wanted.unit)
    sheet = sheet_of(found, wanted.unit)
    paper = wanted.paper or paper_of(found.farm.measures)
    pages = page_of(sheet, paper, wanted.font)
    file = write_file(wanted.file, pages.content, replace=wanted.replace)
    return Printed(file, paper, pages.count, sheet, pages.lacking)


def round_text(store: Store, on: date | None = None, unit: str | None = None) -> str:
    """The round of a day as plain text, 72 columns wide. Raises NotFound for a unit that is none."""
    return text_of(sheet_of(round_of(store, on, unit=unit), unit))
