"""Stored values as cells of a CSV file and back; text that a spreadsheet would take for a formula is harmless."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

GUARD = "'"
BITES = ("=", "+", "-", "@", "\t", "\r", GUARD)
WORDS = {"true": True, "false": False}


def cell(value: Any) -> str:
    """A value as text: nothing is an empty cell, an empty text a lone apostrophe, an instant in UTC."""
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case datetime():
            return value.astimezone(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")
        case date():
            return value.isoformat()
        case str():
            return GUARD + value if not value or value.startswith(BITES) else value
        case _:
            return repr(value)


def unguarded(text: str) -> str:
    """A cell of a file as it was meant: without the apostrophe that keeps it from being a formula."""
    guarded = text.startswith(GUARD) and (len(text) == 1 or text[1] in BITES)
    return text[1:] if guarded else text


def value_of(kind: type[Any], text: str) -> Any:
    """The value that `cell` made the text of. Raises ValueError."""
    if not text:
        return None
    if issubclass(kind, datetime):
        return datetime.fromisoformat(text)
    if issubclass(kind, date):
        return date.fromisoformat(text)
    if issubclass(kind, bool):
        if text not in WORDS:
            raise ValueError(text)
        return WORDS[text]
    if issubclass(kind, str):
        return text.removeprefix(GUARD)
    return kind(text)
