"""The round of a day carried out of the program: a file to print, or plain text."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from farmops.exchange.files import write_file
from farmops.exchange.pages.papers import Paper, paper_of
from farmops.exchange.round_sheet import Sheet, sheet_of
from farmops.exchange.round_text import text_of
from farmops.model.farm import Person
from farmops.reports.round import round_of
from farmops.reports.store import Store

MOST_NAMED = 20


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which round is to be written, where to, and how. `person` None is everybody, `paper` None the farm's own."""

    file: str
    on: date | None = None
    unit: str | None = None
    person: Person | None = None
    paper: Paper | None = None
    font: str | None = None
    as_text: bool = False
    replace: bool = False


@dataclass(frozen=True, slots=True)
class Printed:
    """What was written. Plain text has neither paper nor pages; for the signs of `lacking` a stand-in was drawn."""

    file: Path
    sheet: Sheet
    paper: Paper | None = None
    pages: int | None = None
    lacking: str = ""

    @property
    def told(self) -> str:
        """What was written, in a line, and what could not be drawn."""
        size = f"{_counted(self.pages)} ({self.paper})" if self.pages else "plain text"
        written = f"{self.sheet.day}, {self.sheet.counted}: {size} in {self.file}."
        if not self.lacking:
            return written
        advice = "give a font that has them, or take the text, which lacks none"
        return f"{written} Not drawn: {named(self.lacking)}; {advice}."


def _counted(pages: int) -> str:
    return "1 page" if pages == 1 else f"{pages} pages"


def named(signs: str) -> str:
    """The first of some signs, and how many more there are."""
    more = f" and {len(signs) - MOST_NAMED} more" if len(signs) > MOST_NAMED else ""
    return " ".join(signs[:MOST_NAMED]) + more


def write_round(store: Store, wanted: Wanted) -> Printed:
    """Write the round of a day as a PDF or as plain text, mode 0600.

    Raises:
        NotFound: no such unit, or no such folder.
        NotUnderstood: the font file is none.
        Refused: a file is there already, or it cannot be written.
    """
    found = round_of(store, wanted.on, unit=wanted.unit, person=wanted.person)
    sheet = sheet_of(found, wanted.unit)
    if wanted.as_text:
        return Printed(write_file(wanted.file, text_of(sheet).encode(), replace=wanted.replace), sheet)
    from farmops.exchange.round_page import page_of

    paper = wanted.paper or paper_of(found.farm.measures)
    pages = page_of(sheet, paper, wanted.font)
    file = write_file(wanted.file, pages.content, replace=wanted.replace)
    return Printed(file, sheet, paper, pages.count, pages.lacking)


def round_text(store: Store, on: date | None = None, unit: str | None = None, person: Person | None = None) -> str:
    """The round of a day as plain text, 72 columns wide. Raises NotFound for a unit that is none."""
    return text_of(sheet_of(round_of(store, on, unit=unit, person=person), unit))
