"""Lot codes: what is written on a bag, a crate or a label so that it can be traced back to its bed or its fish lot.

`P41-261014` is what was picked on 14 October 2026 from planting 41; `PERCH-24-261014` what was taken on that day from a
fish lot; without a day the code means all of it. A code never changes while the weighing keeps its day.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime

from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

CODE = re.compile(r"(?P<lot>.+?)(?:-(?P<day>[0-9]{6}))?")
PLANTING = re.compile(r"P(?P<id>[1-9][0-9]{0,17})")
DAY = "%y%m%d"


@dataclass(frozen=True, slots=True)
class LotCode:
    """A planting or a fish lot, on one day or at all: exactly one of `planting_id` and `fish_lot` is set."""

    planting_id: int | None = None
    fish_lot: str | None = None
    day: date | None = None

    def __str__(self) -> str:
        lot = self.fish_lot or f"P{self.planting_id}"
        return f"{lot}-{self.day.strftime(DAY)}" if self.day else lot


def read_lot_code(text: str) -> LotCode:
    """A code as it stands on a label. A fish lot whose own code ends like a day is not told apart from one of that day.

    Raises NotUnderstood.
    """
    match = CODE.fullmatch("".join(text.split()).upper())
    if match is None:
        raise NotUnderstood(f"{plain(text)!r} is no lot code. Understood: P41-261014, PERCH-24-261014, PERCH-24.")
    planting = PLANTING.fullmatch(match["lot"])
    day = _day(match["day"], text) if match["day"] else None
    return LotCode(int(planting["id"]) if planting else None, None if planting else match["lot"], day)


def _day(digits: str, text: str) -> date:
    try:
        return datetime.strptime(digits, DAY).date()  # noqa: DTZ007 - a day has no time zone
    except ValueError:
        raise NotUnderstood(f"{plain(text)!r} is no lot code: {digits} is no day as year, month, day.") from None
