"""Lot codes: what is written on a bag, a crate or a label so that it can be traced back to its bed or its fish lot.

`WREN-N#41/261014` is what was picked on 14 October 2026 from planting 41, in the bed WREN-N; `PERCH-24/261014` what was
taken on that day from a fish lot. Without a day the code means all of it. The number tells a planting, the bed is there
for people: a label stays good when the bed is called otherwise.
"""

from __future__ import annotations

import re
from datetime import date, datetime

from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.text import plain

CODE = re.compile(r"(?P<where>[^#/]+)(?:#(?P<planting>[1-9][0-9]{0,17}))?(?:/(?P<day>[0-9]{6}))?")
DAY = "%y%m%d"


@dataclass(frozen=True, slots=True)
class LotCode:
    """A planting in the bed `where`, or the fish lot `where` when no planting is named; on one day or at all."""

    where: str
    planting_id: int | None = None
    day: date | None = None

    def __str__(self) -> str:
        planting = f"#{self.planting_id}" if self.planting_id else ""
        return f"{self.where}{planting}/{self.day.strftime(DAY)}" if self.day else f"{self.where}{planting}"


def read_lot_code(text: str) -> LotCode:
    """A code as it stands on a label. Raises NotUnderstood."""
    match = CODE.fullmatch("".join(text.split()).upper())
    if match is None:
        raise NotUnderstood(f"{plain(text)!r} is no lot code. Understood: WREN-N#41/261014, PERCH-24/261014, PERCH-24.")
    day = _day(match["day"], text) if match["day"] else None
    return LotCode(match["where"], int(match["planting"]) if match["planting"] else None, day)


def _day(digits: str, text: str) -> date:
    try:
        return datetime.strptime(digits, DAY).date()  # noqa: DTZ007 - a day has no time zone
    except ValueError:
        raise NotUnderstood(f"{plain(text)!r} is no lot code: {digits} is no day as year, month, day.") from None
