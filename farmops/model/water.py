"""What goes into the water of a unit: doses, top-ups and where the water comes from."""

from __future__ import annotations

from enum import StrEnum


class SourceKind(StrEnum):
    """Where water comes from; mains water says what it is disinfected with."""

    RAIN = "rain"
    WELL = "well"
    SURFACE = "surface"
    CHLORINE = "mains with chlorine"
    CHLORAMINE = "mains with chloramine"
    MAINS = "mains"
