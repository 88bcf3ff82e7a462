"""The span of days a report answers for."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.facts import harvests as harvest_facts
from farmops.facts.reading import Reader
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.model.units import StateFrom


@dataclass(frozen=True, slots=True)
class Span:
    """Days from the first to the last, both included."""

    first: date
    last: date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise Refused(f"The span ends on {self.last}, before it begins on {self.first}.")

    @property
    def days(self) -> int:
        """How many days it has."""
        return (self.last - self.first).days + 1

    def months(self) -> list[Span]:
        """The span cut at the ends of months."""
        found, first = [], self.first
        while first <= self.last:
            following = (first.replace(day=1) + timedelta(days=32)).replace(day=1)
            last = min(self.last, following - timedelta(days=1))
            found.append(Span(first, last))
            first = following
        return found

    def years(self) -> list[Span]:
        """The span cut at the ends of years."""
        return [
            Span(max(self.first, date(year, 1, 1)), min(self.last, date(year, 12, 31)))
            for year in range(self.first.year, self.last.year + 1)
        ]


def span_of(reader: Reader, first: date | None, last: date | None, today: date) -> Span:
    """The span that was asked for; open ends reach to the first record, and to today or the last record."""
    if first and last:
        return Span(first, last)
    recorded = harvest_facts.recorded_days(reader) or (today, today)
    last = last or max(today, recorded[1])
    return Span(first or min(recorded[0], last), last)


def active_spans(states: list[StateFrom], span: Span) -> list[Span]:
    """When, within the span, a unit with these states (first to last) was active."""
    found = []
    for state, following in zip(states, [*states[1:], None], strict=False):
        first = max(state.from_day, span.first)
        last = min(following.from_day - timedelta(days=1), span.last) if following else span.last
        if state.state.active and first <= last:
            found.append(Span(first, last))
    return found


def active_days(states: list[StateFrom], span: Span) -> int:
    """On how many days of the span a unit with these states (first to last) was active."""
    return sum(one.days for one in active_spans(states, span))


def state_on(states: list[StateFrom], day: date) -> StateFrom | None:
    """The state that holds on a day."""
    return next((state for state in reversed(states) if state.from_day <= day), None)
