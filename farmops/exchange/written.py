"""What was written for a printer: a PDF or plain text, told in a line."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from farmops.exchange.files import write_file
from farmops.exchange.pages.papers import Paper

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
        size = f"{self.pages} {'page' if self.pages == 1 else 'pages'} ({self.paper})" if self.pages else "plain text"
        written = f"{self.what}: {size} in {self.file}."
        if not self.lacking:
            return written
        return (
            f"{written} Not drawn: {' '.join(self.lacking[:MOST_NAMED])}; give a font that has them, or take the text."
        )


def write_text(how: How, what: str, text: str) -> Written:
    """Write plain text. Raises NotFound and Refused."""
    return Written(write_file(how.file, text.encode(), replace=how.replace), what)
