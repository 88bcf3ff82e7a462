"""Usage: how much a part of a unit has worked, from which chores by use fall due."""

from __future__ import annotations

from enum import StrEnum


class Counter(StrEnum):
    """What is counted: hours a pump ran, feed that went through, cycles of the siphon."""

    PUMP_HOURS = "pump hours"
    FEED = "feed"
    SIPHON_CYCLES = "siphon cycles"
