"""What comes again: the times that are due, and the next one of each."""

from __future__ import annotations

from datetime import date
from itertools import takewhile

from farmops.facts import farm as farm_facts
from farmops.facts import recurring as recurring_facts
from farmops.facts.reading import Store
from farmops.model.frozen import dataclass
from farmops.model.recurring import RecurringCost


@dataclass(frozen=True, slots=True)
class Recurrence:
    """A recurring cost on a day: the times of it that are due and not booked, and the first open one; None is over."""

    cost: RecurringCost
    due: tuple[date, ...]
    next: date | None

    @property
    def id(self) -> int:
        """The number of the recurring cost."""
        return self.cost.id


def recurring(store: Store, on: date) -> list[Recurrence]:
    """Every cost that comes again, in the order of the first open day, what is over last. Raises NoFarm."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        found = [_standing(one, on) for one in recurring_facts.recurring_costs(reader)]
    return sorted(found, key=lambda one: (one.next or date.max, one.cost.id))


def _standing(one: RecurringCost, on: date) -> Recurrence:
    due = tuple(takewhile(lambda day: day <= on, recurring_facts.open_days(one)))
    return Recurrence(one, due, next(recurring_facts.open_days(one), None))
