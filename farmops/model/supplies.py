"""Supplies: feed, filter pads, seed and the like: bought, held, used up, counted, past their date."""

from __future__ import annotations

from enum import StrEnum


class HeldBy(StrEnum):
    """What a supply is counted in."""

    MASS = "mass"
    VOLUME = "volume"
    COUNT = "count"


class Movement(StrEnum):
    """What a change of the stock was: used up, thrown away, or what a count found to be there."""

    USED = "used"
    THROWN_AWAY = "thrown away"
    COUNTED = "counted"
