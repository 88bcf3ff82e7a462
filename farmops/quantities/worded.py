"""Words for an amount that still know it: what stands in a list goes out as a number."""

from __future__ import annotations

from fractions import Fraction


class Worded(str):
    """What a person reads, beside the exact `number` of the `unit` it is in; cut up or joined it is words alone."""

    __slots__ = ("number", "unit")

    number: Fraction
    unit: str

    def __new__(cls, words: str, number: Fraction | float, unit: str) -> Worded:
        """The words for so many of a unit."""
        made = super().__new__(cls, words)
        made.number = Fraction(number)
        made.unit = unit
        return made

    def __getnewargs__(self) -> tuple[str, Fraction, str]:  # type: ignore[override]
        """How copies are made."""
        return str(self), self.number, self.unit
