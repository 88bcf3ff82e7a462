"""Plantings and weighings: a cool, unheated glasshouse, season by season, with a few slips of the hand."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from chance import Chance
from days import (
    HEAT_LOSS,
    HELPER,
    LAST_WEIGHED,
    NO_TARE_UNIT,
    NO_TARE_WEEK,
    SCALE_HIGH,
    SCALE_HIGH_BY,
    SHARERS,
    helped,
    within,
)

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
OZ_PER_LB = 16
TARE, TARE_OZ, TARE_SINCE = "1 lb 2 oz", 18.0, date(2025, 6, 1)
LEAST_OZ, TWO_PARTS_OZ = 1.5, 9.0
CRATED = ("CHARD", "PAK CHOI", "CELERY", "CUCUMBER")
YEARS = (2024, 2025, 2026)
MONTH_DAYS = 30
SEASON_PEAK = (7, 10)


@dataclass(frozen=True)
class Habit:
    """How a crop is picked: pounds per square foot in a midsummer week, days to the first pick and between picks."""

    lb_per_week: float
    first_after: int
    every: float
    plants_per_sq_ft: float
    sown: bool = False


HABITS = {
    "CHARD": Habit(0.150, 38, 7, 1.5),
    "PAK CHOI": Habit(0.260, 44, 8, 3, sown=True),
    "MINT": Habit(0.055, 45, 11, 1),
    "CELERY": Habit(0.200, 78, 9, 2),
    "SPRING ONION": Habit(0.160, 68, 10, 30, sown=True),
    "STRAWBERRY": Habit(0.130, 60, 4, 2),
    "CUCUMBER": Habit(0.480, 42, 4, 0.7),
}
Monthday = tuple[int, int]
Entry = tuple[str, str, float, Monthday, Monthday | None]
# bed, crop, area [sq ft], start (month, day), end (month, day; before the start: of the next year), or None: it stays
PROGRAMME: tuple[Entry, ...] = (
    ("N", "MINT", 2.0, (4, 2), None),
    ("N", "CHARD", 6.0, (3, 22), (11, 15)),
    ("N", "PAK CHOI", 4.5, (3, 8), (6, 3)),
    ("N", "CUCUMBER", 4.5, (6, 6), (9, 22)),
    ("N", "PAK CHOI", 4.5, (9, 24), (12, 28)),
    ("S", "STRAWBERRY", 4.0, (8, 20), None),
    ("S", "CELERY", 4.0, (4, 26), (11, 6)),
    ("S", "SPRING ONION", 2.0, (3, 5), (6, 24)),
    ("S", "SPRING ONION", 2.0, (6, 28), (11, 10)),
    ("S", "CHARD", 2.5, (9, 2), (4, 24)),
)
VIGOUR = {"WREN": 1.62, "ROOK": 1.12, "TEAL": 1.36, "PLOVER": 0.98}
SHADE_LEAVES_OUT = {"PLOVER": ("CUCUMBER", "STRAWBERRY")}
PICK_WEEKDAY = {"WREN": 2, "ROOK": 5, "TEAL": 5, "PLOVER": 6}
WEDNESDAY, SATURDAY = 2, 5
SPOILED = {
    "CHARD": ("slugs", "leaf miner"),
    "PAK CHOI": ("bolted", "flea beetle"),
    "MINT": ("rust",),
    "CELERY": ("stringy",),
    "SPRING ONION": ("thrips",),
    "STRAWBERRY": ("grey mould", "slugs"),
    "CUCUMBER": ("mildew", "bitter"),
}
# lot, day, number, mean weight [oz], use
FISH = (
    ("PERCH-24", date(2025, 10, 18), 6, 4.6, "home"),
    ("PERCH-24", date(2025, 11, 22), 8, 4.7, "home"),
    ("PERCH-24", date(2026, 4, 18), 6, 5.0, "home"),
    ("PERCH-24", date(2026, 5, 23), 7, 5.1, "home"),
    ("PERCH-24", date(2026, 6, 27), 6, 5.2, "given"),
    ("PERCH-24", date(2026, 8, 29), 8, 5.4, "home"),
    ("PERCH-24", date(2026, 9, 26), 10, 5.6, "sold"),
    ("PERCH-24", date(2026, 10, 10), 6, 5.7, "home"),
    ("PERCH-25", date(2026, 6, 13), 5, 4.3, "home"),
    ("PERCH-25", date(2026, 7, 18), 6, 4.5, "home"),
    ("PERCH-25", date(2026, 8, 22), 7, 4.7, "home"),
    ("PERCH-25", date(2026, 9, 19), 8, 4.9, "home"),
    ("PERCH-25", date(2026, 10, 3), 5, 5.0, "given"),
    ("TROUT-25", date(2026, 3, 21), 4, 7.9, "home"),
    ("TROUT-25", date(2026, 4, 11), 6, 8.4, "home"),
    ("TROUT-25", date(2026, 5, 2), 6, 8.7, "sold"),
)
# Six kilograms on the kitchen's scale, typed as pounds.
KILOGRAMS_TYPED_AS_POUNDS = (
    date(2026, 5, 23),
    "TEAL",
    "",
    "TROUT-25",
    "6 lb",
    "",
    24,
    "sold",
    "weighed in the kitchen",
)
BOOKED_BY_BOTH = ("WREN", "CHARD", date(2026, 8, 26))


@dataclass(frozen=True)
class Stand:
    """A crop in a bed for a while; `cleared` None while it grows."""

    unit: str
    bed: str
    crop: str
    area: float
    started: date
    cleared: date | None


def planting_rows(known: Known) -> list[Row]:
    """Every planting, in the order they went in."""
    return [_planting_row(stand) for stand in stands(known)]


def _planting_row(one: Stand) -> Row:
    habit = HABITS[one.crop]
    sown = habit.sown and one.started.month < 9
    plants = "" if habit.sown else max(2, round(one.area * habit.plants_per_sq_ft))
    means = "sowing" if sown else "transplanting"
    note = "pale between the veins since June" if (one.unit, one.crop, one.started.year) in PALE else ""
    return one.unit, one.bed, one.crop, one.started, means, one.cleared or "", plants, f"{one.area:g} sq ft", "", note


PALE = {("PLOVER", "CHARD", 2026), ("PLOVER", "CELERY", 2026)}


def stands(known: Known) -> list[Stand]:
    """Which crop stood where and when: the same programme every year, a few days earlier or later."""
    running = {
        row["unit"]: date.fromisoformat(row["from"])
        for row in reversed(known["unit_states"])
        if row["state"] == "running"
    }
    found = []
    for unit in VIGOUR:
        chance = Chance(f"plantings of {unit}")
        for year in YEARS:
            for entry in PROGRAMME:
                stand = _stand(unit, running[unit], year, entry, chance)
                if stand is not None:
                    found.append(stand)
    return sorted(_once_only(found), key=lambda one: (one.started, one.unit, one.bed, one.crop))


def _stand(unit: str, running: date, year: int, entry: Entry, chance: Chance) -> Stand | None:
    bed, crop, area, start, end = entry
    shift = timedelta(days=chance.whole(-3, 4))
    if crop in SHADE_LEAVES_OUT.get(unit, ()):
        return None
    started = date(year, *start) + shift
    cleared = None if end is None else date(year + (end < start), *end) + shift
    early = running + timedelta(days=4)
    if started < early:
        if cleared is None and year != early.year:
            return None
        started = max(started, early)
    habit = HABITS[crop]
    if (cleared is not None and (cleared - started).days < habit.first_after + 7) or started > LAST_WEIGHED:
        return None
    if bed == "S" and crop == "CHARD" and (unit, year) == ("WREN", 2024):
        return None
    return Stand(unit, bed, crop, area, started, cleared if cleared and cleared <= LAST_WEIGHED else None)


def _once_only(found: list[Stand]) -> list[Stand]:
    """What stays for years is planted once."""
    kept: dict[tuple[object, ...], Stand] = {}
    for one in sorted(found, key=lambda one: one.started):
        lasting = one.crop in ("MINT", "STRAWBERRY")
        kept.setdefault((one.unit, one.bed, one.crop, None if lasting else one.started), one)
    return list(kept.values())


def harvest_rows(known: Known) -> list[Row]:
    """Every weighing, by day: picked, fished, and slipped."""
    rows = [row for stand in stands(known) for row in _pickings(stand)]
    homes = {row["lot"]: row["unit"] for row in known["fish"]}
    chance = Chance("fish")
    rows += [_fished(homes, entry, chance) for entry in FISH]
    rows.append((*KILOGRAMS_TYPED_AS_POUNDS, "Tobit"))
    rows = sorted(rows, key=lambda row: (row[0], str(row[1]), str(row[2]), str(row[3]), str(row[4])))
    return _booked_by_both(rows)


def _fished(homes: dict[str, str], entry: tuple[str, date, int, float, str], chance: Chance) -> Row:
    lot, day, number, mean_oz, use = entry
    ounces = number * chance.about(mean_oz, 0.25) * _scale(day)
    by = _who(day, chance)
    return day, homes[lot], "", lot, typed(ounces, by), "", number, use, "", by


def _booked_by_both(rows: list[Row]) -> list[Row]:
    """One weighing stands twice, once from each sharer."""
    unit, crop, day = BOOKED_BY_BOTH
    at, row = next(
        (at, row) for at, row in enumerate(rows) if (row[1], row[3], row[0], row[2]) == (unit, crop, day, "N")
    )
    first, second = SHARERS
    return [*rows[:at], (*row[:-1], first), (*row[:-1], second), *rows[at + 1 :]]


def _pickings(stand: Stand) -> list[Row]:
    chance = Chance(f"weighings of {stand.unit} {stand.bed} {stand.crop} {stand.started}")
    habit, rows = HABITS[stand.crop], []
    last = stand.started + timedelta(days=habit.first_after - round(habit.every))
    while (day := _next_pick(stand, last, chance)) <= min(stand.cleared or LAST_WEIGHED, LAST_WEIGHED):
        lb = _pounds(stand, day, (day - last).days, chance)
        last = day
        by = _who(day, chance)
        rows += [_picking_row(stand, day, ounces, by, chance) for ounces in _parts(lb * OZ_PER_LB, chance)]
    return rows


def _parts(ounces: float, chance: Chance) -> list[float]:
    """A picking as it goes over the scale: a large one often in two, one to sell and one to keep."""
    if ounces < LEAST_OZ:
        return []
    if ounces < TWO_PARTS_OZ or chance.happens(0.35):
        return [ounces]
    first = ounces * chance.between(0.52, 0.75)
    return [first, ounces - first]


def _next_pick(stand: Stand, last: date, chance: Chance) -> date:
    """The next day for picking: more seldom in the dark months, on the days the kitchen and the stall ask for."""
    every = HABITS[stand.crop].every * (3 if last.month in (12, 1, 2) else 1.5 if last.month in (11, 3) else 1)
    if stand.crop == "CHARD" and stand.bed == "N":
        day = last + timedelta(days=5)
        return day + timedelta(days=(PICK_WEEKDAY[stand.unit] - day.weekday()) % 7)
    day = last + timedelta(days=max(2, round(chance.about(every, 1.5))))
    return day + timedelta(days={1: 1, 3: -1, 4: 1}.get(day.weekday(), 0))


def _pounds(stand: Stand, day: date, days: int, chance: Chance) -> float:
    habit = HABITS[stand.crop]
    weeks = min(days, 2 * habit.every + 7) / 7
    ramp = min(1.0, 0.5 + (day - stand.started).days / (3.0 * habit.first_after))
    growth = _season(stand.crop, day) * _vigour(stand.unit, day) * ramp
    return stand.area * habit.lb_per_week * weeks * growth * chance.about(1.0, 0.45)


def _season(crop: str, day: date) -> float:
    """How much of a midsummer week's growth a week brings: little in the dark months; strawberries have their time."""
    if crop == "STRAWBERRY":
        return 1.0 if (5, 30) <= (day.month, day.day) <= (7, 8) else 0.3 if day.month in (8, 9) else 0.0
    if crop == "MINT" and day.month in (12, 1, 2, 3):
        return 0.0
    from_peak = (day - date(day.year, *SEASON_PEAK)).days
    light = 0.5 + 0.5 * math.cos(2 * math.pi * from_peak / 365)
    return 0.05 + 0.95 * math.pow(light, 1.1)


def _vigour(unit: str, day: date) -> float:
    """How well a unit grows: PLOVER falls off as its gravel holds the pH up, TEAL for weeks after the heat."""
    vigour = VIGOUR[unit]
    if unit == "PLOVER":
        vigour *= max(0.6, 1 - (day - date(2025, 9, 1)).days / 900)
    if unit == "TEAL" and HEAT_LOSS <= day <= HEAT_LOSS + timedelta(days=2 * MONTH_DAYS):
        vigour *= 0.72
    return vigour


def _picking_row(stand: Stand, day: date, net_oz: float, by: str, chance: Chance) -> Row:
    use, note = _use(stand.crop, day, chance)
    count = max(1, round(net_oz / 9)) if stand.crop == "CUCUMBER" else ""
    crated = stand.crop in CRATED and day >= TARE_SINCE
    gross = (net_oz + TARE_OZ if crated else net_oz) * _scale(day)
    slipped = stand.unit == NO_TARE_UNIT and within(day, NO_TARE_WEEK)
    tare = TARE if crated and not slipped else ""
    return day, stand.unit, stand.bed, stand.crop, typed(gross, by), tare, count, use, note, by


def _scale(day: date) -> float:
    """What the scale makes of an ounce on a day."""
    return SCALE_HIGH_BY if within(day, SCALE_HIGH) else 1.0


def _who(day: date, chance: Chance) -> str:
    if helped(day):
        return HELPER
    return SHARERS[0] if chance.happens(0.62) else SHARERS[1]


def _use(crop: str, day: date, chance: Chance) -> tuple[str, str]:
    """Wednesday evening is cut for the kitchen, Saturday for the stall, the rest is eaten at home or given."""
    if chance.happens(0.06):
        return "waste", chance.of(SPOILED[crop])
    if crop in ("CHARD", "PAK CHOI") and chance.happens(0.02):
        return "feed", "outer leaves to the fish"
    if day.weekday() == WEDNESDAY and day >= date(2025, 5, 7) and chance.happens(0.8):
        return "sold", "kitchen"
    if day.weekday() == SATURDAY and 5 <= day.month <= 10 and chance.happens(0.75):
        return "sold", "gate stall"
    return ("given" if chance.happens(0.15) else "home"), ""


def typed(ounces: float, by: str) -> str:
    """A weight as that person types what the scale shows: half ounces below a pound; Tobit leaves the units out."""
    if ounces < OZ_PER_LB:
        return f"{max(0.5, round(ounces * 2) / 2):g} oz"
    pounds, rest = divmod(round(ounces), OZ_PER_LB)
    if by == "Tobit" and rest:
        return f"{pounds} {rest}"
    return f"{pounds} lb {rest} oz" if rest else f"{pounds} lb"
