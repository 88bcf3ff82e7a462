"""What was read off the units week by week: hours of the pumps, and the fill and drain times of the siphons."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from chance import Chance
from days import HELPER, SHARERS, helped

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
PUMPS = ("WREN", "ROOK", "TEAL", "PLOVER", "SISKIN")
WEEK_HOURS = 168
LAST_SUNDAY = date(2026, 10, 11)
WEEKS_OF_HOURS = 7
LAST_TIMED = date(2026, 10, 8)
WEEKS_TIMED = 11
# Minutes a bed takes to fill and to drain; the intake of TEAL clogs, and its last fills are slower and slower.
CYCLES = {"WREN": (11.8, 3.4), "ROOK": (12.6, 3.1), "TEAL": (11.9, 3.6), "PLOVER": (14.2, 4.4), "SISKIN": (12.2, 3.3)}
SLOWER = {"TEAL": (1.0, 1.5, 2.2, 2.7)}


def usage_rows(known: Known) -> list[Row]:
    """Hours of each pump, booked on Sundays; some power cuts took an hour or two."""
    rows = []
    for unit in PUMPS:
        chance, since = Chance(f"hours of the pump of {unit}"), _since(known, unit)
        for sunday in _weeks(LAST_SUNDAY, WEEKS_OF_HOURS):
            hours = min(WEEK_HOURS - (chance.whole(1, 3) if chance.happens(0.2) else 0), (sunday - since).days * 24)
            if hours > 0:
                rows.append((sunday, unit, "pump hours", str(hours), "", _who(sunday, chance)))
    return sorted(rows)


def cycle_rows(known: Known) -> list[Row]:
    """One cycle of each siphon, timed on Thursdays: minutes and seconds of the fill, then of the drain."""
    rows = []
    for unit, (fill, drain) in CYCLES.items():
        chance, since, slower = Chance(f"cycles of {unit}"), _since(known, unit), SLOWER.get(unit, ())
        for thursday in _weeks(LAST_TIMED, WEEKS_TIMED):
            ago = (LAST_TIMED - thursday).days // 7
            late = slower[-1 - ago] if ago < len(slower) else 0.0
            if thursday > since:
                times = (_minutes(chance.about(fill, 0.25) + late), _minutes(chance.about(drain, 0.15)))
                rows.append((thursday, unit, *times, _who(thursday, chance)))
    return sorted(rows)


def _since(known: Known, unit: str) -> date:
    """The day from which the pump of a unit ran."""
    found = (row["from"] for row in known["unit_states"] if row["unit"] == unit and row["state"] == "cycling")
    return date.fromisoformat(next(found))


def _weeks(last: date, number: int) -> Iterator[date]:
    return (last - timedelta(weeks=ago) for ago in reversed(range(number)))


def _minutes(minutes: float) -> str:
    seconds = round(minutes * 60)
    return f"{seconds // 60}:{seconds % 60:02}"


def _who(day: date, chance: Chance) -> str:
    return HELPER if helped(day) else chance.of(SHARERS)
