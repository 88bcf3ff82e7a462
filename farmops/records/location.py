"""Where a farm's store lies: the platform's data folder, a file that was named, or a PostgreSQL URL."""

from __future__ import annotations

import os

VARIABLE = "FARMOPS_FARM"
FILE_NAME = "farm.db"


def resolve(named: str | None) -> str:
    """The place that was named, else the one in FARMOPS_FARM, else a file in the platform's data folder."""
    place = named or os.environ.get(VARIABLE)
    if place:
        return place if is_url(place) else os.path.expanduser(place)
    from platformdirs import user_data_path

    return str(user_data_path("farmops", appauthor=False) / FILE_NAME)


def is_url(place: str) -> bool:
    """Whether the place is a database URL and not a file."""
    return place.startswith(("postgresql://", "postgresql+psycopg://"))
