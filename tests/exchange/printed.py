"""Printed pages read back: the words of each, runs of blanks folded."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader


def pages_read(content: bytes) -> list[str]:
    """What stands on each page, in the order in which it was drawn."""
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(content)).pages]


def text_read(content: bytes) -> str:
    """What stands on all pages, one after the other."""
    return " ".join(pages_read(content))


def size_of(content: bytes) -> tuple[float, float]:
    """Width and height of the first page in points, rounded."""
    box = PdfReader(BytesIO(content)).pages[0].mediabox
    return round(float(box.width), 1), round(float(box.height), 1)
