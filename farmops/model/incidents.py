"""Incidents: what goes wrong at once and is worked through step by step."""

from __future__ import annotations

from enum import StrEnum


class IncidentKind(StrEnum):
    """What happened."""

    POWER_CUT = "power cut"
