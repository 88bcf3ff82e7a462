"""What became of the days on which a chore was due: settled in time, late, or never."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import takewhile

from farmops.model.chores import Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.due import standing
from farmops.schedule.history import deferring, settling
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rules import OnCalendar, Rule


class Past:
    """The history of one chore, read against its rule and the days on which it was active.

    One that is `never_late` is open for as long as something holds, and no day is held against it.
    """

    def __init__(
        self, rule: Rule, history: Sequence[Settlement], activity: Activity, *, never_late: bool = False
    ) -> None:
        self.rule = rule
        self.never_late = never_late
        self.history = history
        self.activity = activity
        self._settled: dict[date, Settlement] = {}
        for one in settling(history):
            known = self._settled.get(one.occurrence)
            if known is None or one.on < known.on:
                self._settled[one.occurrence] = one
        self._put_off: dict[date, list[tuple[date, date]]] = {}
        for one, until in deferring(history):
            self._put_off.setdefault(one.occurrence, []).append((one.on, until))

    def due_day(self, one: Settlement) -> date:
        """The day on which what was settled was due, as far as was known then.

        An occurrence that was put off is due on its new day, one that fell into a time of rest on the first day after.
        """
        made = [(on, until) for on, until in self._put_off.get(one.occurrence, ()) if on <= one.on]
        day = max(made)[1] if made else one.occurrence
        return self.activity.first_active(day) or day

    def days_late(self, one: Settlement) -> int:
        """How many days after it was due a chore was settled; 0 in time, early, or when it was settled before."""
        before = self._settled.get(one.occurrence)
        if self.never_late or (before is not None and before.on < one.on):
            return 0
        return max(0, (one.on - self.due_day(one)).days)

    def missed_days(self, first: date, today: date) -> list[date]:
        """The days from `first` on, on which a calendar rule fell and went by: unsettled, and another has come since.

        Work due once, after doing, by use or while something holds is late, but misses nothing. Days before the first
        time it was settled are left out, for nobody booked then, and so are those before an occurrence that the rule
        does not know: it was settled under another rule.
        """
        if not isinstance(self.rule, OnCalendar):
            return []
        fell = list(takewhile(lambda day: day <= today, occurrences(self.rule, first - timedelta(days=1))))
        others = {day for day in self._settled if first <= day <= today} - set(fell)
        since = max([*others, *([min(self._settled)] if self._settled else [])], default=date.min)
        return [day for day in fell[:-1] if day > since and day not in self._settled and self.activity.active(day)]

    def days_not_kept(self, first: date, today: date) -> set[date]:
        """The days from `first` until yesterday on which the chore was due and was not settled on the day itself."""
        if self.never_late:
            return set()
        late = {self.due_day(one) for one in self._settled.values() if one.on >= first and self.days_late(one)}
        stands = standing(self.rule, self.history, self.activity, today)
        found = {*late, *self.missed_days(first, today), *({stands.due} if stands else ())}
        return {day for day in found if first <= day < today}
