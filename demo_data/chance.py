"""Seeded chance that gives the same draws on every version of Python: only `random()` itself is promised to."""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


class Chance:
    """Draws for one subject, which no change elsewhere moves."""

    def __init__(self, subject: str) -> None:
        self._random = random.Random(f"Quillet Bank, {subject}").random  # noqa: S311 - nothing secret hangs on it

    def between(self, low: float, high: float) -> float:
        """A number from low to high, all alike likely."""
        return low + (high - low) * self._random()

    def about(self, middle: float, spread: float) -> float:
        """A number near the middle: three draws added, never further off than `spread`."""
        return middle + spread * (self._random() + self._random() + self._random() - 1.5) / 1.5

    def whole(self, low: int, high: int) -> int:
        """A whole number from low to high, both included."""
        return low + int(self._random() * (high - low + 1))

    def happens(self, share: float) -> bool:
        """True in that share of draws."""
        return self._random() < share

    def of(self, choices: Sequence[T]) -> T:
        """One of the choices."""
        return choices[int(self._random() * len(choices))]
