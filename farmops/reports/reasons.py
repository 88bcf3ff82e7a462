"""Why a chore is asked for: what holds since when, how much was used, and what would end it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore
from farmops.model.frozen import dataclass
from farmops.reports.round_lines import where_of

if TYPE_CHECKING:
    from farmops.facts.chores import Plan
    from farmops.quantities import Measures
    from farmops.schedule.due import Standing
    from farmops.schedule.rules import ByUse, Holding

EXPLAINED = ("use", "when")
"""The kinds of rule whose chores are asked for because of what was recorded."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a chore asks for: due since or from a day, how many went by besides, why, and what would end it."""

    due: date
    missed: int
    why: str | None = None
    ends: str | None = None


@dataclass(frozen=True, slots=True)
class Undated:
    """A chore by use that no record gives a day yet, and why."""

    chore: Chore
    why: str

    @property
    def where(self) -> str:
        """The place it belongs to."""
        return where_of(self.chore)


def asked_on(reader: Reader, chores: Iterable[Chore], day: date) -> dict[int, Asked]:
    """What chores that are late, or asked for with a reason, ask for on a day; else what they will ask for next."""
    wanted = [one.id for one in chores if _may_stand(one, day)]
    if not wanted:
        return {}
    from farmops.schedule.due import standing, to_come

    plans = chore_facts.plans(reader, wanted)
    measures = _measures(reader, plans)
    found = {}
    for plan in plans:
        given = (plan.rule, plan.history, plan.activity, day)
        stands = standing(*given) or to_come(*given)
        if stands is not None:
            found[plan.chore_id] = Asked(stands.due, stands.missed, *_reason(plan, stands, measures, day))
    return found


def _may_stand(chore: Chore, day: date) -> bool:
    return chore.next_due is not None and (chore.next_due < day or chore.rule_kind in EXPLAINED)


def undated(reader: Reader, day: date, unit: str | None = None) -> list[Undated]:
    """The chores by use, of one unit or of all, that no record gives a day yet and that do not rest on the day."""
    wanted = unit.strip().upper() if unit else None
    chores = {one.id: one for one in chore_facts.by_use_without_day(reader) if wanted in (None, one.unit)}
    if not chores:
        return []
    from farmops.schedule.due import due

    plans = chore_facts.plans(reader, chores)
    measures = _measures(reader, plans)
    return [
        Undated(chores[plan.chore_id], _use(plan, measures, day))
        for plan in plans
        if due(plan.rule, plan.history) is None and plan.activity.active(day)
    ]


def _measures(reader: Reader, plans: Sequence[Plan]) -> Measures | None:
    """How the farm weighs, read only where weights may have to be told."""
    from farmops.schedule.rules import ByUse

    return farm_facts.farm(reader).measures if any(isinstance(plan.rule, ByUse) for plan in plans) else None


def _reason(plan: Plan, stands: Standing, measures: Measures | None, day: date) -> tuple[str | None, str | None]:
    from farmops.schedule.rules import ByUse

    if isinstance(plan.rule, ByUse):
        return _use(plan, measures, day), None
    if not stands.holdings:
        return None, None
    ends = dict.fromkeys(one.ends for one in stands.holdings)
    return "; ".join(_since(one, day) for one in stands.holdings), "; ".join(ends)


def _since(holding: Holding, day: date) -> str:
    """`CHARD ready since Sun 11 Oct`; what begins on the day itself, and a whole sentence, needs no such word."""
    if holding.since == day or holding.why.endswith("."):
        return holding.why
    return f"{holding.why} {'since' if holding.since < day else 'from'} {short_day(holding.since, day)}"


def _use(plan: Plan, measures: Measures | None, day: date) -> str:
    """`336 pump hours since Fri 1 May, of 2000 pump hours`, or why no day can be told."""
    from farmops.schedule.by_use import used
    from farmops.schedule.use_words import amount_words

    rule: ByUse = plan.rule  # type: ignore[assignment]
    behind = used(rule, plan.history)
    if behind.booked is None:
        return f"no {rule.counter} booked yet"
    told = f"{amount_words(rule.counter, behind.amount, measures)} since {short_day(behind.since, day)}"
    if behind.reached is None and behind.a_day is None:
        return f"{told}; the next record tells when"
    return f"{told}, of {amount_words(rule.counter, rule.limit, measures)}"


def short_day(day: date, today: date) -> str:
    """`Thu 15 Oct`, with the year where it is another one than today's."""
    return f"{day:%a} {day.day} {day:%b}" + (f" {day.year}" if day.year != today.year else "")


def next_words(store: Store, chores: Iterable[Chore], on: date | None = None) -> dict[int, str]:
    """When each chore is due next, or why no day can be told."""
    listed = list(chores)
    with store.reading() as reader:
        day = on or farm_facts.farm(reader).today()
        recorded = [one for one in listed if one.rule_kind in EXPLAINED]
        asked = asked_on(reader, recorded, day)
        waiting = {one.chore.id: one.why for one in undated(reader, day)} if recorded else {}
    told = {one.id: str(one.next_due or "rests") for one in listed}
    for one in recorded:
        found = asked.get(one.id)
        nothing = "not now" if one.rule_kind == "when" else "rests"
        told[one.id] = str(found.due) if found else waiting.get(one.id, nothing)
    return told


def next_of(store: Store, chore: Chore, nothing: str) -> str:
    """When one chore is due next, or why no day can be told; `nothing` for one that no record brings back."""
    if chore.next_due is None and chore.rule_kind not in EXPLAINED:
        return nothing
    return next_words(store, [chore])[chore.id]
