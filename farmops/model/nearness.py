"""Which known names a name that is not known may have been meant for: no guess where none is really near."""

from __future__ import annotations

from collections.abc import Iterable

MOST = 3
NEAR = 0.75
"""How much of two names has to be the same, of 1, so that one is taken for a slip of the other."""
BEGINNING = 0.5
"""The part of the longer name that two share at their beginning, so that one is taken for the other."""


def near_names(typed: str, known: Iterable[str], most: int = MOST) -> list[str]:
    """The known names nearest to what was typed, the nearest first; letter case makes no difference."""
    from difflib import SequenceMatcher

    wanted = _folded(typed)
    matcher = SequenceMatcher(None, b=wanted)
    found = []
    for name in dict.fromkeys(known):
        other = _folded(name)
        matcher.set_seq1(other)
        alike = matcher.real_quick_ratio() >= NEAR and matcher.ratio() >= NEAR
        if alike or _begin_alike(wanted, other) or wanted in other.split():
            found.append((matcher.ratio(), name))
    return [name for _, name in sorted(found, key=lambda one: -one[0])[:most]]


def _begin_alike(one: str, other: str) -> bool:
    same = next((at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    return same > 0 and same >= BEGINNING * max(len(one), len(other))


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())
