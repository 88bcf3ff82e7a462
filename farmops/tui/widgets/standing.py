"""A power cut as lines of a list and in words: air unit by unit, the steps, what is seen running when it is back."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import datetime

from farmops.library.incident_steps import AIR
from farmops.model.incidents import Phase
from farmops.model.text import plain
from farmops.reports.power_cut import Standing, StepLine, UnitTime, least_of
from farmops.reports.power_cut_words import basis_words, left_words, mark_words
from farmops.tui.widgets.listing_lines import Column, Heading, Line

COLUMNS = (
    Column("ticked", "", width=3),
    Column("where", ""),
    Column("what", "", grow=True),
    Column("mark", "", align="right"),
)
TICKED, OPEN = "[x]", "[ ]"
LEFT = "min left in {}. Rather too few than too many: watch the fish."
UP = "min in {}: time is up. Look at the fish, air now."
NO_FISH = "No live fish are booked in any unit: see what runs."
ALL_AIR = "Air runs wherever fish are. Go on with the steps."


def lines_of(found: Standing, now: datetime) -> list[Line | Heading]:
    """The lines under their headings; those of air say what is left of the time of their unit."""
    times = {time.unit.id: time for time in found.times}
    during, after = found.of(Phase.DURING), found.of(Phase.AFTER)
    aired = sorted((one for one in during if one.step.key == AIR), key=lambda one: _hurry(one, times))
    items: list[Line | Heading] = [Heading("Air first, the least time first")] if aired else []
    items += [_air(one, times.get(one.unit.id) if one.unit else None, found, now) for one in aired]
    items.append(Heading("Then"))
    items += [_line(one, found) for one in during if one.step.key != AIR]
    if after:
        items.append(Heading("When the power is back: seen running again"))
        items += [_line(one, found) for one in after]
    return items


def _hurry(one: StepLine, times: Mapping[int, UnitTime]) -> float:
    """The minutes of its unit, whether air runs by now or not: what is ticked stays where the eye left it."""
    time = times.get(one.unit.id) if one.unit else None
    return math.inf if time is None else time.minutes or 0.0


def _air(one: StepLine, time: UnitTime | None, found: Standing, now: datetime) -> Line:
    code = one.unit.code if one.unit else ""
    left = left_words(time, now, found.farm.time_zone) if time else ""
    brief = "cannot be said" if left.startswith("cannot be said") else left
    cells = (_box(one), code, one.step.title, brief)
    return Line(key_of(one), cells, look="quiet" if one.ticked else "late", data=one)


def _line(one: StepLine, found: Standing) -> Line:
    where = one.unit.code if one.unit else "all"
    cells = (_box(one), where, one.step.title, mark_words(one, found.farm.time_zone))
    return Line(key_of(one), cells, look="quiet" if one.ticked else "normal", data=one)


def _box(one: StepLine) -> str:
    return TICKED if one.ticked else OPEN


def key_of(one: StepLine) -> str:
    """What tells the line of a step from all others."""
    return f"{one.step.key} {one.unit.id if one.unit else 0}"


def least_words(found: Standing, now: datetime) -> str:
    """What stands beside the figures: of which unit they are, or why there are none."""
    least = least_of(found, now)
    if least is not None:
        return UP.format(least.unit.code) if not int(least.left(now) or 0) else LEFT.format(least.unit.code)
    unsaid = [time.unit.code for time in found.times if time.air is None]
    if unsaid:
        return f"How long cannot be said for {', '.join(unsaid)}: air now."
    return ALL_AIR if found.times else NO_FISH


def details_of(line: StepLine, found: Standing) -> list[str]:
    """What a step asks for; of the air of a unit, what its minutes rest on."""
    words = [plain(f"{line.step.title}. {line.step.words}")]
    time = next((one for one in found.times if line.unit and one.unit.id == line.unit.id), None)
    if line.step.key == AIR and time is not None:
        zone = found.farm.time_zone
        told = basis_words(time.basis, found.farm.measures) if time.basis else left_words(time, found.now, zone)
        read = " r reads the water." if time.basis is None or time.remarks else ""
        words.insert(0, plain(f"{'; '.join((told, *time.remarks))}.{read}"))
    return words
