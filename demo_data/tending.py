"""What the fish were fed, how they ate, what some of them weighed, and those that died."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from chance import Chance
from days import HEAT_LOSS, HELPER, SHARERS, days, helped, within

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
FIRST_WEEK = date(2026, 3, 8)
DAILY_FROM = date(2026, 9, 16)
LAST_FED = date(2026, 10, 13)
# lot: grams a day from March to October
PER_DAY = {
    "PERCH-24": (14, 28, 46, 60, 62, 58, 50, 38),
    "PERCH-25": (12, 24, 42, 56, 60, 58, 48, 36),
    "TROUT-25": (60, 64, 52, 18, 10, 0, 0, 0),
    "GOLD-25": (0, 3, 5, 6, 6, 6, 5, 4),
    "LENT-26": (0, 0, 0, 0, 7, 7, 6, 4),
    "TROUT-26": (0, 0, 0, 0, 0, 0, 0, 50),
}
TWICE = (date(2026, 8, 8), date(2026, 8, 10))
OFF_AFTER = (date(2026, 8, 11), date(2026, 8, 13))
TWICE_LOT = "PERCH-25"
TOLD_DAILY = (date(2026, 8, 2), date(2026, 8, 15))
POWER_CUT = date(2026, 9, 22)
SAMPLES = (
    (date(2024, 10, 20), "PERCH-24", 10, "15 oz"),
    (date(2025, 4, 13), "PERCH-24", 10, "1 lb 6 oz"),
    (date(2025, 7, 13), "PERCH-24", 10, "2 lb 2 oz"),
    (date(2025, 7, 13), "PERCH-25", 10, "1 lb 0 oz"),
    (date(2025, 10, 5), "PERCH-24", 10, "2 lb 13 oz"),
    (date(2025, 10, 5), "PERCH-25", 10, "1 lb 12 oz"),
    (date(2025, 11, 9), "TROUT-25", 8, "2 lb 7 oz"),
    (date(2026, 1, 11), "TROUT-25", 8, "3 lb 2 oz"),
    (date(2026, 3, 15), "TROUT-25", 8, "3 lb 14 oz"),
    (date(2026, 4, 5), "PERCH-24", 8, "2 lb 7 oz"),
    (date(2026, 4, 5), "PERCH-25", 8, "1 lb 11 oz"),
    (date(2026, 6, 7), "PERCH-24", 8, "2 lb 9 oz"),
    (date(2026, 6, 7), "PERCH-25", 8, "2 lb 1 oz"),
    (date(2026, 8, 30), "PERCH-24", 8, "2 lb 11 oz"),
    (date(2026, 8, 30), "PERCH-25", 8, "2 lb 6 oz"),
)
ONE_BY_ONE = (
    (date(2026, 10, 4), "PERCH-24", "5.1 oz; 5.9 oz; 6.2 oz; 5.4 oz; 5.6 oz; 4.8 oz; 6.0 oz; 5.8 oz"),
    (date(2026, 10, 4), "PERCH-25", "4.7 oz; 5.2 oz; 4.4 oz; 5.5 oz; 4.9 oz; 5.0 oz; 5.3 oz; 4.6 oz"),
)
LOSSES = (
    (date(2024, 7, 23), "PERCH-24", 2, "unknown", "buried", "three days after they came"),
    (date(2025, 1, 19), "PERCH-24", 1, "unknown", "buried", ""),
    (date(2025, 5, 5), "PERCH-25", 3, "injury", "buried", "scraped on the way here"),
    (date(2025, 10, 11), "GOLD-25", 1, "jumped out", "buried", "the net was off overnight"),
    (HEAT_LOSS, "TROUT-25", 12, "temperature", "buried", "26 C at noon, pump on, air stone off"),
    (POWER_CUT, "PERCH-25", 6, "oxygen", "buried", "no air for five hours; WREN had the battery pump"),
)


def feeding_rows(known: Known) -> list[Row]:
    """A row a week from what left the tub; day by day in the last four weeks and where it matters."""
    rows: list[Row] = []
    for lot in PER_DAY:
        chance = Chance(f"feeding of {lot}")
        rows += _weekly(known, lot, chance) if lot != TWICE_LOT else _weekly_but_for_august(known, lot, chance)
        rows += [_fed(lot, day, chance) for day in days(DAILY_FROM, LAST_FED) if _lives(known, lot, day)]
    return sorted(row for row in rows if row[2])


def sample_rows(known: Known) -> list[Row]:
    """Fish weighed together: how many; or one by one: their weights."""
    chance = Chance("samples")
    together = [(day, lot, number, weight, _who(day, chance)) for day, lot, number, weight in SAMPLES]
    return sorted(together + [(day, lot, "", each, _who(day, chance)) for day, lot, each in ONE_BY_ONE], key=str)


def loss_rows(known: Known) -> list[Row]:
    """Fish that died."""
    chance = Chance("losses")
    return [(*loss, _who(loss[0], chance)) for loss in LOSSES]


def _weekly(known: Known, lot: str, chance: Chance) -> list[Row]:
    return [row for sunday in _sundays() if (row := _week(known, lot, sunday, chance))[2]]


def _weekly_but_for_august(known: Known, lot: str, chance: Chance) -> list[Row]:
    weeks = [row for row in _weekly(known, lot, chance) if not within(row[0], TOLD_DAILY)]
    return weeks + [_fed(lot, day, chance) for day in days(*TOLD_DAILY) if not within(day, OFF_AFTER)]


def _week(known: Known, lot: str, sunday: date, chance: Chance) -> Row:
    """What a lot got in the week that ends on a Sunday."""
    week = [day for day in days(sunday - timedelta(days=6), sunday) if _lives(known, lot, day)]
    grams = round(chance.about(1.0, 0.15) * sum(_usual(lot, day) for day in week))
    return sunday, lot, f"{grams} g" if grams else "", "all", "the week, by what left the tub", _who(sunday, chance)


def _fed(lot: str, day: date, chance: Chance) -> Row:
    grams = round(chance.about(1.0, 0.1) * _usual(lot, day))
    if lot == TWICE_LOT and within(day, TWICE):
        ate = "some" if day == TWICE[1] else "all"
        return day, lot, f"{2 * grams} g", ate, "a scoop in the morning, one in the evening", HELPER
    if day == POWER_CUT:
        return day, lot, "", "", "", ""
    ate = "some" if chance.happens(0.08) else "all"
    return day, lot, f"{grams} g" if grams else "", ate, "", _who(day, chance)


def _usual(lot: str, day: date) -> int:
    return PER_DAY[lot][day.month - 3]


def _lives(known: Known, lot: str, day: date) -> bool:
    """Whether the lot was there, and not in its first or last day, on which nobody feeds."""
    row = next(one for one in known["fish"] if one["lot"] == lot)
    closed = date.fromisoformat(row["closed"]) if row["closed"] else LAST_FED + timedelta(days=1)
    return date.fromisoformat(row["stocked"]) < day < closed


def _sundays() -> Iterator[date]:
    return (day for day in days(FIRST_WEEK, DAILY_FROM) if day.weekday() == 6 and day < DAILY_FROM)


def _who(day: date, chance: Chance) -> str:
    return HELPER if helped(day) else chance.of(SHARERS)
