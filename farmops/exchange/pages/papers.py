"""The papers a page is printed on."""

from __future__ import annotations

from enum import StrEnum

from farmops.quantities import Measures


class Paper(StrEnum):
    """A size of paper, upright."""

    A4 = "a4"
    LETTER = "letter"


POINTS_PER_INCH, MM_PER_INCH = 72, 25.4
SIZES = {
    Paper.A4: (210 / MM_PER_INCH * POINTS_PER_INCH, 297 / MM_PER_INCH * POINTS_PER_INCH),
    Paper.LETTER: (8.5 * POINTS_PER_INCH, 11 * POINTS_PER_INCH),
}
"""Width and height in points."""


def paper_of(measures: Measures) -> Paper:
    """The paper that lies in the printer: letter where people weigh in pounds, A4 where they weigh in kilograms."""
    return Paper.LETTER if measures.mass == "lb_oz" else Paper.A4
