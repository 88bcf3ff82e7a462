"""Lettering: which font draws which sign, and which signs no font at hand can draw."""

from __future__ import annotations

import unicodedata
from importlib.resources import as_file, files
from itertools import groupby
from pathlib import Path
from typing import cast
from xml.sax.saxutils import escape

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from farmops.exchange.plain_files import must_be_plain
from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

REGULAR, BOLD, OWN = "farmops", "farmops-bold", "farmops-own"
FACES = {REGULAR: "Roboto-Regular.ttf", BOLD: "Roboto-Bold.ttf"}
LARGEST_FONT = 100_000_000
"""Bytes of a font file: one with all signs of the world has a third of it."""
STAND_IN = "\N{REPLACEMENT CHARACTER}"
"""What is drawn for a sign that cannot be drawn."""
RIGHT_TO_LEFT = ("R", "AL", "AN")
JOINED_WHEN_WRITTEN = (range(0x0900, 0x1100), range(0x1780, 0x18B0), range(0x1950, 0x1CE0), range(0xA800, 0xAC00))
"""Scripts of South and South East Asia, whose signs change with their neighbours: drawn one by one they are wrong."""


class Lettering:
    """Turns text into what a page draws; text is never markup. The packaged font has Latin, Greek and Cyrillic.

    A font file of a person's `own` draws the signs that the packaged one lacks. `lacking` holds, in their order,
    the signs that neither could draw: a stand-in was drawn for each, and the page is to say so.

    Raises:
        NotUnderstood: the file is no TrueType font.
    """

    def __init__(self, own: str | None = None) -> None:
        _register_packaged()
        self.lacking: dict[str, None] = {}
        self._known = {REGULAR: _signs_of(REGULAR)}
        if own is not None:
            _register_own(own)
            self._known[OWN] = _signs_of(OWN)

    def markup(self, text: str, *, bold: bool = False) -> str:
        """The text as a paragraph takes it, drawn literally."""
        drawn = "".join(self._run(font, "".join(signs)) for font, signs in groupby(plain(text), self._font_of))
        return f'<font name="{BOLD}">{drawn}</font>' if bold else drawn

    def _run(self, font: str | None, signs: str) -> str:
        if font is None:
            self.lacking.update(dict.fromkeys(signs))
            return STAND_IN * len(signs)
        return f'<font name="{OWN}">{escape(signs)}</font>' if font == OWN else escape(signs)

    def _font_of(self, sign: str) -> str | None:
        if not _stands_alone(sign):
            return None
        return next((font for font, known in self._known.items() if ord(sign) in known), None)


def _stands_alone(sign: str) -> bool:
    """Whether drawing signs one after the other, from left to right, writes the script of this one."""
    return unicodedata.bidirectional(sign) not in RIGHT_TO_LEFT and not any(
        ord(sign) in script for script in JOINED_WHEN_WRITTEN
    )


def _register_packaged() -> None:
    for name, file in FACES.items():
        if name not in pdfmetrics.getRegisteredFontNames():
            with as_file(files("font_roboto") / "files" / file) as path:
                pdfmetrics.registerFont(TTFont(name, str(path)))


def _register_own(file: str) -> None:
    try:
        must_be_plain(Path(file), LARGEST_FONT)
        pdfmetrics.registerFont(TTFont(OWN, file))
    except Exception as error:  # what a damaged font raises is anything: its reader trusts what it reads
        raise NotUnderstood(
            f"{plain(file)} is no font that can be printed: {plain(str(error))}. A TrueType file ends in .ttf or .ttc."
        ) from None


def _signs_of(font: str) -> frozenset[int]:
    """The code points that a registered font has a shape for."""
    shapes = cast("TTFont", pdfmetrics.getFont(font)).face.charToGlyph
    return frozenset(sign for sign, shape in shapes.items() if shape)
