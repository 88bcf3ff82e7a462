"""When a chore is active: its months, its pauses, the states of its unit and the fish that override them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from farmops.model.chores import Pause
from farmops.model.frozen import dataclass
from farmops.model.units import StateFrom, UnitState


@dataclass(frozen=True, slots=True)
class Activity:
    """What lets a chore be active on a day; all given conditions must hold.

    `months` (1 to 12) and `states` let all through when empty. With states, days before the unit's first
    state are not active. `history` may stand in any order; of two states from one day the later listed holds.
    `fish_spans` are the spans with live fish, both days included, None for still there: on these days no
    state suspends a chore that keeps fish alive. Months and pauses are the grower's own word and hold all
    the same. A chore `with_fish` is active on those days alone.
    """

    months: frozenset[int] = frozenset()
    states: frozenset[UnitState] = frozenset()
    history: tuple[StateFrom, ...] = ()
    pauses: tuple[Pause, ...] = ()
    fish_spans: tuple[tuple[date, date | None], ...] = ()
    keeps_fish_alive: bool = False
    with_fish: bool = False

    def active(self, day: date) -> bool:
        """Whether the chore is active on that day."""
        return self._month_active(day) and self._active_whatever_month(day)

    def first_active(self, day: date) -> date | None:
        """The first active day on or after `day`, None when there is none."""
        changes = sorted({day, *(change for change in self._changes() if change > day)})
        for change, following in zip(changes, [*changes[1:], None], strict=True):
            if not self._active_whatever_month(change):
                continue
            first = self._first_in_months(change)
            if first is not None and (following is None or first < following):
                return first
        return None

    def active_since(self, day: date, earliest: date) -> date | None:
        """The day from which it has been active without a break up to `day`; None when it is not active then.

        Not looked for before `earliest`, which is given back when the break lies further back.
        """
        if not self.active(day):
            return None
        changes = sorted(
            {earliest, *(change for change in self._all_changes(earliest, day) if earliest < change <= day)}
        )
        breaks = [at for at, change in enumerate(changes) if not self.active(change)]
        return changes[breaks[-1] + 1] if breaks else earliest

    def active_until(self, day: date) -> date | None:
        """The last day of the unbroken active time that holds `day`, which is active; None when it has no known end."""
        changes = sorted({change for change in self._all_changes(day, _year_after(day)) if change > day})
        broken = next((change for change in changes if not self.active(change)), None)
        return None if broken is None else broken - timedelta(days=1)

    def _all_changes(self, first: date, last: date) -> Iterator[date]:
        """Every day of a span from which the chore may be active or not, the firsts of months included."""
        yield from self._changes()
        if self.months:
            months = range(first.year * 12 + first.month, last.year * 12 + last.month)
            yield from (date(month // 12, month % 12 + 1, 1) for month in months)

    def _active_whatever_month(self, day: date) -> bool:
        fish = self._fish_on(day)
        if any(_covers(pause.from_day, pause.until, day) for pause in self.pauses) or (self.with_fish and not fish):
            return False
        return not self.states or (self.keeps_fish_alive and fish) or self._state_on(day) in self.states

    def _month_active(self, day: date) -> bool:
        return not self.months or day.month in self.months

    def _fish_on(self, day: date) -> bool:
        return any(_covers(first, last, day) for first, last in self.fish_spans)

    def _state_on(self, day: date) -> UnitState | None:
        reached = [entry for entry in self.history if entry.from_day <= day]
        latest = max((entry.from_day for entry in reached), default=None)
        return next((entry.state for entry in reversed(reached) if entry.from_day == latest), None)

    def _changes(self) -> Iterator[date]:
        """Every day from which pauses, states or fish may stand differently than the day before."""
        yield from (entry.from_day for entry in self.history)
        for first, last in (*((pause.from_day, pause.until) for pause in self.pauses), *self.fish_spans):
            yield first
            if last is not None and last < date.max:
                yield last + timedelta(days=1)

    def _first_in_months(self, day: date) -> date | None:
        """The day itself, or the first day of the next active month."""
        if self._month_active(day):
            return day
        later = (day.year * 12 + day.month - 1 + ahead for ahead in range(1, 12))
        firsts = (date(month // 12, month % 12 + 1, 1) for month in later if month // 12 <= date.max.year)
        return next((first for first in firsts if self._month_active(first)), None)


def _covers(first: date, last: date | None, day: date) -> bool:
    return first <= day and (last is None or day <= last)


def _year_after(day: date) -> date:
    """A day on which every month has begun once since `day`, at most the last of the calendar."""
    return date.max if day.year == date.max.year else date(day.year + 1, day.month, 1)
