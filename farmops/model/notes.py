"""Notes and photos on the farm, a unit, a bed or a chore, and what was changed there."""

from __future__ import annotations

from enum import StrEnum


class Changed(StrEnum):
    """What was changed on a unit, so that later readings can be told from those before."""

    PUMP = "pump"
    AIR_PUMP = "air pump"
    SIPHON = "siphon"
    MEDIA = "media"
    FILTER = "filter"
    LINER = "liner"
    HEATER = "heater"
    FEED = "feed"
    WATER_SOURCE = "water source"
    OTHER = "other"
