"""What was read in the water: each Sunday, on the days of each story, and the temperature of the last mornings."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from chance import Chance
from days import HEAT_LOSS, HELPER, LAST, SHARERS, days, helped

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
Cells = Mapping[str, str]
HEADS = ("temperature", "highest temperature", "pH", "ammonia", "nitrite", "nitrate", "oxygen", "alkalinity", "iron")
FIRST_SUNDAY = date(2026, 5, 3)
LAST_SUNDAY = date(2026, 10, 11)
# How much colder than the farm's middle a unit is [deg C], its pH, and how much nitrate it runs at [mg/L as N].
WATER = {"WREN": (0.0, 6.9, 30), "ROOK": (-0.2, 7.0, 24), "TEAL": (-1.1, 7.0, 22), "PLOVER": (0.4, 8.1, 9)}
COLDEST, WARMEST, MEAN_DAY, YEAR = 4.5, 21.5, 120, 365
LAST_MORNINGS = 3
SUNDAY = 6
# Limestone holds the pH of PLOVER up, and iron falls out of its water.
ALKALINITY = {"WREN": 82, "ROOK": 78, "TEAL": 86, "PLOVER": 228}
IRON = {"WREN": 1.6, "ROOK": 1.5, "TEAL": 1.4, "PLOVER": 0.1}
HEAT = {-2: 22.4, -1: 24.3, 0: 26.0, 1: 25.2, 2: 23.1}
OXYGEN = {0: "3.6", 1: "5.4", 2: "7.1"}
LAST_NOON = date(2026, 9, 27)
# Ammonia and nitrite [mg/L as N] of ROOK after it was fed twice a day, from the second such day on.
DOUBLE_FED_FROM = date(2026, 8, 9)
DOUBLE_FED = ((0.5, 0.1), (1.5, 0.25), (3.0, 0.5), (2.5, 1.0), (1.5, 1.0), (0.5, 0.5), (0.25, 0.25))
# SISKIN day by day: the bacteria come on, then the nights turn cold and nothing moves any more.
CYCLING_FROM = date(2026, 9, 21)
CYCLING = (
    *((17.8, 3.0, 0.0), (17.6, 3.0, 0.0), (17.7, 3.0, 0.0), (17.3, 2.9, 0.1), (17.0, 2.8, 0.1), (16.8, 2.7, 0.25)),
    *((16.4, 2.5, 0.25), (16.5, 2.4, 0.25), (16.1, 2.3, 0.5), (15.6, 2.2, 0.5), (15.1, 2.1, 0.5), (14.4, 2.0, 0.5)),
    *((13.8, 2.0, 0.5), (13.1, 2.0, 0.5), (12.7, 2.0, 0.5), (12.4, 2.0, 0.5), (12.5, 2.0, 0.5), (12.1, 2.0, 0.5)),
    *((11.9, 2.0, 0.5), (11.8, 2.0, 0.5), (11.6, 2.0, 0.5), (11.7, 2.0, 0.5), (11.5, 2.0, 0.5)),
)


def water_rows(known: Known) -> list[Row]:
    """A row for each unit and day on which something was read; empty where that was not."""
    found = [*_sundays(), *_heat(), *_double_fed(), *_cycling(), *_last_mornings()]
    return sorted((day, unit, *(read.get(head, "") for head in HEADS), who) for day, unit, read, who in found)


def _sundays() -> Iterator[tuple[date, str, Cells, str]]:
    for unit, (_, acid, nitrate) in WATER.items():
        chance = Chance(f"water of {unit}")
        for day in (one for one in days(FIRST_SUNDAY, LAST_SUNDAY) if one.weekday() == SUNDAY):
            read = {
                "temperature": _degrees(day, unit, chance),
                "pH": f"{chance.about(acid, 0.2):.1f}",
                "ammonia": chance.of(("<0.25", "<0.25", "0.25")),
                "nitrite": chance.of(("0", "0", "0.1")),
                "nitrate": f"{chance.about(nitrate, nitrate / 3):.0f}",
            }
            first = day.day <= 7
            more = {"alkalinity": _near(ALKALINITY, unit, chance, 0), "iron": _near(IRON, unit, chance, 1)}
            if not _told_apart(unit, day):
                yield day, unit, read | (more if first else {}), _who(day, chance)


def _told_apart(unit: str, day: date) -> bool:
    """Whether a story tells of that unit on that day, so that the Sunday does not."""
    return (unit == "ROOK" and day == DOUBLE_FED_FROM) or (unit == "TEAL" and day == HEAT_LOSS)


def _heat() -> Iterator[tuple[date, str, Cells, str]]:
    """TEAL around the day that took its trout: read at noon, oxygen too on the day itself."""
    chance = Chance("heat of TEAL")
    for off, warmest in HEAT.items():
        day = HEAT_LOSS + timedelta(days=off)
        oxygen = {"oxygen": OXYGEN[off]} if off in OXYGEN else {}
        yield day, "TEAL", {"highest temperature": f"{warmest}", **oxygen}, _who(day, chance)
    for day in (one for one in days(HEAT_LOSS + timedelta(days=3), LAST_NOON) if one.weekday() == SUNDAY):
        yield day, "TEAL", {"highest temperature": _degrees(day, "TEAL", chance)}, _who(day, chance)


def _double_fed() -> Iterator[tuple[date, str, Cells, str]]:
    chance = Chance("ROOK fed twice")
    for step, (ammonia, nitrite) in enumerate(DOUBLE_FED):
        day = DOUBLE_FED_FROM + timedelta(days=step)
        acid = f"{chance.about(7.2, 0.1):.1f}"
        read = {"temperature": _degrees(day, "ROOK", chance), "pH": acid, "ammonia": f"{ammonia}"}
        yield day, "ROOK", read | {"nitrite": f"{nitrite}"}, HELPER


def _cycling() -> Iterator[tuple[date, str, Cells, str]]:
    chance = Chance("SISKIN cycling")
    for step, (warm, ammonia, nitrite) in enumerate(CYCLING):
        day = CYCLING_FROM + timedelta(days=step)
        acid = f"{chance.about(7.6, 0.1):.1f}"
        read = {"temperature": f"{warm}", "pH": acid, "ammonia": f"{ammonia}", "nitrite": f"{nitrite}"}
        yield day, "SISKIN", read, _who(day, chance)


def _last_mornings() -> Iterator[tuple[date, str, Cells, str]]:
    """The water of each unit on the morning round of the last days."""
    for unit in WATER:
        chance = Chance(f"mornings of {unit}")
        for day in days(LAST - timedelta(days=LAST_MORNINGS - 1), LAST):
            yield day, unit, {"temperature": _degrees(day, unit, chance)}, _who(day, chance)


def _degrees(day: date, unit: str, chance: Chance) -> str:
    """The water on a day of an ordinary year in an unheated lean-to, to a tenth of a degree."""
    season = math.sin(2 * math.pi * (day.timetuple().tm_yday - MEAN_DAY) / YEAR)
    middle = (COLDEST + WARMEST) / 2 + (WARMEST - COLDEST) / 2 * season
    return f"{chance.about(middle + WATER[unit][0], 0.6):.1f}"


def _near(usual: Mapping[str, float], unit: str, chance: Chance, digits: int) -> str:
    return f"{chance.about(usual[unit], usual[unit] / 8):.{digits}f}"


def _who(day: date, chance: Chance) -> str:
    return HELPER if helped(day) else chance.of(SHARERS)
