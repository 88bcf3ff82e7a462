"""How chores went: how often done, left out, late or missed, how long against the estimate, and by whom."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta
from statistics import median

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore, Settled, SettledAs, Settlement
from farmops.model.errors import NotFound
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.places import chores_in
from farmops.reports.round_lines import where_of
from farmops.reports.spans import Span
from farmops.schedule.past import Past

LOOK_BACK = timedelta(days=91)
"""How far back the history of all chores reaches unless told otherwise: thirteen weeks."""


@dataclass(frozen=True, slots=True)
class ChoreHistory:
    """How one chore went in a span. `late` counts doings after their day, `missed` days that went by undone.

    `median_minutes` is over the `timed` doings, None where no minutes were booked. `by` names who did it, and how
    often, the most often first. `settled` is every line, the newest first.
    """

    chore: Chore
    done: int
    skipped: int
    deferred: int
    late: int
    most_days_late: int
    missed: int
    timed: int
    median_minutes: float | None
    by: tuple[tuple[str, int], ...]
    settled: tuple[Settled, ...]

    @property
    def where(self) -> str:
        """The place it belongs to, `all` for the farm's own."""
        return where_of(self.chore)

    @property
    def words(self) -> str:
        """How it went, in a line."""
        left_out = f"{self.skipped} left out" if self.skipped else ""
        days = "1 day" if self.most_days_late == 1 else f"{self.most_days_late} days"
        late = f"{self.late} late by up to {days}" if self.late else ""
        missed = f"{self.missed} missed" if self.missed else ""
        by = ", ".join(f"{name} {times}" for name, times in self.by)
        parts = (f"{self.done} done", left_out, late, missed, self.minutes_words, f"by {by}" if by else "")
        return "; ".join(part for part in parts if part)

    @property
    def minutes_words(self) -> str:
        """How long it usually took beside the estimate; nothing where no minutes were booked."""
        if self.median_minutes is None:
            return ""
        return f"usually {self.median_minutes:g} min, estimated {self.chore.minutes}"

    @property
    def nothing(self) -> bool:
        """Whether nothing happened and nothing was missed."""
        return not self.settled and not self.missed


@dataclass(frozen=True, slots=True)
class Histories:
    """How the chores of the farm, of one unit, or one chore went from `first` to `last`, in walking order."""

    farm: Farm
    first: date
    last: date
    chores: tuple[ChoreHistory, ...]


def histories(
    store: Store,
    first: date | None = None,
    last: date | None = None,
    *,
    unit: str | None = None,
    chore: int | None = None,
) -> Histories:
    """How chores went in a span: thirteen weeks up to today, or for one chore all its life, unless told otherwise."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        today = farm.today()
        chores = _chosen(reader, unit, chore)
        until = last or today
        since = first or (_begin(reader, chores[0], until) if chore is not None else until - LOOK_BACK)
        span = Span(since, until)
        found = _told(reader, chores, span, today)
        kept = found if chore is not None else [one for one in found if not one.nothing]
        return Histories(farm, since, until, tuple(kept))


def _chosen(reader: Reader, unit: str | None, chore: int | None) -> list[Chore]:
    if chore is None:
        return chores_in(reader, unit)
    found = chore_facts.chore(reader, chore)
    if found is None:
        raise NotFound(f"There is no chore {chore}. See: farmops chores list")
    return [found]


def _begin(reader: Reader, chore: Chore, last: date) -> date:
    """The first day of a chore's life: its start, or what was settled before it."""
    settled = chore_facts.settled(reader, chore.id)
    return min([chore.start_day, last, *(one.on_day for one in settled)])


def _told(reader: Reader, chores: Sequence[Chore], span: Span, today: date) -> list[ChoreHistory]:
    plans = {plan.chore_id: plan for plan in chore_facts.plans(reader, (one.id for one in chores))}
    settled: dict[int, list[Settled]] = {}
    for one in reversed(chore_facts.settled_between(reader, span.first, span.last)):
        settled.setdefault(one.chore_id, []).append(one)
    return [_of(one, plans[one.id], settled.get(one.id, []), span, today) for one in chores]


def _of(chore: Chore, plan: chore_facts.Plan, settled: Sequence[Settled], span: Span, today: date) -> ChoreHistory:
    past = Past(plan.rule, plan.history, plan.activity, never_late=chore.is_never_late)
    done = [one for one in settled if one.kind is SettledAs.DONE]
    late = [days for one in done if (days := past.days_late(_settlement(one)))]
    minutes = [one.minutes for one in done if one.minutes is not None]
    return ChoreHistory(
        chore=chore,
        done=len(done),
        skipped=sum(one.kind is SettledAs.SKIPPED for one in settled),
        deferred=sum(one.kind is SettledAs.DEFERRED for one in settled),
        late=len(late),
        most_days_late=max(late, default=0),
        missed=sum(day <= span.last for day in past.missed_days(span.first, today)),
        timed=len(minutes),
        median_minutes=median(minutes) if minutes else None,
        by=tuple(Counter(one.actor for one in done).most_common()),
        settled=tuple(settled),
    )


def _settlement(one: Settled) -> Settlement:
    return Settlement(one.occurrence, one.kind, one.on_day, one.until_day)
