"""What the tables say of chores: where they belong, how they were settled, what their due dates follow from."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from farmops.facts import chores
from farmops.model.chores import Pause, Settled, SettledAs, Settlement
from farmops.model.units import StateFrom, UnitState
from farmops.records.chores import ChoreRow, PauseRow, SettlementRow
from farmops.records.farm import PersonRow
from farmops.records.fish import FishLotRow, LotPlaceRow
from farmops.records.journal import JournalRow
from farmops.records.units import UnitRow, UnitStateRow
from farmops.schedule.activity import Activity
from farmops.schedule.due import standing
from tests.facts.of_conditions import rule_of
from tests.facts.of_places import spans_with_fish
from tests.facts.tables import DAYS, SPANS, Answer, Tables, columns, in_span, says
from tests.facts.walking import chore_of, in_order, unit_id_of

SETTLED = ("id", "chore_id", "occurrence", "on_day", "until_day", "reason", "confirmed", "minutes", "actor")


@says(chores.chores)
def every_chore(rows: Tables) -> Iterator[Answer]:
    yield (), [chore_of(rows, row) for row in in_order(rows)]


@says(chores.chore)
def each_chore(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[ChoreRow]:
        yield (row.id,), chore_of(rows, row)


@says(chores.with_ids)
def some_chores(rows: Tables) -> Iterator[Answer]:
    yield ([],), []
    for some in ([row.id for row in rows[ChoreRow]][::step] for step in (1, 3, 5)):
        yield ([*some, *some, 9999],), [chore_of(rows, row) for row in in_order(rows) if row.id in some]


@says(chores.due_by)
def chores_due(rows: Tables) -> Iterator[Answer]:
    for day in {*DAYS, *(row.next_due for row in rows[ChoreRow] if row.next_due)}:
        yield (day,), [chore_of(rows, row) for row in in_order(rows) if row.next_due and row.next_due <= day]


@says(chores.by_use_without_day)
def chores_by_use_on_no_day(rows: Tables) -> Iterator[Answer]:
    own = [row for row in in_order(rows) if row.rule_kind == "use" and row.next_due is None]
    yield (), [chore_of(rows, row) for row in own]


@says(chores.adults_only_of)
def chores_of_grown_people(rows: Tables) -> Iterator[Answer]:
    for person in rows[PersonRow]:
        own = [row for row in in_order(rows) if row.person_id == person.id and row.adults_only]
        yield (person.id,), [chore_of(rows, row) for row in own]


def _settled(row: SettlementRow) -> Settled:
    return Settled(**columns(row, *SETTLED, "operation"), kind=SettledAs(row.kind))


@says(chores.settled)
def history_of_each_chore(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for chore in rows[ChoreRow]:
        own = [row for row in rows[SettlementRow] if row.chore_id == chore.id]
        yield (chore.id,), [_settled(row) for row in sorted(own, key=lambda row: (row.on_day, row.id), reverse=True)]


@says(chores.settled_on)
def settled_on_days(rows: Tables) -> Iterator[Answer]:
    for day in {*DAYS, *(row.on_day for row in rows[SettlementRow])}:
        yield (day,), [_settled(row) for row in rows[SettlementRow] if row.on_day == day]


@says(chores.settled_between)
def settled_in_spans(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        own = [row for row in rows[SettlementRow] if in_span(row.on_day, span)]
        yield span, [_settled(row) for row in sorted(own, key=lambda row: (row.on_day, row.id))]


@says(chores.booked_between)
def when_settlements_were_booked(rows: Tables) -> Iterator[Answer]:
    at = {row.operation: row.at for row in rows[JournalRow]}
    for span in SPANS:
        yield span, {row.id: at[row.operation] for row in rows[SettlementRow] if in_span(row.on_day, span)}


@says(chores.ids_in_units)
def chores_in_units(rows: Tables) -> Iterator[Answer]:
    ids = [unit.id for unit in rows[UnitRow]]
    for number in range(len(ids) + 1):
        for some in combinations(ids, number):
            yield (some,), {row.id for row in rows[ChoreRow] if unit_id_of(rows, row) in some}


@says(chores.units_of_lot)
def homes_of_lots(rows: Tables) -> Iterator[Answer]:
    yield (9999,), set()
    for lot in rows[FishLotRow]:
        yield (lot.id,), {place.unit_id for place in rows[LotPlaceRow] if place.fish_lot_id == lot.id}


def plan_of(rows: Tables, row: ChoreRow) -> chores.Plan:
    """What the due date of a chore follows from, row by row."""
    unit_id = unit_id_of(rows, row)
    states = [state for state in rows[UnitStateRow] if state.unit_id == unit_id]
    pauses = sorted((p for p in rows[PauseRow] if p.chore_id == row.id), key=lambda p: p.from_day)
    ((_, spans),) = spans_with_fish(rows)
    bound = unit_id is not None and row.states
    activity = Activity(
        months=frozenset(int(month) for month in (row.months or "").split(",") if month),
        states=frozenset(UnitState(word) for word in (row.states or "").split(",")) if bound else frozenset(),
        history=tuple(StateFrom(s.from_day, UnitState(s.state)) for s in sorted(states, key=lambda s: s.from_day)),
        pauses=tuple(Pause(pause.from_day, pause.until_day) for pause in pauses),
        fish_spans=tuple(spans.get(unit_id, ())),
        keeps_fish_alive=row.grade in ("life support", "fish care"),
        with_fish=row.with_fish,
    )
    own = [one for one in rows[SettlementRow] if one.chore_id == row.id]
    history = tuple(Settlement(one.occurrence, SettledAs(one.kind), one.on_day, one.until_day) for one in own)
    return chores.Plan(row.id, rule_of(rows, row), history, activity, row.next_due)


@says(chores.plans)
def plans_of_chores(rows: Tables) -> Iterator[Answer]:
    yield ([],), []
    yield ([9999],), []
    yield ([row.id for row in rows[ChoreRow]],), [plan_of(rows, row) for row in in_order(rows)]
    for row in rows[ChoreRow][::7]:
        yield ([row.id, row.id, 9999],), [plan_of(rows, row)]


@says(chores.standing_on)
def what_stands_open(rows: Tables) -> Iterator[Answer]:
    plans = [plan_of(rows, row) for row in rows[ChoreRow]]
    ids = [plan.chore_id for plan in plans]
    for day in DAYS[-2:]:
        open_then = {p.chore_id: standing(p.rule, p.history, p.activity, day) for p in plans}
        yield (ids, day), {id: one for id, one in open_then.items() if one is not None}
