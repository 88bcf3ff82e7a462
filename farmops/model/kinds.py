"""Words of which there are few and that rules and tables need without the records that bear them."""

from __future__ import annotations

from enum import StrEnum


class BedKind(StrEnum):
    """What the roots stand in."""

    MEDIA = "media"
    RAFT = "raft"
    FILM = "film"
    SOIL = "soil"


class StartedBy(StrEnum):
    """How a planting came into its bed."""

    SOWING = "sowing"
    TRANSPLANTING = "transplanting"


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


class Counter(StrEnum):
    """What is counted: hours a pump ran, feed that went through, cycles of the siphon."""

    PUMP_HOURS = "pump hours"
    FEED = "feed"
    SIPHON_CYCLES = "siphon cycles"
