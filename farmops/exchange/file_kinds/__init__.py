"""The kinds of rows a file may hold, each in the room of what it is about."""

from __future__ import annotations

from collections.abc import Mapping

from farmops.exchange.file_kinds import fish, growing, money, water
from farmops.exchange.file_kinds.kind import Kind, Take

__all__ = ["KINDS", "Kind", "Take"]
KINDS: Mapping[str, Kind] = {one.name: one for room in (water, money, fish, growing) for one in room.KINDS}
