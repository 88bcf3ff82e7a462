"""All places, in the order of their keys."""

from __future__ import annotations

from farmops.tui.screens.beds import BedsPlace
from farmops.tui.screens.chores import ChoresPlace
from farmops.tui.screens.fish import FishPlace
from farmops.tui.screens.money import MoneyPlace
from farmops.tui.screens.place import Place
from farmops.tui.screens.records import RecordsPlace
from farmops.tui.screens.returns import ReturnsPlace

PLACES: tuple[type[Place], ...] = (ChoresPlace, BedsPlace, FishPlace, MoneyPlace, ReturnsPlace, RecordsPlace)
