"""Costs that come again by a rule: insurance, rent, a contract; each time is booked by a person."""

from __future__ import annotations

from datetime import date

from farmops.model.costs import Category
from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


@dataclass(frozen=True, slots=True)
class RecurringCost:
    """A cost that comes again; minor units. `booked` counts the times that are booked, from the first on."""

    id: int
    what: str
    category: Category
    payee: str | None
    amount_minor: int
    amount_typed: str
    unit_id: int | None
    unit: str | None
    rule_text: str
    rule_words: str
    start_day: date
    until_day: date | None
    label: str | None
    note: str | None
    booked: int


@dataclass(frozen=True, slots=True)
class NewRecurring:
    """A cost that comes again from a day on, by a rule in plain words or, `literal`, the text of RFC 5545."""

    what: str
    amount: Measured
    rule: str
    start_day: date
    category: Category = Category.OTHER
    payee: str | None = None
    unit_id: int | None = None
    until_day: date | None = None
    label: str | None = None
    note: str | None = None
    literal: bool = False


@dataclass(frozen=True, slots=True)
class RecurringChange:
    """A correction of what comes again, for the times that are not booked yet; `until_day` ends it."""

    recurring_id: int
    what: str | Keep = KEEP
    amount: Measured | Keep = KEEP
    category: Category | Keep = KEEP
    payee: str | Keep | None = KEEP
    unit_id: int | Keep | None = KEEP
    until_day: date | Keep | None = KEEP
    label: str | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class NewTime:
    """One time of a recurring cost: the day it falls on, the day it was paid and how much, if that differs."""

    recurring_id: int
    due_day: date
    day: date | None = None
    amount: Measured | None = None
    again: bool = False
