"""The files of the invented farm: where they lie, their rows, and the few kinds of cell they have."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import TypeVar

from farmops.model.errors import NotFound

Cells = dict[str, str]
T = TypeVar("T")
FOLDER = "demo_data"
LAST_WEEK_DAYS = 7


def folder() -> Traversable:
    """The folder of the files: inside the installed package, or beside it in a checkout. Raises NotFound."""
    package = files("farmops")
    beside = Path(str(package)).parent
    for place in (package.joinpath(FOLDER), beside.joinpath(FOLDER)):
        if place.joinpath("farm.csv").is_file():
            return place
    raise NotFound("The files of the invented farm are not installed. Install farmops again, from its wheel.")


def rows(name: str) -> list[Cells]:
    """The rows of one file by their heads."""
    text = folder().joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines(), strict=True))


def some(cell: str, read: Callable[[str], T]) -> T | None:
    """What the cell says, or None when it is empty."""
    return read(cell) if cell else None


def batches(found: Iterable[Cells], column: str, today: date) -> Iterator[tuple[str, list[Cells]]]:
    """Who booked, with the rows to book in one operation: a year at a time, those of the last week by the day."""
    together: dict[tuple[str, str], list[Cells]] = {}
    for row in found:
        lately = (today - date.fromisoformat(row[column])).days < LAST_WEEK_DAYS
        together.setdefault((row["by"], row[column] if lately else row[column][:4]), []).append(row)
    for (by, _), own in together.items():
        yield by, own
