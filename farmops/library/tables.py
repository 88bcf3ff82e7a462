"""Reading of the packaged tables: rows as text, and the few kinds of value a cell can hold."""

from __future__ import annotations

from enum import StrEnum


class Standing(StrEnum):
    """How far a row can be trusted."""

    VERIFIED = "verified"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice, no source"
    LABEL = "label"


def read(table: str) -> list[dict[str, str]]:
    """The rows of a packaged CSV file by column name; lines that start with `#` are comments."""
    import csv
    from pkgutil import get_data

    text = (get_data("farmops.library", table) or b"").decode("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines, strict=True))


def words(cell: str) -> tuple[str, ...]:
    """The entries of a list cell, separated by semicolons; an empty cell has none."""
    return tuple(part.strip() for part in cell.split(";") if part.strip())


def number(cell: str) -> float | None:
    """A decimal number, or None for an empty cell: not known."""
    return float(cell) if cell else None


def whole(cell: str) -> int | None:
    """A whole number, or None for an empty cell: not known."""
    return int(cell) if cell else None


def yes(cell: str) -> bool:
    """`yes` or `no`; anything else is a fault of the table and raises ValueError."""
    if cell not in ("yes", "no"):
        raise ValueError(f"'{cell}' is neither yes nor no")
    return cell == "yes"


def span_of_months(cell: str) -> tuple[int, ...]:
    """Months 1 to 12 of a span such as `4-9` or, over the new year, `11-2`; an empty cell, all, gives ()."""
    if not cell:
        return ()
    first, last = (int(month) for month in cell.split("-"))
    return tuple((first - 1 + step) % 12 + 1 for step in range((last - first) % 12 + 1))


def lookup_name(name: str) -> str:
    """The form in which names and keys are compared: no case, hyphens as spaces, single spaces."""
    return " ".join(name.replace("-", " ").casefold().split())
