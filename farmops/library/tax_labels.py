"""Labels for costs that come with the program: the expense lines of a tax form. No tax advice."""

from __future__ import annotations

from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.frozen import dataclass

SCHEDULE_F = "Schedule F"
"""The name of the packaged set."""


@dataclass(frozen=True, slots=True)
class TaxLabel:
    """A label, and the categories of cost that take it when nothing else is said."""

    label: str
    categories: tuple[str, ...]
    source: str
    standing: Standing


@cache
def tax_labels() -> tuple[TaxLabel, ...]:
    """The expense lines of US Schedule F (Form 1040), Part II, in the order of the form."""
    return tuple(
        TaxLabel(row["label"], tables.words(row["category"]), row["source"], Standing(row["standing"]))
        for row in tables.read("tax_labels.csv")
    )
