"""In what a farm weighs, measures and counts money."""

from __future__ import annotations

from dataclasses import fields
from typing import Literal

from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.quantities.currencies import CURRENCIES
from farmops.quantities.wording import quoted

CHOICES = {
    "mass": ("lb_oz", "kg"),
    "volume": ("gal", "L"),
    "area": ("sq_ft", "m2"),
    "length": ("ft", "cm", "m"),
    "temperature": ("F", "C"),
}


@dataclass(frozen=True, slots=True)
class Measures:
    """What a farm shows and what a number without a unit means there.

    Raises:
        NotUnderstood: a word is none of the choices, or the currency is no ISO 4217 code.
    """

    mass: Literal["lb_oz", "kg"]
    volume: Literal["gal", "L"]
    area: Literal["sq_ft", "m2"]
    length: Literal["ft", "cm", "m"]
    temperature: Literal["F", "C"]
    currency: str
    decimal_comma: bool = False

    def __post_init__(self) -> None:
        for field in fields(self)[: len(CHOICES)]:
            _check_choice(field.name, getattr(self, field.name))
        if self.currency not in CURRENCIES:
            raise NotUnderstood(
                f"{quoted(str(self.currency))} is no currency of ISO 4217. Understood: USD, EUR, GBP, JPY."
            )
        if not isinstance(self.decimal_comma, bool):
            raise NotUnderstood("Decimals are written with a comma or with a point: say yes or no to the comma.")

    @property
    def decimal_mark(self) -> str:
        """The sign before the decimals."""
        return "," if self.decimal_comma else "."

    @property
    def grouping_mark(self) -> str:
        """The sign between thousands in sums of money."""
        return "." if self.decimal_comma else ","


def _check_choice(name: str, word: object) -> None:
    if word not in CHOICES[name]:
        known = ", ".join(CHOICES[name])
        raise NotUnderstood(f"{quoted(str(word))} is no choice for {name}. Understood: {known}.")


US = Measures("lb_oz", "gal", "sq_ft", "ft", "F", "USD")
METRIC = Measures("kg", "L", "m2", "cm", "C", "EUR")
