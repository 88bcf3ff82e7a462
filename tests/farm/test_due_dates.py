"""The stored `next_due` of every chore is the one worked out afresh, whatever happened and in whatever order."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.facts import chores as chore_facts
from farmops.farm.chores import change_chore, pause, resume
from farmops.farm.fish import change_lot
from farmops.farm.removal import remove_record
from farmops.farm.usage import change_usage
from farmops.model.chores import ChoreChange, ChoreClass, NewPause, Resuming, SettledAs
from farmops.model.errors import FarmopsError
from farmops.model.fish import FishLotChange
from farmops.model.journal import Removal
from farmops.model.units import UnitState
from farmops.model.usage import Counter, UsageChange
from farmops.records.store import Store
from farmops.schedule.due import next_due
from tests.farmhand import (
    a_bed,
    a_chore,
    a_crop,
    a_unit,
    clear,
    do_again,
    emptied,
    enters,
    everything_stored,
    foretell,
    on,
    open_farm,
    plant,
    read,
    settle,
    stock,
    take_back,
    use,
    weigh,
)
from tests.farms import WHILE
from tests.frozen import frozen
from tests.profiles import count

FIRST = date(2026, 2, 20)
ZONES = ("America/New_York", "Pacific/Auckland", "Europe/Lisbon", "Pacific/Apia")
WORDS = ("day", "Mon Thu", "3 days", "month on the 31st", "year on 29 Feb", "10 days after", "1 month after", "once")
COUNTED = ("40 pump hours", "100 pump hours or 2 months", "2 kg fed", "500 siphon cycles or 3 weeks")
ANY_WORDS = (*WORDS, *COUNTED, *WHILE)
SHIFTS = tuple(date(2026, *day) for day in ((3, 8), (3, 29), (4, 5), (9, 27), (10, 4)))
days = st.dates(FIRST, date(2026, 10, 14)) | st.sampled_from(SHIFTS)
ahead = st.integers(0, 60)


def assert_due_dates_hold(store: Store) -> None:
    """Every chore's stored due day follows from its rule, its history and where it belongs."""
    stored = {row["id"]: row["next_due"] for row in everything_stored(store)["chore"]}
    with store.reading() as reader:
        plans = chore_facts.plans(reader, stored)
    assert stored == {plan.chore_id: next_due(plan.rule, plan.history, plan.activity) for plan in plans}


@dataclass(frozen=True)
class Step:
    """One thing that happens to a chore, to the unit or to the fish, or an undo or a redo."""

    what: str
    chore: int
    day: date
    ahead: int
    state: UnitState


@st.composite
def steps(draw: st.DrawFn) -> Step:
    what = draw(st.sampled_from((*SETTLINGS, *STEPS)))
    states = (UnitState.RUNNING, UnitState.WINTERING, UnitState.RESTING, UnitState.CYCLING)
    return Step(what, draw(st.integers(0, 5)), draw(days), draw(ahead), draw(st.sampled_from(states)))


SETTLINGS = {"done": SettledAs.DONE, "skipped": SettledAs.SKIPPED, "deferred": SettledAs.DEFERRED}


def take(store: Store, step: Step) -> None:
    """Take one step; what the farm refuses does not happen."""
    chores = everything_stored(store)["chore"]
    id = chores[step.chore % len(chores)]["id"]
    later = step.day + timedelta(days=step.ahead)
    with suppress(FarmopsError):
        if step.what in SETTLINGS:
            until = later if step.what == "deferred" else None
            settle(store, id, step.day, SETTLINGS[step.what], until=until, reason="so")
        else:
            STEPS[step.what](store, id, step, later)


def _stock(store: Store, id: int, step: Step, later: date) -> None:
    unit = everything_stored(store)["unit"][0]["id"]
    code = f"L{len(everything_stored(store)['fish_lot'])}"
    stock(store, _Numbered(unit), code, step.day)


@dataclass(frozen=True)
class _Numbered:
    id: int


def _first(store: Store, table: str) -> Any:
    """The first of the farm's units, beds or crops, by its id alone."""
    return _Numbered(everything_stored(store)[table][0]["id"])


def _close(store: Store, id: int, step: Step, later: date) -> None:
    lots = everything_stored(store)["fish_lot"]
    if lots:
        change_lot(store, FishLotChange(lots[step.ahead % len(lots)]["id"], closed_day=step.day), by="Ada")


def _rub_out(store: Store, id: int, step: Step, later: date) -> None:
    settled = everything_stored(store)["settlement"]
    if settled:
        remove_record(store, Removal("settlements", settled[step.ahead % len(settled)]["id"]), by="Ada")


def _use(store: Store, id: int, step: Step, later: date) -> None:
    counter = tuple(Counter)[step.chore % len(Counter)]
    use(store, _first(store, "unit"), counter, 1 + step.ahead * 24, step.day)


def _use_otherwise(store: Store, id: int, step: Step, later: date) -> None:
    booked = everything_stored(store)["usage"]
    if booked:
        change_usage(store, UsageChange(booked[step.ahead % len(booked)]["id"], day=step.day), by="Ada")


def _plant(store: Store, id: int, step: Step, later: date) -> None:
    plant(store, _first(store, "bed"), _first(store, "crop"), step.day)


def _pick(store: Store, id: int, step: Step, later: date) -> None:
    grown = everything_stored(store)["planting"]
    if grown:
        weigh(store, _Numbered(grown[step.chore % len(grown)]["id"]), "1 lb", later)  # type: ignore[arg-type]


def _clear(store: Store, id: int, step: Step, later: date) -> None:
    grown = everything_stored(store)["planting"]
    if grown:
        clear(store, _Numbered(grown[step.chore % len(grown)]["id"]), later)  # type: ignore[arg-type]


def _forget(store: Store, id: int, step: Step, later: date) -> None:
    kind = ("usage", "forecasts", "harvests", "readings")[step.chore % 4]
    rows = everything_stored(store)[kind.removesuffix("s")]
    if rows:
        remove_record(store, Removal(kind, rows[step.ahead % len(rows)]["id"]), by="Ada")


def _enter(store: Store, id: int, step: Step, later: date) -> None:
    enters(store, _Numbered(everything_stored(store)["unit"][0]["id"]), step.state, step.day)  # type: ignore[arg-type]


STEPS: dict[str, Callable[[Store, int, Step, date], object]] = {
    "pause": lambda store, id, step, later: pause(
        store, NewPause(id, step.day, later if step.ahead % 3 else None), by="Ada"
    ),
    "resume": lambda store, id, step, later: resume(store, Resuming(id, later), by="Ada"),
    "state": _enter,
    "stock": _stock,
    "close": _close,
    "rule": lambda store, id, step, later: change_chore(
        store, ChoreChange(id, rule=ANY_WORDS[step.ahead % len(ANY_WORDS)]), by="Ada"
    ),
    "start": lambda store, id, step, later: change_chore(store, ChoreChange(id, start_day=step.day), by="Ada"),
    "months": lambda store, id, step, later: change_chore(
        store, ChoreChange(id, months=(step.day.month, 12)), by="Ada"
    ),
    "undo": lambda store, id, step, later: take_back(store),
    "redo": lambda store, id, step, later: do_again(store),
    "rub": _rub_out,
    "use": _use,
    "use otherwise": _use_otherwise,
    "plant": _plant,
    "pick": _pick,
    "clear": _clear,
    "foretell": lambda store, id, step, later: foretell(
        store, later, low=f"{step.ahead - 20} C", high=f"{step.ahead - 10} C"
    ),
    "read": lambda store, id, step, later: read(store, _first(store, "unit"), step.day, fill_time="12"),
    "forget": _forget,
}


@settings(
    max_examples=count(ci=8, full=200),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    zone=st.sampled_from(ZONES),
    words=st.lists(st.sampled_from(WORDS), min_size=3, max_size=3),
    counted=st.sampled_from(COUNTED),
    held=st.lists(st.sampled_from(WHILE), min_size=2, max_size=2),
    grade=st.sampled_from((ChoreClass.FISH_CARE, ChoreClass.UPKEEP)),
    taken=st.lists(steps(), min_size=5, max_size=14),
)
def test_the_stored_due_day_is_the_one_worked_out_afresh(
    store: Store, zone: str, words: list[str], counted: str, held: list[str], grade: ChoreClass, taken: list[Step]
):
    with frozen("2026-10-14", at="11:30"):
        open_farm(emptied(store), zone)
        unit = a_unit(store, since=FIRST)
        bed = a_bed(store, unit)
        running = (UnitState.RUNNING,)
        a_chore(store, "Feed", words[0], FIRST, unit_id=unit.id, grade=grade, states=running, with_fish=True)
        a_chore(store, "Siphon", words[1], FIRST, bed_id=bed.id, states=running, months=(3, 4, 5, 9, 10))
        a_chore(store, "Sweep", words[2], FIRST)
        a_chore(store, "Look", "day", FIRST, unit_id=unit.id, grade=ChoreClass.LIFE_SUPPORT, states=running)
        a_chore(store, "Strip", counted, FIRST, unit_id=unit.id)
        a_chore(store, "Pick", held[0], FIRST, bed_id=bed.id, months=(3, 4, 5, 6, 9, 10))
        a_chore(store, "Heed", held[1], FIRST)
        a_crop(store, library_key="chard")
        for step in taken:
            take(store, step)
            assert_due_dates_hold(store)


@settings(
    max_examples=count(ci=6, full=100),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    words=st.sampled_from(ANY_WORDS),
    history=st.lists(
        st.tuples(days, st.sampled_from(SettledAs), ahead), min_size=2, max_size=5, unique_by=lambda one: one[0]
    ),
    random=st.randoms(use_true_random=False),
)
def test_the_order_in_which_settlings_are_entered_does_not_matter(
    store: Store, words: str, history: list[tuple[date, SettledAs, int]], random
):
    with frozen("2026-10-14"):
        open_farm(emptied(store))
        unit = a_unit(store)
        bed = a_bed(store, unit)
        plant(store, bed, a_crop(store, library_key="chard"), FIRST)
        foretell(store, on(5, 5), low="20 F", high="90 F")
        for day in (on(3, 1), on(3, 15), on(4, 2)):
            use(store, unit, Counter.PUMP_HOURS, 1_200, day)
        chores = [a_chore(store, title, words, FIRST, bed_id=bed.id) for title in ("as it was", "shuffled")]
        for chore, entries in zip(chores, (history, random.sample(history, len(history))), strict=True):
            for day, kind, later in entries:
                until = day + timedelta(days=later) if kind is SettledAs.DEFERRED else None
                settle(store, chore, day, kind, occurrence=day, until=until, reason="so")
        first, second = everything_stored(store)["chore"]
    assert first["next_due"] == second["next_due"]


@pytest.mark.parametrize(
    ("zone", "at", "today"),
    [
        ("Pacific/Auckland", "11:30", on(9, 28)),
        ("America/New_York", "03:30", on(9, 26)),
        ("America/New_York", "04:30", on(9, 27)),
        ("Europe/Lisbon", "23:30", on(9, 28)),
    ],
)
def test_the_day_is_the_farms_own(sqlite_store: Store, zone: str, at: str, today: date):
    with frozen("2026-09-27", at=at):
        open_farm(sqlite_store, zone)
    assert everything_stored(sqlite_store)["farm"][0]["opened_day"] == today


def test_a_day_that_a_zone_left_out_is_a_day_like_others(farm_store: Store):
    """Apia had no 30 December 2011; a calendar of days knows nothing of that."""
    chore = a_chore(farm_store, "Sweep", "day", date(2011, 12, 29))
    settle(farm_store, chore, date(2011, 12, 29))
    assert everything_stored(farm_store)["chore"][0]["next_due"] == date(2011, 12, 30)


def test_feeding_starts_with_the_fish_and_ends_with_them(farm_store: Store):
    unit = a_unit(farm_store)
    a_chore(farm_store, "Feed", "day", on(3, 1), unit_id=unit.id, with_fish=True, grade=ChoreClass.FISH_CARE)
    due = lambda: everything_stored(farm_store)["chore"][0]["next_due"]  # noqa: E731
    assert due() is None
    lot = stock(farm_store, unit, since=on(4, 15))
    assert due() == on(4, 15)
    settle(farm_store, 1, on(9, 1))
    change_lot(farm_store, FishLotChange(lot.id, closed_day=on(9, 1)), by="Ada")
    assert due() is None
    change_lot(farm_store, FishLotChange(lot.id, closed_day=None, stocked_day=on(4, 20)), by="Ada")
    assert due() == on(9, 2)
