"""Lines for labels of costs and what was paid under each, in Records."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.quantities import Measures, show_money
from farmops.reports.label_totals import LabelTotal, Paid, label_totals, labels_of
from farmops.reports.store import Store
from farmops.tui.widgets.listing_lines import Column, Line

LABEL_COLUMNS = (
    Column("set", "set", priority=1),
    Column("label", "label", grow=True),
    Column("this", "paid this year", align="right"),
    Column("last", "last year", align="right"),
)
NO_LABEL = "No labels yet. n loads the expense lines of US Schedule F, or a set of your own. No tax advice."


@dataclass(frozen=True, slots=True)
class LabelYears:
    """A label, and what was paid under it this year and the year before."""

    now: LabelTotal
    before: Paid

    @property
    def id(self) -> int:
        """The number of the label."""
        return self.now.id


def labels(store: Store, today: date, unit: str | None) -> list[LabelYears]:
    """Every label of every set."""
    found: list[LabelYears] = []
    for label_set in dict.fromkeys(one.label_set for one in labels_of(store)):
        now, before = (label_totals(store, year, label_set).lines for year in (today.year, today.year - 1))
        found += [LabelYears(one, other.paid) for one, other in zip(now, before, strict=True)]
    return found


def label_line(one: LabelYears, measures: Measures) -> Line:
    """A label as a line."""
    label = one.now.label
    paid = [show_money(each.amount_minor, measures) if each.entries else "" for each in (one.now.paid, one.before)]
    return Line(f"labels {one.id}", (label.label_set, label.label, *paid), data=one)
