"""The blocks of a page: heads, sections, boxes to tick, blanks to fill in, cautions set apart, room for notes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from reportlab.lib.colors import Color, black
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, HRFlowable, KeepTogether, Paragraph, Spacer, Table

from farmops.exchange.pages.lettering import BOLD, REGULAR, Lettering

NO_BREAK = "\N{NO-BREAK SPACE}"
FAINT = Color(0.55, 0.55, 0.55)
SHADE = Color(0.93, 0.93, 0.93)
BOX_SIZE, NOTE_LINE = 11, 20
TICKED, NUMBERED, PLACED, AT_THE_RIGHT = BOX_SIZE + 7, 30, 64, 92
"""Widths of the columns of something to do; what there is to do has the rest."""
FLUSH = [("VALIGN", (0, 0), (-1, -1), "TOP"), *((f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT"))]


def style(
    size: float, leading: float, font: str = REGULAR, *, alignment: Literal[0, 2] = TA_LEFT, before: float = 0
) -> ParagraphStyle:
    """Looks of a paragraph: size, leading and the room before it in points."""
    return ParagraphStyle(
        font,
        fontName=font,
        fontSize=size,
        leading=leading,
        alignment=alignment,
        spaceBefore=before,
        splitLongWords=1,
    )


TITLE = style(17, 21, BOLD)
HEADING = style(11.5, 15, BOLD)
WORDS = style(10, 13)
SMALL = style(8.5, 11)
TO_FILL_IN = style(9.5, 18, before=6)
RIGHT = style(10, 13, alignment=TA_RIGHT)
SMALL_RIGHT = style(8.5, 11, alignment=TA_RIGHT)
RIGHT_TO_FILL_IN = style(9.5, 18, alignment=TA_RIGHT)


def blank(name: str, signs: int = 12, after: str = "") -> str:
    """A name with a blank behind it, so many signs wide, and what is written into it is counted in."""
    counted = f"{NO_BREAK}{after}" if after else ""
    return f"{name}{NO_BREAK}{'_' * signs}{counted}"


class Box(Flowable):
    """An empty square to tick."""

    def __init__(self, size: float = BOX_SIZE) -> None:
        super().__init__()
        self.width = self.height = size

    def draw(self) -> None:
        """Draw the square."""
        self.canv.setLineWidth(0.9)
        self.canv.setStrokeColor(black)
        self.canv.rect(0, 0, self.width, self.height)


class Blocks:
    """Makes blocks in one lettering, `width` points wide. What it is given is text, never markup."""

    def __init__(self, lettering: Lettering, width: float) -> None:
        self.lettering = lettering
        self.width = width

    def words(self, text: str, looks: ParagraphStyle = WORDS) -> Paragraph:
        """A paragraph."""
        return Paragraph(self.lettering.markup(text), looks)

    def head(self, title: str, *lines: str) -> list[Flowable]:
        """What a page is about, with a few lines below it."""
        return [self.words(title, TITLE), *(self.words(line) for line in lines if line), Spacer(0, 4)]

    def heading(self, text: str) -> Flowable:
        """A heading over what follows, ruled."""
        ruled = Table([[self.words(text, HEADING)]], colWidths=[self.width])
        ruled.setStyle([*FLUSH, ("LINEBELOW", (0, 0), (-1, -1), 0.9, black), ("TOPPADDING", (0, 0), (-1, -1), 9)])
        return ruled

    def titled(self, title: str, remarks: Sequence[str], looks: ParagraphStyle = WORDS) -> Paragraph:
        """A title in bold, and what is to be known of it at a glance."""
        marked = self.lettering.markup(title, bold=True)
        return Paragraph(marked + self.lettering.markup("".join(f" · {remark}" for remark in remarks)), looks)

    def caution(self, text: str) -> Table:
        """A caution, set apart by a bar and a shade, with its word before it."""
        marked = self.lettering.markup("Caution: ", bold=True) + self.lettering.markup(text)
        apart = Table([[Paragraph(marked, SMALL)]], spaceBefore=1, spaceAfter=2)
        apart.setStyle(
            [
                ("LINEBEFORE", (0, 0), (0, -1), 2.5, black),
                ("BACKGROUND", (0, 0), (-1, -1), SHADE),
                *((f"{side}PADDING", (0, 0), (-1, -1), 2) for side in ("TOP", "BOTTOM")),
            ]
        )
        return apart

    def blanks(self, *asked: str, looks: ParagraphStyle = TO_FILL_IN) -> Paragraph:
        """Blanks side by side, as `blank` makes them; none is parted from its name."""
        return self.words(f"{NO_BREAK * 2} ".join(asked), looks)

    def to_do(self, number: str, where: str, what: Sequence[Flowable], right: Sequence[Flowable]) -> Flowable:
        """Something to be ticked: box, number, place, what there is to do, and what stands at the right."""
        rest = self.width - TICKED - NUMBERED - PLACED - AT_THE_RIGHT
        widths = (TICKED, NUMBERED, PLACED, rest, AT_THE_RIGHT)
        cells = [Box(), self.words(number), self.words(where), list(what), list(right)]
        row = Table([cells], colWidths=widths, splitInRow=1)
        row.setStyle([*FLUSH, ("LINEBELOW", (0, 0), (-1, -1), 0.4, FAINT), ("RIGHTPADDING", (0, 0), (3, -1), 6)])
        return row

    def notes(self, title: str, lines: int) -> Flowable:
        """Ruled lines to write on."""
        rules = [HRFlowable("100%", 0.4, color=FAINT, spaceBefore=NOTE_LINE, spaceAfter=0) for _ in range(lines)]
        return KeepTogether([self.heading(title), *rules])
