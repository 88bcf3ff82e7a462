"""Plain SQL with named parameters means the same on both databases, and rows come back as what they are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal
from enum import StrEnum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.ids import new_id
from farmops.model.units import UnitState
from farmops.records.dialects import pyformat
from farmops.records.journal import JournalRow
from farmops.records.reading import converter, day, instant, maker
from farmops.records.store import Store
from tests.records.examples import DAY, write, write_one_of_each


@dataclass(frozen=True, slots=True)
class Someone:
    id: int
    name: str
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Lived:
    state: UnitState
    from_day: date
    tank_ml: int | None


@pytest.mark.parametrize(
    ("written", "wanted"),
    [
        ("SELECT :a", "SELECT %(a)s"),
        ("SELECT :a, :a_b2", "SELECT %(a)s, %(a_b2)s"),
        ("SELECT x::date", "SELECT x::date"),
        ("SELECT :a::date", "SELECT %(a)s::date"),
        ("LIKE '50%' AND x = :x", "LIKE '50%%' AND x = %(x)s"),
        ("to_char(d, 'HH24:MI')", "to_char(d, 'HH24:MI')"),
        ("WHERE a<:b", "WHERE a<%(b)s"),
    ],
)
def test_placeholders_as_psycopg_wants_them(written: str, wanted: str) -> None:
    assert pyformat(written) == wanted


def test_percent_signs_and_colons_are_themselves(store: Store) -> None:
    write(store, "person", name="50% :name ::x")
    with store.reading() as reader:
        query = "SELECT name FROM person WHERE name LIKE '50%' AND name = :name"
        assert reader.value(query, name="50% :name ::x") == "50% :name ::x"
        assert reader.value("SELECT name FROM person WHERE name LIKE '50%'") == "50% :name ::x"
        assert reader.value("SELECT COUNT(*) FROM person WHERE name LIKE '%y%'") == 0


def test_casts_reach_postgres(postgres_store: Store) -> None:
    with postgres_store.reading() as reader:
        assert reader.value("SELECT :text::date + 1", text="2026-05-03") == date(2026, 5, 4)


def test_the_same_parameter_may_stand_twice_and_text_is_never_sql(store: Store) -> None:
    hostile = "x'; DROP TABLE person; --"
    write(store, "person", name=hostile)
    with store.reading() as reader:
        assert reader.all(Someone, "SELECT id, name FROM person WHERE name = :n OR note = :n", n=hostile) == [
            Someone(1, hostile)
        ]


def test_rows_become_dataclasses_with_days_and_words(store: Store) -> None:
    write_one_of_each(store)
    query = """
        SELECT state, from_day, tank_ml FROM unit_state JOIN unit ON unit.id = unit_state.unit_id
        WHERE from_day >= :since AND state = :state
    """
    with store.reading() as reader:
        found = reader.one(Lived, query, since=DAY, state=UnitState.RUNNING)
        assert found == Lived(UnitState.RUNNING, DAY, 700_000)
        assert found is not None
        assert type(found.from_day) is date
        assert type(found.state) is UnitState
        assert reader.one(Lived, query, since=DAY + timedelta(days=1), state=UnitState.RUNNING) is None


def test_sums_are_whole_numbers_on_both(store: Store) -> None:
    write_one_of_each(store)
    with store.reading() as reader:
        found = reader.one(Someone, "SELECT SUM(mass_mg) AS id, 'x' AS name FROM harvest")
    assert found is not None
    assert type(found.id) is int


def test_nothing_found_is_none(store: Store) -> None:
    with store.reading() as reader:
        assert reader.value("SELECT name FROM person") is None
        assert list(reader.rows("SELECT name FROM person")) == []
        assert reader.all(Someone, "SELECT id, name FROM person") == []


def test_a_column_without_a_field_is_a_defect() -> None:
    with pytest.raises(KeyError, match="Someone has no field for"):
        maker(Someone, ("id", "name", "age"))


def test_a_field_without_a_column_takes_its_default() -> None:
    assert maker(Someone, ("name", "id"))([("Ada", 3), ("Bo", 4)]) == [Someone(3, "Ada"), Someone(4, "Bo")]
    assert maker(Someone, ("note", "id", "name"))([("early", 3, "Ada")]) == [Someone(3, "Ada", "early")]


def test_a_field_that_is_left_out_before_others_takes_its_default() -> None:
    @dataclass(frozen=True, slots=True)
    class Crate:
        id: int
        note: str = "none"
        grams: int = 0

    assert maker(Crate, ("grams", "id"))([(5, 3)]) == [Crate(3, "none", 5)]


def test_what_no_column_can_be_is_a_defect() -> None:
    with pytest.raises(TypeError, match="no column can become"):
        converter(list)


class Word(StrEnum):
    ONE = "one"


@pytest.mark.parametrize(
    ("hint", "given_by_driver", "wanted"),
    [
        (int, Decimal(3), 3),
        (float, Decimal("1.5"), 1.5),
        (bool, 1, True),
        (bool, False, False),
        (Word, "one", Word.ONE),
        (Word | None, None, None),
        (int | None, 0, 0),
        (date, "2026-05-03", date(2026, 5, 3)),
        (date | None, date(2026, 5, 3), date(2026, 5, 3)),
        (datetime, "2026-05-03 16:00:00.000001", datetime(2026, 5, 3, 16, 0, 0, 1, tzinfo=UTC)),
    ],
)
def test_values_become_what_the_field_says(hint: object, given_by_driver: object, wanted: object) -> None:
    for column in ([given_by_driver], [given_by_driver, None], [None, given_by_driver, given_by_driver]):
        found = converter(hint)(column)
        assert found == [None if value is None else wanted for value in column]
        assert {type(value) for value in found} <= {type(wanted), type(None)}


def test_a_word_that_is_no_longer_known_is_not_passed_on() -> None:
    with pytest.raises(ValueError, match="two"):
        converter(Word)(["one", "two"])


def test_an_instant_of_another_zone_comes_in_utc() -> None:
    there = datetime(2026, 5, 3, 16, tzinfo=timezone(timedelta(hours=-4)))
    (found,) = converter(datetime)([there])
    assert found == there
    assert found.tzinfo is UTC


@given(st.dates())
def test_a_day_is_read_as_it_was_written(written: date) -> None:
    assert day(written.isoformat()) == day(written) == written


@given(st.datetimes(), st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes))))
def test_an_instant_is_read_in_utc(naive: datetime, zone: timezone) -> None:
    bare = naive.isoformat(sep=" ")
    assert instant(bare) == naive.replace(tzinfo=UTC)
    if date(1, 1, 3) < naive.date() < date(9999, 12, 29):
        aware = naive.replace(tzinfo=zone)
        assert instant(aware) == aware
        assert instant(aware).tzinfo is UTC


def test_instants_are_aware_and_utc_on_both(store: Store) -> None:
    wanted = datetime(2026, 5, 3, 9, 30, 0, 250_001, tzinfo=timezone(timedelta(hours=-4)))
    values = dict.fromkeys(JournalRow.model_fields, "x") | {"seq": 1, "hash": "0" * 64, "at": wanted}
    with store.writing(new_id()) as transaction:
        transaction.session.add(JournalRow(**values))
        transaction.session.flush()
        transaction.session.expire_all()
        kept = transaction.session.get(JournalRow, 1)
        assert kept is not None
        assert kept.at == wanted
        assert kept.at.tzinfo is UTC
    with store.reading() as reader:
        assert instant(reader.value("SELECT at FROM journal")) == wanted
