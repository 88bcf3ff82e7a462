"""What is carried out of the program on paper: a PDF or plain text, told in a line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from farmops.exchange.files import write_file
from farmops.exchange.pages.papers import Paper, paper_of
from farmops.model.frozen import dataclass
from farmops.quantities import Measures

if TYPE_CHECKING:
    from farmops.exchange.pages.document import Pages

MOST_NAMED = 20


@dataclass(frozen=True, slots=True)
class How:
    """Where a paper is written to and how. `paper` None is the farm's own; `font` draws signs that ours lacks."""

    file: str
    paper: Paper | None = None
    font: str | None = None
    as_text: bool = False
    replace: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """A file that was written; plain text has no paper and no pages. A stand-in was drawn for signs in `lacking`."""

    file: Path
    what: str
    paper: Paper | None = None
    pages: int | None = None
    lacking: str = ""

    @property
    def told(self) -> str:
        """What was written, in a line, and what could not be drawn."""
        size = f"{_counted(self.pages)} ({self.paper})" if self.pages else "plain text"
        written = f"{self.what}: {size} in {self.file}."
        if not self.lacking:
            return written
        advice = "give a font that has them, or take the text, which lacks none"
        return f"{written} Not drawn: {_named(self.lacking)}; {advice}."


def write(
    how: How,
    what: str,
    measures: Measures,
    text: Callable[[], str],
    pages: Callable[[Paper, str | None], Pages],
) -> Written:
    """Write a paper as plain text, or as the pages that are made for its size and font; mode 0600.

    Raises:
        NotFound: no such folder.
        NotUnderstood: the font file is none.
        Refused: a file is there already, or it cannot be written.
    """
    if how.as_text:
        return Written(write_file(how.file, text().encode(), replace=how.replace), what)
    paper = how.paper or paper_of(measures)
    made = pages(paper, how.font)
    return Written(write_file(how.file, made.content, replace=how.replace), what, paper, made.count, made.lacking)


def _counted(pages: int) -> str:
    return "1 page" if pages == 1 else f"{pages} pages"


def _named(signs: str) -> str:
    """The first of some signs, and how many more there are."""
    more = f" and {len(signs) - MOST_NAMED} more" if len(signs) > MOST_NAMED else ""
    return " ".join(signs[:MOST_NAMED]) + more
