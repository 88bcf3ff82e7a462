"""Which weighings marked sold the lines of sales are about, so that no pound is valued twice.

All of one planting or one fish lot. A line is about the weighings up to its day, the latest first: what is picked is
sold soon. One that was sold by count and not weighed is about what is left of the week up to its day.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby

from farmops.model.frozen import dataclass

FRESH = timedelta(days=7)
SLACK_MG = 1_000
"""What a weighing may have left and still be covered: less than a gram, the odd milligrams of pounds and ounces."""


@dataclass(frozen=True, slots=True)
class Marked:
    """A weighing marked sold, in milligrams."""

    id: int
    day: date
    mass_mg: int


@dataclass(frozen=True, slots=True)
class Paid:
    """A line of a sale: what was paid for it in minor units, and its weight in milligrams, None if not weighed."""

    id: int
    day: date
    minor: int
    mass_mg: int | None


@dataclass(frozen=True, slots=True)
class Cover:
    """So much of a weighing was sold in a line, for so much of what was paid for it."""

    marked_id: int
    paid_id: int
    mass_mg: int
    minor: int


def cover(marked: Sequence[Marked], lines: Sequence[Paid]) -> list[Cover]:
    """How lines share out over the weighings of their planting or lot, in the order of days, weighed lines first.

    A line whose weight is covered gives all its money to the weighings, to the minor unit; one that sells more than
    was marked sold keeps the rest, and one without weight that finds nothing keeps all.
    """
    left = {one.id: one.mass_mg for one in marked}
    found: list[Cover] = []
    ordered = sorted(lines, key=lambda one: (one.day, one.mass_mg is None, one.id))
    for (day, unweighed), group in groupby(ordered, key=lambda one: (one.day, one.mass_mg is None)):
        since = day - FRESH if unweighed else date.min
        there = sorted((one for one in marked if since < one.day <= day), key=_by_day, reverse=True)
        weights = _weights(list(group), sum(left[one.id] for one in there))
        for line, mass_mg in weights:
            found += _covered(line, mass_mg, [one for one in there if left[one.id]], left)
    return found


def _by_day(one: Marked) -> tuple[date, int]:
    return one.day, one.id


def _weights(lines: Sequence[Paid], there_mg: int) -> Iterator[tuple[Paid, int]]:
    """Each line with its weight; lines that were not weighed share what is there by what was paid for them."""
    shares = [one.minor for one in lines] if any(one.minor for one in lines) else [1 for _ in lines]
    before = 0
    for line, share in zip(lines, shares, strict=True):
        first, last = (there_mg * amount // sum(shares) for amount in (before, before + share))
        yield line, last - first if line.mass_mg is None else line.mass_mg
        before += share


def _covered(line: Paid, mass_mg: int, there: Sequence[Marked], left: dict[int, int]) -> Iterator[Cover]:
    """What a line is about of the weighings that are there, whose rests shrink by it."""
    open_mg = mass_mg
    for one in there:
        if not open_mg:
            return
        taken = min(open_mg, left[one.id])
        minor = _part(line.minor, mass_mg - open_mg + taken, mass_mg) - _part(line.minor, mass_mg - open_mg, mass_mg)
        open_mg -= taken
        whole = left[one.id] - taken < SLACK_MG
        yield Cover(one.id, line.id, left[one.id] if whole else taken, minor)
        left[one.id] = 0 if whole else left[one.id] - taken


def _part(minor: int, part_mg: int, mass_mg: int) -> int:
    return (2 * minor * part_mg + mass_mg) // (2 * mass_mg)
