"""Long work that tells how far it has come."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

T = TypeVar("T")
Watch = Callable[[int, int], None]
"""Told how many of how many have been gone through; what it raises stops the work, and nothing of it is kept."""
STEP = 250


def watched(items: Sequence[T], watch: Watch | None) -> Iterator[T]:
    """The items, one by one; every so many of them, and at the end, `watch` is told."""
    for number, item in enumerate(items):
        if watch and number % STEP == 0:
            watch(number, len(items))
        yield item
    if watch:
        watch(len(items), len(items))
