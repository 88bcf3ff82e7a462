"""Amounts of a supply, by weight, by volume or by the piece: as typed, as exact integers, as read."""

from __future__ import annotations

from farmops.model.errors import NotUnderstood
from farmops.model.supplies import HeldBy
from farmops.model.text import plain
from farmops.quantities.amounts import Dimension
from farmops.quantities.dimensions import MASS, VOLUME
from farmops.quantities.measures import Measures

DIMENSIONS: dict[HeldBy, Dimension] = {HeldBy.MASS: MASS, HeldBy.VOLUME: VOLUME}
LARGEST_COUNT = 10**9
STORED_IN = {HeldBy.MASS: "mg", HeldBy.VOLUME: "ml", HeldBy.COUNT: "pieces"}
"""The unit of the exact amounts of a supply."""
COUNTED_BY = {HeldBy.MASS: "weight", HeldBy.VOLUME: "volume", HeldBy.COUNT: "the piece"}
"""How a supply is counted, in a sentence."""


def read_held(held_by: HeldBy, text: str, measures: Measures, *, zero_ok: bool = False) -> int:
    """An amount of a supply: milligrams, millilitres or pieces.

    Raises:
        NotUnderstood: the text has no one clear meaning.
        OutOfRange: more than is ever held.
    """
    if held_by in DIMENSIONS:
        return DIMENSIONS[held_by].parse(text, measures, zero_ok=zero_ok)
    digits = text.strip()
    if not (digits.isascii() and digits.isdecimal() and len(digits) <= 10 and int(digits) <= LARGEST_COUNT):
        raise NotUnderstood(f"{plain(text)!r} is no number of pieces. Understood: a whole number, such as 12.")
    if not int(digits) and not zero_ok:
        raise NotUnderstood("0 pieces are none. Understood: 1 or more.")
    return int(digits)


def show_held(held_by: HeldBy, amount: int, measures: Measures) -> str:
    """An amount of a supply as a person reads it: `12 lb`, `3.5 gal`, `12`."""
    return DIMENSIONS[held_by].show(amount, measures) if held_by in DIMENSIONS else str(amount)


def show_held_exact(held_by: HeldBy, amount: int, measures: Measures) -> str:
    """An amount of a supply as `read_held` reads it back."""
    return DIMENSIONS[held_by].show_exact(amount, measures) if held_by in DIMENSIONS else str(amount)


def held_examples(held_by: HeldBy, measures: Measures) -> str:
    """What would be understood, for a hint."""
    return DIMENSIONS[held_by].examples(measures)[0] if held_by in DIMENSIONS else "a whole number"


def held_of(held_by: HeldBy, amount: int, name: str, measures: Measures) -> str:
    """An amount with what it is of: `12 lb of pellets`, `2 filter pads`."""
    parted = " " if held_by is HeldBy.COUNT else " of "
    return f"{show_held(held_by, amount, measures)}{parted}{name}"
