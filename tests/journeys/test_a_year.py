"""A year of the invented farm, day by day, by a grower who is late, ill, away and in a hurry: nothing is lost."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

import pytest

from farmops.facts import chores as chore_facts
from farmops.facts import fish as fish_facts
from farmops.facts import units as unit_facts
from farmops.farm.absences import go_away
from farmops.farm.chores import SettlingMany, settle_many
from farmops.farm.incidents import begin_incident, end_incident
from farmops.farm.units import enter_state
from farmops.model.absences import NewAbsence
from farmops.model.chores import Chore, ChoreClass, SettledAs, Settling
from farmops.model.ids import new_id
from farmops.model.incidents import Ending, NewIncident
from farmops.model.units import NewState, UnitState
from farmops.records.farm import FarmRow
from farmops.records.store import Store
from farmops.reports.round import Round, round_of
from farmops.schedule.due import next_due
from tests.frozen import frozen
from tests.profiles import count

DAYS = count(ci=24, full=366)
SEEDS = range(count(ci=1, full=5))
AWAY = {20: 6, 150: 9}
ILL = {9: 4, 200: 7}
WINTER, SPRING = 12, 160
POWER_CUT = 16


@dataclass
class Grower:
    """Settles what a day brings, or does not, by a seed."""

    store: Store
    chance: random.Random
    by: str

    def works(self, day: date, found: Round) -> None:
        """Most of it is done, some skipped or put off, some left lying."""
        entries = [one for line in found.due if (one := self._settling(line.chore, day)) is not None]
        if entries:
            settle_many(self.store, SettlingMany(tuple(entries)), by=self.by)

    def _settling(self, chore: Chore, day: date) -> Settling | None:
        luck = self.chance.random()
        if luck < 0.10:
            return None
        if luck < 0.15:
            return Settling(chore.id, SettledAs.SKIPPED, day, reason="no time")
        if luck < 0.22 and chore.grade is not ChoreClass.LIFE_SUPPORT:
            later = day + timedelta(days=self.chance.randint(1, 4))
            return Settling(chore.id, SettledAs.DEFERRED, day, until=later)
        minutes = self.chance.choice((None, chore.minutes))
        return Settling(chore.id, SettledAs.DONE, day, confirmed=chore.confirmation, minutes=minutes)


def days(start: date) -> Iterator[tuple[int, date]]:
    return ((at, start + timedelta(days=at)) for at in range(DAYS))


def let_the_clock_run(store: Store) -> date:
    """The invented farm stands still on its last day; from there on it lives by the calendar."""
    with store.writing(new_id()) as transaction:
        row = transaction.get(FarmRow, 1)
        last = row.stands_on_day
        transaction.change(row, stands_on_day=None)
    assert last is not None
    return last + timedelta(days=1)


def what_happens(store: Store, at: int, day: date, by: str) -> None:
    """Journeys, a winter and a power cut."""
    with store.reading() as reader:
        running = [unit for unit in unit_facts.units(reader) if _state(reader, unit.id, day) is UnitState.RUNNING]
        wintering = [unit for unit in unit_facts.units(reader) if _state(reader, unit.id, day) is UnitState.WINTERING]
    if at in AWAY:
        go_away(store, NewAbsence(1, day + timedelta(days=1), day + timedelta(days=AWAY[at])), by=by)
    if at == WINTER and running:
        enter_state(store, NewState(running[0].id, UnitState.WINTERING, day), by=by)
    if at == SPRING and wintering:
        enter_state(store, NewState(wintering[0].id, UnitState.RUNNING, day), by=by)
    if at == POWER_CUT:
        began = datetime.combine(day, time(14, 0), UTC)
        begin_incident(store, NewIncident(began_at=began), by=by)
        end_incident(store, Ending(began + timedelta(hours=1), all_running=True), by=by)


def _state(reader: object, unit: int, day: date) -> UnitState | None:
    held = [one for one in unit_facts.states(reader, unit) if one.from_day <= day]  # type: ignore[arg-type]
    return held[-1].state if held else None


def assert_the_round_is_right(store: Store, day: date, found: Round) -> None:
    """Each chore at most once, none lost, fish looked after, and the stored due days as worked out afresh."""
    on_it = [line.chore.id for line in found.due]
    assert len(on_it) == len(set(on_it)), f"{day}: a chore stands twice"
    assert found.minutes == sum(line.chore.minutes for line in found.due)
    with store.reading() as reader:
        every = {one.id: one for one in chore_facts.chores(reader)}
        plans = {plan.chore_id: plan for plan in chore_facts.plans(reader, every)}
        fish = fish_facts.fish_spans(reader)
    for id, chore in every.items():
        plan = plans[id]
        assert chore.next_due == next_due(plan.rule, plan.history, plan.activity), f"{day}: {chore.title}"
        if chore.next_due is None or chore.next_due > day or id in on_it:
            continue
        rests = not plan.activity.active(day)
        over = chore.rule_kind == "when" and not any(
            one.since <= day and (one.until is None or day <= one.until)
            for one in plan.rule.holdings  # type: ignore[union-attr]
        )
        assert rests or over, f"{day}: {chore.title} ({chore.unit}) is lost"
        lives = any(first <= day and (last is None or day <= last) for first, last in fish.get(chore.unit_id or 0, []))
        months = {int(month) for month in chore.months.split(",")} if chore.months else set()
        paused = any(one.from_day <= day and (one.until is None or day <= one.until) for one in plan.activity.pauses)
        if chore.grade.keeps_fish_alive and lives and not paused and (not months or day.month in months) and not over:
            raise AssertionError(f"{day}: {chore.title} ({chore.unit}) rests while fish live there")


def assert_life_support_is_listed(day: date, found: Round) -> None:
    """The look at every unit is there each day, as due or as settled."""
    looks = [line.chore.title for line in (*found.due, *found.settled) if line.chore.title.startswith("Look round")]
    assert any("fish" in title for title in looks), f"{day}: nobody is told to look round"


@pytest.mark.parametrize("seed", SEEDS)
def test_a_year_of_the_invented_farm(demo_store: Store, seed: int) -> None:
    start = let_the_clock_run(demo_store)
    with frozen(start) as clock:
        by = "Maren"
        grower = Grower(demo_store, random.Random(seed), by)
        for at, day in days(start):
            clock.move_to(f"{day} 16:00")
            what_happens(demo_store, at, day, by)
            found = round_of(demo_store)
            assert found.on == day
            assert_the_round_is_right(demo_store, day, found)
            assert_life_support_is_listed(day, found)
            ill = any(first <= at < first + length for first, length in ILL.items())
            if not ill and grower.chance.random() > 0.07:
                grower.works(day, found)
                assert_the_round_is_right(demo_store, day, round_of(demo_store))
