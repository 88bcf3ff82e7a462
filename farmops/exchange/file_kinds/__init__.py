"""The kinds of rows a file may hold, each in the room of what it is about."""

from __future__ import annotations

from collections.abc import Mapping

from farmops.exchange.file_kinds import (
    chores,
    doses,
    fish,
    growing,
    incidents,
    instruments,
    lots,
    money,
    papers,
    people,
    power,
    selling,
    sharing,
    supplies,
    treatments,
    units,
    water,
    weather,
)
from farmops.exchange.file_kinds.kind import Kind, Take

__all__ = ["KINDS", "Kind", "Take"]
ROOMS = (
    units,
    growing,
    fish,
    lots,
    water,
    doses,
    treatments,
    instruments,
    chores,
    people,
    incidents,
    weather,
    money,
    sharing,
    power,
    supplies,
    selling,
    papers,
)
KINDS: Mapping[str, Kind] = {one.name: one for room in ROOMS for one in room.KINDS}
