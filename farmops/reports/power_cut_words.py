"""A power cut in words: what is left, what that rests on, how long it lasts."""

from __future__ import annotations

from datetime import datetime

from farmops import clock
from farmops.model.farm import Farm
from farmops.quantities import MASS, TEMPERATURE, VOLUME, Measures
from farmops.reports.power_cut import Basis, Standing, StepLine, UnitTime, elapsed

LONG_MINUTES = 120
TIME_IS_UP = "time is up: look at the fish, air now"
SAFE_SIDE = "Minutes until oxygen is short, rather too few than too many. Watch the fish, not the clock."


def minutes_words(minutes: float) -> str:
    """Whole minutes, rounded down, hours where there are many: `12 min`, `3 h 20 min`."""
    whole = int(minutes)
    if whole < LONG_MINUTES:
        return f"{whole} min"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d} min" if hours < 24 else f"{hours} h"


def left_words(time: UnitTime, now: datetime, zone: str) -> str:
    """What is left of a unit's time: `12 min left`, `air since 06:24`, or why it cannot be said."""
    if time.air is not None:
        return f"air since {clock.hour_of(time.air.at, zone)}, {time.air.actor}"
    left = time.left(now)
    if left is None:
        return f"cannot be said: {'; '.join(time.missing)}"
    return f"{minutes_words(left)} left" if left >= 1 else TIME_IS_UP


def basis_words(basis: Basis, measures: Measures) -> str:
    """What the minutes rest on: `60 fish of 20 g, 250 gal at 18 °C; oxygen not below 4 mg/L`."""
    weight = MASS.show(round(basis.mean_g * 1000), measures)
    water = VOLUME.show(round(basis.volume_l * 1000), measures)
    warmth = TEMPERATURE.show(basis.temperature_c, measures)
    read = f", {basis.oxygen_mg_per_l:g} read" if basis.oxygen_mg_per_l is not None else ""
    return f"{basis.number} fish of {weight}, {water} at {warmth}; oxygen not below {basis.floor_mg_per_l:g} mg/L{read}"


def since_words(found: Standing) -> str:
    """`Power cut since 06:10, 21 min`, with its day where it is another one; what it is while none is open."""
    if found.incident is None:
        return "No power cut is open. If the power went now:"
    began, ended = found.incident.began_at, found.incident.ended_at
    last = ended or found.now
    lasting = minutes_words(elapsed(began, last).total_seconds() / 60)
    start = hour_words(began, found.farm, found.now)
    if ended is None:
        return f"Power cut since {start}, {lasting}"
    return f"Power cut from {start} to {hour_words(ended, found.farm, began)}, {lasting}"


def hour_words(at: datetime, farm: Farm, beside: datetime) -> str:
    """A time of day, with its day where it is not the day of another instant."""
    zone = clock.time_zone(farm.time_zone)
    local, other = at.astimezone(zone), beside.astimezone(zone)
    return f"{local:%H:%M}" if local.date() == other.date() else f"{local:%Y-%m-%d %H:%M}"


def mark_words(line: StepLine, zone: str) -> str:
    """When and by whom a step was taken: `06:24 Ada`; nothing while it is not."""
    return f"{clock.hour_of(line.ticked.at, zone)} {line.ticked.actor}" if line.ticked else ""
