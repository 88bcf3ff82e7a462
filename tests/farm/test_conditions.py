"""Every condition of the registry calls for chores: in words, by place, moved by every table it follows from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from farmops.facts import chores as chore_facts
from farmops.facts.conditions import CONDITIONS, named
from farmops.facts.evidence import used_in
from farmops.farm.chores import add_chore
from farmops.farm.fish_events import record_feeding
from farmops.farm.operation import Operation, operation
from farmops.farm.removal import remove_record
from farmops.farm.supplies import add_supply, buy_supply, change_supply, use_supply
from farmops.farm.transfers import move_lot
from farmops.library import ChoreTemplate, chore_templates
from farmops.model.beds import BedKind
from farmops.model.chores import AppliesTo, ChoreClass, NewChore, SettledAs
from farmops.model.errors import NotUnderstood, Refused
from farmops.model.fish_events import NewFeeding, NewPlace
from farmops.model.journal import Removal
from farmops.model.plantings import StartedBy
from farmops.model.supplies import Movement, NewSupply, NewSupplyLot, NewSupplyUse, SupplyChange
from farmops.model.units import UnitState
from farmops.model.usage import Counter
from farmops.records.reading import Reader
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE
from farmops.schedule.due import Standing, standing
from farmops.schedule.rules import ByUse, Use, WhenHolds
from farmops.schedule.words import parse_words
from tests.farm.test_due_dates import assert_due_dates_hold
from tests.farmhand import (
    ADA,
    a_bed,
    a_chore,
    a_crop,
    a_unit,
    clear,
    do_again,
    enters,
    everything_stored,
    foretell,
    mass,
    on,
    plant,
    settle,
    stock,
    take_back,
    use,
    weigh,
)
from tests.farms import WHILE
from tests.frozen import frozen

LEFT_OUT = {"unit", "crop", "farm", "bed"}
"""Tables that conditions read for names, settings and what stands where for good: nothing in them moves a day."""


@dataclass(frozen=True, slots=True)
class Rows:
    """New rows of one table."""

    table: str
    rows: tuple[dict[str, Any], ...]


@operation("rows")
def put(op: Operation, entry: Rows) -> str:
    """Write rows as they stand, without the operation that a person would use."""
    op.add_all([BY_TABLE[entry.table](**row) for row in entry.rows])
    return entry.table


def _state(state: UnitState, since: date) -> dict[str, Any]:
    return {"unit_id": 1, "state": state.value, "from_day": since}


def _cycles(measure: str, *values: float, day: int = 1) -> list[dict[str, Any]]:
    return [
        {"unit_id": 1, "day": on(6, day + at), "measure": measure, "value": value, "typed": f"{value:g}"}
        for at, value in enumerate(values)
    ]


STEADY_FILLS = _cycles("fill time", 11.9, 12.0, 11.8, 11.8, 12.0, 11.9)
STEADY_DRAINS = _cycles("drain time", 3.5, 3.5, 3.6, 3.6, 3.5, 3.6)


def _warm(day: date, degrees: float) -> dict[str, Any]:
    return {"unit_id": 1, "day": day, "measure": "temperature", "value": degrees, "typed": f"{degrees:g}"}


PLANTED = {"bed_id": 1, "crop_id": 1, "started_day": on(5, 1), "started_by": "transplanting"}
PICKED = {"mass_mg": 1000, "mass_typed": "1 g", "tare_mg": 0, "use": "home", "planting_id": 1}
PELLETS = {"name": "pellets", "category": "feed", "held_by": "mass", "reorder_at": 5, "reorder_typed": "5 mg"}
BAG = {"supply_id": 1, "day": on(5, 1), "amount": 10, "amount_typed": "10 mg"}
FED = {"supply_id": 1, "kind": "used", "amount_typed": "x", "unit_id": None}
PERMIT = {"kind": "permit", "name": "fish", "from_day": on(5, 1)}
PEN = {"name": "pen", "measures": "pH", "from_day": on(5, 1)}
TROUT = {
    "code": "T",
    "species": "rainbow trout",
    "library_key": "rainbow-trout",
    "stocked_day": on(5, 1),
    "number": 9,
    "mean_mg": 9_000,
    "mean_typed": "9 g",
}
SPRAYED = {
    "day": on(6, 5),
    "at": datetime(2026, 6, 5, 20, tzinfo=UTC),
    "unit_id": 1,
    "product": "soap",
    "actor": "Ada",
    "amount_typed": "1 L",
    "reentry_hours": 4,
    "harvest_days": 7,
}
FILLED = [
    {"unit_id": 1, "day": on(6, 2), "minute": n, "measure": "fill time", "value": 12.0, "typed": "12"}
    for n in range(10)
]
SAMPLE = {"fish_lot_id": 1, "day": on(6, 10), "number": 2, "mass_mg": 20_000, "mass_typed": "20 g"}
MOVES: dict[str, list[tuple[str, list[dict[str, Any]], date | None]]] = {
    "unit cycling": [
        ("unit_state", [_state(UnitState.CYCLING, on(5, 1))], on(5, 1)),
    ],
    "unit without its baseline": [
        ("unit_state", [_state(UnitState.CYCLING, on(5, 1))], None),
        ("bed", [{"unit_id": 1, "name": "M", "kind": "media"}], on(5, 1)),
        ("note", [{"unit_id": 1, "day": on(6, 1), "changed": "pump"}], on(6, 1)),
        ("reading", FILLED[1:], on(6, 1)),
        ("reading", FILLED[:1], None),
    ],
    "reading out of limits": [
        ("reading", [_warm(on(5, 10), 17.0), _warm(on(5, 20), 30.0), _warm(on(6, 2), 30.0)], None),
        ("unit_state", [_state(UnitState.CYCLING, on(5, 1))], None),
        ("fish_lot", [TROUT], None),
        ("lot_place", [{"fish_lot_id": 1, "unit_id": 1, "from_day": on(5, 1)}], on(5, 20)),
        ("own_limit", [{"from_day": on(5, 1), "measure": "temperature", "high": 16.5}], on(5, 10)),
        ("reading", [_warm(on(6, 3), 16.0)], None),
    ],
    "reading to watch": [
        ("reading", [_warm(on(5, 10), 17.0), _warm(on(5, 20), 16.9), _warm(on(6, 2), 17.5)], None),
        ("unit_state", [_state(UnitState.CYCLING, on(5, 1))], None),
        ("fish_lot", [TROUT], None),
        ("lot_place", [{"fish_lot_id": 1, "unit_id": 1, "from_day": on(5, 1)}], None),
        ("own_limit", [{"from_day": on(5, 1), "measure": "temperature", "high": 16.8}], on(5, 10)),
        ("reading", [_warm(on(6, 3), 16.0)], None),
    ],
    "instrument check due": [
        ("instrument", [{**PEN, "check_days": 30}], on(5, 31)),
        ("instrument_check", [{"instrument_id": 1, "day": on(6, 1), "passed": True}], on(7, 1)),
        ("instrument_check", [{"instrument_id": 1, "day": on(6, 5), "passed": False}], on(6, 5)),
    ],
    "instrument past its date": [
        ("instrument", [{**PEN, "expires_day": on(6, 30)}], on(7, 1)),
    ],
    "planting ready": [
        ("planting", [PLANTED], on(5, 26)),
        ("harvest", [{**PICKED, "day": on(5, 30)}], on(6, 6)),
        ("treatment", [SPRAYED], on(6, 12)),
    ],
    "planting overdue": [
        ("planting", [PLANTED], on(6, 6)),
        ("harvest", [{**PICKED, "day": on(6, 7)}], None),
    ],
    "supply to reorder": [
        ("supply", [PELLETS], None),
        ("supply_lot", [BAG], None),
        ("supply_use", [{**FED, "day": on(6, 1), "amount": 4}, {**FED, "day": on(6, 3), "amount": 1}], on(6, 3)),
        ("supply_use", [{**FED, "day": on(6, 4), "kind": "counted", "amount": 6}], None),
    ],
    "supply past its date": [
        ("supply", [PELLETS], None),
        ("supply_lot", [{**BAG, "expires_day": on(6, 30)}], on(7, 1)),
        ("supply_lot", [{**BAG, "day": on(6, 1)}], on(7, 1)),
        ("supply_use", [{**FED, "day": on(6, 2), "amount": 10}], None),
    ],
    "filling slower": [
        ("reading", [*STEADY_FILLS, *_cycles("fill time", 13, 13.1, day=8)], on(6, 9)),
        ("note", [{"unit_id": 1, "day": on(6, 5), "changed": "pump"}], None),
    ],
    "filling faster": [
        ("reading", [*STEADY_FILLS, *_cycles("fill time", 11, 10.9, day=8)], on(6, 9)),
        ("note", [{"unit_id": 1, "day": on(6, 5), "changed": "media"}], None),
    ],
    "draining slower": [
        ("reading", [*STEADY_DRAINS, *_cycles("drain time", 4.1, 4.3, day=8)], on(6, 9)),
        ("note", [{"unit_id": 1, "day": on(6, 5), "changed": "siphon"}], None),
    ],
    "siphon dribbling": [
        ("reading", _cycles("fill time", 11.9, 1440, 1440), on(6, 2)),
        ("note", [{"unit_id": 1, "day": on(6, 5), "changed": "siphon"}], None),
    ],
    "paper running out": [
        ("paper", [{**PERMIT, "until_day": None}, {**PERMIT, "name": "scale", "until_day": on(12, 31)}], on(12, 1)),
        ("paper", [{**PERMIT, "until_day": on(9, 30)}], on(8, 31)),
        ("paper", [{**PERMIT, "from_day": on(10, 1), "until_day": None}], on(12, 1)),
    ],
    "frost to come": [
        ("forecast", [{"day": on(10, 20), "low_c": 2.1, "low_typed": "2.1"}], None),
        ("forecast", [{"day": on(10, 21), "low_c": 2.0, "low_typed": "2"}], on(10, 20)),
    ],
    "heat to come": [
        ("forecast", [{"day": on(7, 20), "high_c": 29.9, "high_typed": "29.9"}], None),
        ("forecast", [{"day": on(7, 21), "high_c": 30.0, "high_typed": "30"}], on(7, 20)),
    ],
    "lot due for a weighing": [
        ("fish_lot", [TROUT], None),
        ("lot_place", [{"fish_lot_id": 1, "unit_id": 1, "from_day": on(5, 1)}], on(5, 31)),
        ("sample_weighing", [SAMPLE], on(7, 10)),
    ],
}
"""For each condition, rows of every table it follows from and the day its chore is due after each."""


@pytest.fixture
def place(farm_store: Store) -> Store:
    """A unit that is planned, with a raft bed, and a crop of which the library knows something."""
    unit = a_unit(farm_store, since=on(1, 1), state=UnitState.PLANNED)
    a_bed(farm_store, unit, kind=BedKind.RAFT)
    a_crop(farm_store, library_key="chard")
    return farm_store


def due(store: Store, chore: int = 1) -> date | None:
    """The stored due day of a chore."""
    return next(row["next_due"] for row in everything_stored(store)["chore"] if row["id"] == chore)


def stands(store: Store, day: date, chore: int = 1) -> Standing | None:
    """What a chore asks for on a day."""
    with store.reading() as reader:
        (plan,) = chore_facts.plans(reader, [chore])
    return standing(plan.rule, plan.history, plan.activity, day)


def test_each_condition_has_its_example_here():
    assert set(MOVES) == set(CONDITIONS)
    for name, moves in MOVES.items():
        assert {table for table, _, _ in moves} == CONDITIONS[name].tables


@pytest.mark.parametrize("name", CONDITIONS)
def test_each_condition_is_told_in_words(name: str):
    found = named(name)
    assert found.words.endswith(".")
    assert "until" in found.words
    assert re.fullmatch(r"[a-z]+( [a-z]+)*", name)


@pytest.mark.parametrize("name", CONDITIONS)
def test_each_condition_moves_its_chore_whatever_table_is_written(place: Store, name: str):
    with frozen("2026-10-14"):
        a_chore(place, "Look", f"when {name}", on(1, 1), bed_id=1 if named(name).place is AppliesTo.BED else None)
        before = [due(place)]
        for table, rows, expected in MOVES[name]:
            put(place, Rows(table, tuple(rows)), by=ADA)
            assert due(place) == expected
            assert_due_dates_hold(place)
            before.append(expected)
        for expected in reversed(before[:-1]):
            take_back(place)
            assert due(place) == expected
        do_again(place)
        assert_due_dates_hold(place)


@pytest.mark.parametrize("name", CONDITIONS)
def test_what_holds_says_since_when_why_and_what_would_end_it(place: Store, name: str):
    with frozen("2026-10-14"):
        for table, rows, expected in MOVES[name]:
            put(place, Rows(table, tuple(rows)), by=ADA)
            if expected is not None:
                with place.reading() as reader:
                    held = [one for found in named(name).read(reader).values() for one in found]
                assert held
                assert all(one.why and one.ends and (one.until is None or one.until >= one.since) for one in held)


class Listening(Reader):
    """Notes which tables are read."""

    def __init__(self, reader: Reader) -> None:
        super().__init__(reader.connection, reader.dialect)
        self.tables: set[str] = set()
        self.queries = 0

    def _run(self, sql: str, parameters: dict[str, Any]) -> Any:
        self.queries += 1
        made = set(re.findall(r"(\w+) AS \(", sql))
        self.tables |= set(re.findall(r"\b(?:FROM|JOIN)\s+(\w+)", sql)) - made
        return super()._run(sql, parameters)


@contextmanager
def listening(store: Store) -> Iterator[Listening]:
    with store.reading() as reader:
        yield Listening(reader)


@pytest.mark.parametrize("name", CONDITIONS)
def test_no_condition_reads_a_table_that_it_does_not_name(place: Store, name: str):
    with frozen("2026-10-14"):
        for table, rows, _ in MOVES[name]:
            put(place, Rows(table, tuple(rows)), by=ADA)
    with listening(place) as reader:
        named(name).read(reader)
    assert CONDITIONS[name].tables <= reader.tables
    assert reader.tables - LEFT_OUT <= CONDITIONS[name].tables


def test_the_evidence_of_many_chores_is_read_with_as_many_queries_as_that_of_one(place: Store):
    words = ("40 pump hours", *WHILE)
    for unit in range(5):
        made = a_unit(place, f"U{unit}")
        for text in words:
            a_chore(place, "Look", text, unit_id=made.id)
    ids = [row["id"] for row in everything_stored(place)["chore"]]
    asked = []
    for some in (ids[: len(words)], ids):
        with listening(place) as reader:
            assert len(chore_facts.plans(reader, some)) == len(some)
        asked.append(reader.queries)
    assert asked[0] == asked[1]


def test_chores_that_need_no_evidence_are_read_without_any(place: Store):
    a_chore(place, "Sweep", "day")
    with listening(place) as reader:
        chore_facts.plans(reader, [1])
    assert not reader.tables & {"usage", "forecast", "planting", "harvest", "reading", "note"}


def test_a_condition_that_is_not_known_is_refused_in_words(place: Store):
    with pytest.raises(NotUnderstood, match=r"no condition 'planting raedy'\. Did you mean 'planting ready'"):
        add_chore(place, NewChore("Pick", "when planting raedy", on(5, 1)), by=ADA)
    assert everything_stored(place)["chore"] == []


@pytest.mark.parametrize("template", chore_templates(), ids=lambda template: template.key)
def test_the_packaged_chores_wait_for_conditions_that_there_are(template: ChoreTemplate):
    rule = parse_words(template.words, on(5, 1))
    assert not isinstance(rule, WhenHolds) or named(rule.condition)
    assert not isinstance(rule, ByUse) or template.applies_to is not AppliesTo.FARM


def test_a_chore_asks_for_the_places_that_it_belongs_to(place: Store):
    north, other = 1, a_bed(place, a_unit(place, "ROOK"))
    chard = everything_stored(place)["crop"][0]["id"]
    put(place, Rows("planting", ({**PLANTED, "bed_id": other.id, "crop_id": chard},)), by=ADA)
    for more in ({}, {"unit_id": other.unit_id}, {"bed_id": other.id}, {"unit_id": 1}, {"bed_id": north}):
        a_chore(place, "Pick", "when planting ready", on(1, 1), **more)
    assert [due(place, id) for id in range(1, 6)] == [on(5, 26)] * 3 + [None] * 2
    a_chore(place, "Time", "when unit without its baseline", on(1, 1), bed_id=other.id)
    assert due(place, 6) == on(3, 1)
    for more in ({}, {"unit_id": other.unit_id}, {"unit_id": 1}):
        a_chore(place, "Time", "when unit without its baseline", on(1, 1), **more)
    assert [due(place, id) for id in (7, 8, 9)] == [on(3, 1), on(3, 1), None]


def test_picking_a_planting_takes_its_chore_off_the_list_until_the_next_pick(farm_store: Store):
    with frozen("2026-10-14"):
        bed = a_bed(farm_store, a_unit(farm_store))
        chard = plant(farm_store, bed, a_crop(farm_store, library_key="chard"), on(9, 16))
        a_chore(farm_store, "Pick", "when planting ready", on(3, 1), bed_id=bed.id)
        found = stands(farm_store, on(10, 14))
        assert found is not None
        assert (found.due, found.holdings[0].why) == (on(10, 11), "CHARD ready")
        assert found.holdings[0].ends == "a weighing from it, or clearing"
        weigh(farm_store, chard, "1 lb", on(10, 14))
        assert stands(farm_store, on(10, 20)) is None
        assert due(farm_store) == on(10, 21)
        clear(farm_store, chard, on(10, 20))
        assert due(farm_store) is None


@pytest.mark.parametrize(
    ("crop", "by", "first_pick"),
    [
        ("chard", StartedBy.TRANSPLANTING, on(5, 26)),
        ("parsley", StartedBy.TRANSPLANTING, on(5, 21)),
        ("parsley", StartedBy.SOWING, on(5, 29)),
        ("pak-choi", StartedBy.SOWING, on(6, 15)),
        ("mint", StartedBy.TRANSPLANTING, None),
        (None, StartedBy.TRANSPLANTING, None),
    ],
    ids=["from its start", "from transplanting", "a seed comes up first", "from sowing", "not known", "no facts"],
)
def test_the_first_pick_is_as_many_days_off_as_the_library_says(farm_store, crop, by, first_pick):
    bed = a_bed(farm_store, a_unit(farm_store))
    plant(farm_store, bed, a_crop(farm_store, "GREENS", library_key=crop), on(5, 1), started_by=by)
    a_chore(farm_store, "Pick", "when planting ready", on(3, 1), bed_id=bed.id)
    assert due(farm_store) == first_pick


def test_a_crop_that_is_picked_once_is_not_ready_again_but_its_time_runs_out(farm_store: Store):
    with frozen("2026-10-14"):
        bed = a_bed(farm_store, a_unit(farm_store))
        lettuce = plant(farm_store, bed, a_crop(farm_store, "LETTUCE", library_key="lettuce"), on(5, 1))
        for name in ("planting ready", "planting overdue"):
            a_chore(farm_store, "Look", f"when {name}", on(3, 1), bed_id=bed.id)
        assert (due(farm_store, 1), due(farm_store, 2)) == (on(5, 25), on(6, 3))
        weigh(farm_store, lettuce, "1 lb", on(5, 26))
        assert (due(farm_store, 1), due(farm_store, 2)) == (None, on(6, 3))


def test_a_unit_has_its_baseline_anew_after_its_pump_was_changed(place: Store):
    with frozen("2026-10-14"):
        for table, rows, _ in MOVES["unit without its baseline"]:
            put(place, Rows(table, tuple(rows)), by=ADA)
        a_chore(place, "Time ten cycles", "when unit without its baseline", on(1, 1), unit_id=1)
        assert due(place) is None
        for changed, expected in (("feed", None), ("siphon", on(7, 1))):
            put(place, Rows("note", ({"unit_id": 1, "day": on(7, 1), "changed": changed},)), by=ADA)
            assert due(place) == expected
        found = stands(place, on(8, 1))
        assert found is not None
        assert found.holdings[0].why == "WREN with 0 of 10 fill times read"


def test_cycles_timed_while_building_are_part_of_the_baseline(place: Store):
    with frozen("2026-10-14"):
        a_chore(place, "Time ten cycles", "when unit without its baseline", on(1, 1), unit_id=1)
        put(place, Rows("bed", ({"unit_id": 1, "name": "M", "kind": "media"},)), by=ADA)
        put(place, Rows("reading", tuple({**one, "day": on(4, 2)} for one in FILLED[:9])), by=ADA)
        put(place, Rows("unit_state", (_state(UnitState.CYCLING, on(5, 1)),)), by=ADA)
        assert due(place) == on(5, 1)
        put(place, Rows("reading", tuple({**one, "day": on(4, 3)} for one in FILLED[9:])), by=ADA)
        assert due(place) is None


def test_a_unit_at_rest_asks_for_no_baseline_until_it_runs_again(place: Store):
    with frozen("2026-10-14"):
        for table, rows, _ in MOVES["unit without its baseline"][:2]:
            put(place, Rows(table, tuple(rows)), by=ADA)
        a_chore(place, "Time ten cycles", "when unit without its baseline", on(1, 1), unit_id=1)
        put(place, Rows("unit_state", (_state(UnitState.RUNNING, on(5, 20)),)), by=ADA)
        put(place, Rows("unit_state", (_state(UnitState.RESTING, on(6, 1)),)), by=ADA)
        put(place, Rows("unit_state", (_state(UnitState.RUNNING, on(8, 1)),)), by=ADA)
        assert stands(place, on(5, 31)) == stands(place, on(5, 25))
        assert stands(place, on(7, 1)) is None
        found = stands(place, on(8, 5))
        assert found is not None
        assert found.due == on(8, 1)


def test_frost_asks_from_the_day_before_until_it_has_gone_by_or_is_called_off(farm_store: Store):
    with frozen("2026-10-14"):
        a_chore(farm_store, "Cover the beds", "when frost to come", on(1, 1))
        foretell(farm_store, on(10, 16), low="30 F", high="50 F")
        foretell(farm_store, on(10, 17), low="-1 C")
        assert [stands(farm_store, on(10, day)) is not None for day in (14, 15, 16, 17, 18)] == [
            False,
            *[True] * 3,
            False,
        ]
        found = stands(farm_store, on(10, 16))
        assert found is not None
        assert [one.why for one in found.holdings] == [
            "frost to come, low of 30.0 °F on Fri 16 Oct",
            "frost to come, low of 30.2 °F on Sat 17 Oct",
        ]
        with frozen("2026-10-15"):
            settle(farm_store, 1, on(10, 15))
        assert due(farm_store) == on(10, 16)
        foretell(farm_store, on(10, 17), low="40 F")
        assert due(farm_store) is None


def test_a_state_to_come_ends_what_holds_when_it_comes(farm_store: Store):
    with frozen("2026-10-14"):
        unit = a_unit(farm_store, since=on(9, 21), state=UnitState.CYCLING)
        enters(farm_store, unit, UnitState.RUNNING, on(11, 1))
        a_chore(farm_store, "Test daily", "when unit cycling", on(3, 1), unit_id=unit.id)
        assert stands(farm_store, on(10, 31)) is not None
        assert stands(farm_store, on(11, 1)) is None


def test_what_calls_for_nothing_is_not_put_off_but_can_be_booked(farm_store: Store):
    with frozen("2026-10-14"):
        chore = a_chore(farm_store, "Cover the beds", "when frost to come", on(1, 1))
        with pytest.raises(Refused, match="nothing calls for Cover the beds now; it is due when frost to come"):
            settle(farm_store, chore, on(10, 14), SettledAs.DEFERRED, until=on(10, 16))
        assert settle(farm_store, chore, on(10, 14)).occurrence == on(10, 13)
        foretell(farm_store, on(10, 15), low="20 F")
        assert due(farm_store) == on(10, 14)


def test_what_is_to_come_can_be_left_out_ahead_of_its_day_but_not_done(farm_store: Store):
    with frozen("2026-10-14"):
        for title in ("Cover the beds", "Fill the pan"):
            a_chore(farm_store, title, "when frost to come", on(1, 1))
        foretell(farm_store, on(10, 17), low="20 F")
        assert settle(farm_store, 1, on(10, 14)).occurrence == on(10, 13)
        assert settle(farm_store, 2, on(10, 14), SettledAs.SKIPPED, reason="covered").occurrence == on(10, 16)
        assert (due(farm_store, 1), due(farm_store, 2)) == (on(10, 16), None)


def test_use_is_that_of_the_unit_the_chore_belongs_to(farm_store: Store):
    with frozen("2026-10-14"):
        wren, rook = a_unit(farm_store), a_unit(farm_store, "ROOK")
        bed = a_bed(farm_store, wren)
        for more in ({"unit_id": wren.id}, {"bed_id": bed.id}, {"unit_id": rook.id}):
            a_chore(farm_store, "Strip", "48 pump hours", on(3, 1), **more)
        use(farm_store, wren, Counter.PUMP_HOURS, 24 * 60, on(9, 1))
        use(farm_store, wren, Counter.SIPHON_CYCLES, 9000, on(9, 1))
        assert [due(farm_store, id) for id in (1, 2, 3)] == [None] * 3
        use(farm_store, wren, Counter.PUMP_HOURS, 24 * 60, on(9, 3))
        assert [due(farm_store, id) for id in (1, 2, 3)] == [on(9, 3), on(9, 3), None]
        assert settle(farm_store, 1, on(9, 5)).occurrence == on(9, 3)
        assert due(farm_store, 1) == on(9, 5) + timedelta(days=4)
        assert settle(farm_store, 3, on(9, 5)).occurrence == on(9, 5)


def test_feed_is_counted_to_the_milligram(farm_store: Store):
    with frozen("2026-10-14"):
        unit = a_unit(farm_store)
        a_chore(farm_store, "Empty the bin", "2 fed", on(3, 1), unit_id=unit.id)
        assert everything_stored(farm_store)["chore"][0]["rule_words"] == "every 2 lb fed"
        use(farm_store, unit, Counter.FEED, mass("2 lb").exact - 1, on(9, 1))
        assert due(farm_store) is None
        use(farm_store, unit, Counter.FEED, 1, on(9, 2))
        assert due(farm_store) == on(9, 2)


def test_a_chore_by_use_belongs_where_use_is_counted(farm_store: Store):
    with pytest.raises(Refused, match="belongs to a unit, bed or fish lot"):
        a_chore(farm_store, "Strip", "2000 pump hours")


def test_life_support_by_use_waits_within_the_day_only(farm_store: Store):
    with frozen("2026-10-14"):
        unit = a_unit(farm_store)
        more = {"unit_id": unit.id, "grade": ChoreClass.LIFE_SUPPORT}
        a_chore(farm_store, "Strip", "24 pump hours or 4 days", on(10, 10), **more)
        assert due(farm_store) == on(10, 14)
        settle(farm_store, 1, on(10, 14), SettledAs.DEFERRED, until=on(10, 14))
        settle(farm_store, 1, on(10, 14))
        assert due(farm_store) == on(10, 18)


def test_kilograms_fed_are_those_of_feedings_and_a_record_of_the_same_days_does_not_count_twice(farm_store: Store):
    with frozen("2026-10-14"):
        unit, other = a_unit(farm_store), a_unit(farm_store, "ROOK")
        lot = stock(farm_store, unit)
        a_chore(farm_store, "Empty the bin", "2 lb fed", on(9, 1), unit_id=unit.id)
        use(farm_store, unit, Counter.FEED, mass("1 lb").exact, on(9, 2))
        for day in (3, 4):
            record_feeding(farm_store, NewFeeding(lot.id, on(9, day), mass("9 oz")), by=ADA)
        assert due(farm_store) == on(9, 4)
        take_back(farm_store)
        use(farm_store, unit, Counter.FEED, mass("9 oz").exact, on(9, 5))
        with farm_store.reading() as reader:
            counted = used_in(reader, [unit.id])[unit.id, Counter.FEED]
        assert counted == [Use(on(9, 2), mass("1 lb").exact), Use(on(9, 3), mass("9 oz").exact)]
        record_feeding(farm_store, NewFeeding(lot.id, on(9, 6), mass("9 oz")), by=ADA)
        assert due(farm_store) == on(9, 6)
        move_lot(farm_store, NewPlace(lot.id, other.id, on(9, 3)), by=ADA)
        assert_due_dates_hold(farm_store)
        with farm_store.reading() as reader:
            assert [one.amount for one in used_in(reader, [other.id])[other.id, Counter.FEED]] == [
                mass("9 oz").exact
            ] * 2


def test_feed_that_runs_low_calls_until_more_is_bought_or_found(farm_store: Store):
    with frozen("2026-10-14"):
        pellets = add_supply(farm_store, NewSupply("pellets", reorder=mass("10 lb")), by=ADA)
        a_chore(farm_store, "Order feed", "when supply to reorder", on(1, 1))
        assert due(farm_store) is None
        for day, amount in ((on(10, 1), "30 lb"), (on(10, 14), "30 lb")):
            buy_supply(farm_store, NewSupplyLot(pellets.id, day, mass(amount)), by=ADA)
        use_supply(farm_store, NewSupplyUse(pellets.id, on(10, 10), mass("20 lb")), by=ADA)
        assert due(farm_store) is None
        take_back(farm_store)
        remove_record(farm_store, Removal("bought supplies", 2), by=ADA)
        use_supply(farm_store, NewSupplyUse(pellets.id, on(10, 10), mass("20 lb")), by=ADA)
        found = stands(farm_store, on(10, 14))
        assert found is not None
        assert (found.due, found.holdings[0].why) == (on(10, 10), "10 lb of pellets left, to reorder")
        change_supply(farm_store, SupplyChange(pellets.id, reorder=mass("9 lb")), by=ADA)
        assert due(farm_store) is None
        use_supply(farm_store, NewSupplyUse(pellets.id, on(10, 12), mass("5 lb")), by=ADA)
        assert due(farm_store) == on(10, 12)
        count = NewSupplyUse(pellets.id, on(10, 12), mass("12 lb"), kind=Movement.COUNTED)
        use_supply(farm_store, count, by=ADA)
        assert due(farm_store) is None
