"""Pages as a PDF: built from blocks, numbered `1 of 2`, saying which signs could not be drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from io import BytesIO
from typing import Any

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph

from farmops.exchange.pages.blocks import SMALL, SMALL_RIGHT, Blocks
from farmops.exchange.pages.lettering import STAND_IN, Lettering
from farmops.exchange.pages.papers import SIZES, Paper
from farmops.model.frozen import dataclass
from farmops.model.text import plain

MARGIN, BOTTOM_MARGIN = 40, 62
FOOT_TOP, NOTE_TOP, NUMBERED = 52, 39, 60
"""Where the words below a page begin, from its lower edge, and the room for its number."""
MOST_NAMED = 12
Story = Callable[[Blocks], Sequence[Flowable]]


@dataclass(frozen=True, slots=True)
class Pages:
    """A PDF, how many pages it has, and the signs for which a stand-in was drawn."""

    content: bytes
    count: int
    lacking: str


def pages_of(story: Story, *, title: str, foot: str, paper: Paper, own_font: str | None = None) -> Pages:
    """Build a document from what `story` makes of blocks; `foot` stands at the bottom of every page.

    It is built twice: only then is it known of how many pages each is one, and what could not be drawn.

    Raises:
        NotUnderstood: the font file is none.
    """
    lettering = Lettering(own_font)
    first = _Build(story, lettering, title, foot, paper)
    return _Build(story, lettering, title, foot, paper, of=first.pages.count).pages


class _Build:
    """One run over the story. `of` is the number of pages, 0 while it is not known."""

    def __init__(self, story: Story, lettering: Lettering, title: str, foot: str, paper: Paper, of: int = 0) -> None:
        self.size = SIZES[paper]
        self.foot, self.of = foot, of
        self.blocks = Blocks(lettering, self.size[0] - 2 * MARGIN)
        self.pages = self._built(story, title)

    def _built(self, story: Story, title: str) -> Pages:
        file = BytesIO()
        document = BaseDocTemplate(
            file, pagesize=self.size, title=plain(title), author="farmops", creator="farmops", lang="en"
        )
        width, height = self.blocks.width, self.size[1] - MARGIN - BOTTOM_MARGIN
        frame = Frame(MARGIN, BOTTOM_MARGIN, width, height, 0, 0, 0, 0)
        document.addPageTemplates(PageTemplate(frames=[frame], onPageEnd=self._foot))
        document.build(list(story(self.blocks)))
        return Pages(file.getvalue(), document.page, "".join(self.blocks.lettering.lacking))

    def _foot(self, canvas: Canvas, document: Any) -> None:
        """Below every page: what it belongs to, which one it is, and what could not be drawn."""
        blocks, lacking = self.blocks, "".join(self.blocks.lettering.lacking)
        self._put(canvas, blocks.words(self.foot, SMALL), FOOT_TOP, blocks.width - NUMBERED)
        number = blocks.words(f"{document.page} of {self.of}", SMALL_RIGHT)
        self._put(canvas, number, FOOT_TOP, NUMBERED, blocks.width - NUMBERED)
        if lacking:
            self._put(canvas, blocks.words(lacking_words(lacking), SMALL), NOTE_TOP, blocks.width)

    def _put(self, canvas: Canvas, words: Paragraph, top: float, width: float, ahead: float = 0) -> None:
        """Words below the page, from a height downwards."""
        _, height = words.wrapOn(canvas, width, top)
        words.drawOn(canvas, MARGIN + ahead, top - height)


def lacking_words(lacking: str) -> str:
    """What a page says of signs that could not be drawn, naming them by code point, for they cannot be drawn here."""
    named = [f"U+{ord(sign):04X}" for sign in lacking[:MOST_NAMED]]
    more = f" and {len(lacking) - MOST_NAMED} more" if len(lacking) > MOST_NAMED else ""
    return f"{STAND_IN} stands for signs that could not be drawn: {', '.join(named)}{more}."
