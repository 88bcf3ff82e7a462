"""What to mind when something is added to the water."""

from __future__ import annotations

from functools import cache

from farmops.library import tables


@cache
def dose_cautions(what: str) -> tuple[str, ...]:
    """The cautions for something by its name, those of its own first; the one for all comes last."""
    named = " ".join(what.lower().replace("-", " ").split())
    return tuple(row["caution"] for row in tables.read("dose_cautions.csv") if _counts(row["words"], named))


def _counts(words: str, named: str) -> bool:
    return not words or any(word.strip() in named for word in words.split(";"))
