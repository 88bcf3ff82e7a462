"""Holding the clock still where a test depends on what day it is."""

from __future__ import annotations

from datetime import date
from typing import Any

from freezegun import freeze_time

NOT_SEARCHED = ["alembic", "hypothesis", "matplotlib", "numpy", "pandas", "scipy", "statsmodels", "textual"]


def frozen(day: date | str, at: str = "16:00") -> Any:
    """A context manager (or decorator) in which it is that day, and that time in UTC: noon in New York in summer.

    What is yielded has freezegun's `move_to` and `tick`.
    """
    return freeze_time(f"{day} {at}", ignore=NOT_SEARCHED)
