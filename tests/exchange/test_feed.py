"""The chores as a calendar of to-dos: valid by RFC 5545, never a day that is none, the same from file to file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

import pytest

from farmops.exchange.feed import write_feed
from farmops.farm.chores import change_chore, pause
from farmops.model.beds import BedKind
from farmops.model.chores import Chore, ChoreChange, ChoreClass, NewPause, SettledAs
from farmops.model.errors import Refused
from farmops.model.units import UnitState
from farmops.records.store import Store
from farmops.schedule.due import upcoming
from farmops.schedule.stored import rule_from
from tests.exchange.calendars import days_of, open_todos, titled, todos
from tests.farmhand import ADA, TODAY, a_bed, a_chore, a_unit, enters, on, settle, stock, take_back
from tests.frozen import frozen

NOON_IN_NEW_YORK = datetime(2026, 10, 14, 16, tzinfo=UTC)


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def fed(farm_store: Store, tmp_path):
    """Writes the file afresh and gives its bytes."""

    def write(**how: object) -> bytes:
        return write_feed(farm_store, str(tmp_path / "chores.ics"), replace=True, **how).file.read_bytes()  # type: ignore[arg-type]

    return write


def previewed(chore: Chore, most: int) -> list[date]:
    """The days that `farmops chores preview` tells of the rule."""
    return upcoming(rule_from(chore.rule_kind, chore.rule_text, chore.start_day), most)


RULES = (
    ("day", False),
    ("2 days", False),
    ("weekday", False),
    ("Mon Thu", False),
    ("2 weeks on Mon and Sun", False),
    ("month on the 31st", False),
    ("month on the 1st and 15th", False),
    ("month on the last Friday", False),
    ("3 months on the 1st", False),
    ("year on 29 Feb", False),
    ("day 10 times", False),
    ("Mon until 2027-03-31", False),
    ("FREQ=MONTHLY;BYMONTHDAY=31", True),
    ("FREQ=YEARLY;BYMONTH=6,12;BYDAY=-1SU", True),
    ("FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=SU", True),
    ("FREQ=DAILY;INTERVAL=10;COUNT=5", True),
)


@pytest.mark.parametrize("start", [TODAY, date(2026, 10, 31), date(2027, 1, 29)])
def test_expanded_it_gives_the_days_of_the_preview(farm_store: Store, fed, start: date) -> None:
    chores = [a_chore(farm_store, rule, rule, start, literal=literal) for rule, literal in RULES]
    content = fed()
    found = {chore.title: days_of(titled(content, chore.title), 30) for chore in chores}
    assert found == {chore.title: previewed(chore, 30) for chore in chores}


def test_settled_days_lie_behind_the_others_stay(farm_store: Store, fed) -> None:
    chores = [a_chore(farm_store, rule, rule, date(2026, 2, 1), literal=literal) for rule, literal in RULES]
    for chore in chores:
        for day in [day for day in previewed(chore, 300) if day <= TODAY][-1:]:
            settle(farm_store, chore, day)
    content = fed(days=1)
    for chore in chores:
        expected = [day for day in previewed(chore, 330) if day > TODAY][:30]
        found = [todo for todo in titled(content, chore.title) if "STATUS" not in todo]
        assert (days_of(found, 30) if found else []) == expected, chore.title


def test_a_rule_after_doing_or_once_is_there_with_its_next_day_alone(farm_store: Store, fed) -> None:
    pad = a_chore(farm_store, "Change the pad", "14 days after", on(10, 1))
    a_chore(farm_store, "Order seed", "once", on(11, 2))
    assert days_of(titled(fed(), "Change the pad"), 5) == [on(10, 1)]
    assert days_of(titled(fed(), "Order seed"), 5) == [on(11, 2)]
    settle(farm_store, pad, on(10, 12))
    assert days_of([todo for todo in titled(fed(), "Change the pad") if "STATUS" not in todo], 5) == [on(10, 26)]


def test_a_due_day_is_after_its_start_and_both_are_days(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Oil the door", "day", TODAY)
    a_chore(farm_store, "Order seed", "once", on(11, 2))
    settle(farm_store, chore, TODAY)
    for todo in todos(fed()):
        assert todo["DTSTART"].params["VALUE"] == todo["DUE"].params["VALUE"] == "DATE"
        assert todo["DUE"].dt - todo["DTSTART"].dt == timedelta(days=1)


def test_what_is_late_stands_there_once_and_says_since_when(farm_store: Store, fed) -> None:
    a_chore(farm_store, "Feed", "day", on(10, 10))
    a_chore(farm_store, "Oil the door", "month on the 1st", on(9, 1))
    a_chore(farm_store, "Change the pad", "14 days after", on(10, 1))
    (feed,) = titled(fed(), "Feed")
    assert days_of([feed], 2) == [TODAY, on(10, 15)]
    assert str(feed["DESCRIPTION"]) == "Due since 2026-10-10."
    assert days_of(titled(fed(), "Oil the door"), 2) == [on(10, 1), on(11, 1)]
    assert str(titled(fed(), "Oil the door")[0]["DESCRIPTION"]) == "Due since 2026-09-01."
    assert "DESCRIPTION" not in titled(fed(), "Change the pad")[0]


def test_what_rests_without_a_known_end_is_not_there(farm_store: Store, fed) -> None:
    unit = a_unit(farm_store, state=UnitState.RESTING)
    rests = a_chore(farm_store, "Oil the door", "day", TODAY)
    late = a_chore(farm_store, "Wash", "day", on(10, 1))
    a_chore(farm_store, "Rinse", "day", TODAY, unit_id=unit.id, states=(UnitState.RUNNING,))
    a_chore(farm_store, "Feed", "day", TODAY, unit_id=unit.id, grade=ChoreClass.FISH_CARE, with_fish=True)
    a_chore(farm_store, "Sweep", "day", TODAY)
    pause(farm_store, NewPause(rests.id, TODAY), by=ADA)
    pause(farm_store, NewPause(late.id, TODAY, on(10, 20)), by=ADA)
    assert [str(todo["SUMMARY"]) for todo in open_todos(fed())] == ["Wash", "Sweep"]
    assert days_of(titled(fed(), "Wash"), 2) == [on(10, 21), on(10, 22)]
    stock(farm_store, unit, since=TODAY)
    enters(farm_store, unit, UnitState.RUNNING, on(10, 15))
    assert days_of(titled(fed(), "Rinse, WREN"), 2) == [on(10, 15), on(10, 16)]
    assert days_of(titled(fed(), "Feed, WREN"), 2) == [TODAY, on(10, 15)]


def test_a_rule_with_active_months_ends_with_them(farm_store: Store, fed) -> None:
    a_chore(farm_store, "Shade", "Mon", TODAY, months=(4, 5, 10))
    a_chore(farm_store, "Wash", "Mon", on(11, 1), months=(3, 4))
    assert days_of(titled(fed(), "Shade"), 9) == [on(10, 19), on(10, 26)]
    wash = titled(fed(), "Wash")
    assert days_of(wash, 20) == [date(2027, 3, 1), *(date(2027, 3, 1) + timedelta(weeks=n) for n in range(1, 9))]


def test_what_fell_due_in_a_rest_is_an_instance_of_its_own(farm_store: Store, fed) -> None:
    a_chore(farm_store, "Wash", "Wed", on(10, 1), months=(1, 2))
    found = titled(fed(), "Wash")
    assert [todo["RECURRENCE-ID"].dt for todo in found if "RECURRENCE-ID" in todo] == [date(2026, 12, 30)]
    assert all(todo["RECURRENCE-ID"].params["VALUE"] == "DATE" for todo in found if "RECURRENCE-ID" in todo)
    assert days_of(found, 3) == [date(2027, 1, 1), date(2027, 1, 6), date(2027, 1, 13)]
    assert {str(todo["UID"]) for todo in found} == {str(found[0]["UID"])}


def test_what_was_put_off_stands_on_its_new_day_and_the_rule_goes_on(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "Wed", TODAY)
    settle(farm_store, chore, TODAY, SettledAs.DEFERRED, until=on(10, 17))
    assert days_of(titled(fed(), "Wash"), 3) == [on(10, 17), on(10, 21), on(10, 28)]


def test_what_was_done_is_completed_at_its_instant(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "Wed", on(9, 1))
    settle(farm_store, chore, TODAY)
    settle(farm_store, chore, on(10, 7))
    done = [todo for todo in titled(fed(), "Wash") if "STATUS" in todo]
    assert [str(todo["STATUS"]) for todo in done] == ["COMPLETED", "COMPLETED"]
    assert [todo["DTSTART"].dt for todo in done] == [on(10, 7), TODAY]
    assert [todo["COMPLETED"].dt for todo in done] == [datetime(2026, 10, 7, 16, tzinfo=UTC), NOON_IN_NEW_YORK]
    assert all(todo["COMPLETED"].to_ical().endswith(b"Z") for todo in done)


def test_an_hour_is_told_only_where_it_is_known(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "day", on(10, 1))
    with frozen(on(10, 15), "03:30"):
        settle(farm_store, chore, TODAY)
        settle(farm_store, chore, on(10, 13))
    done = [todo["COMPLETED"].dt for todo in titled(fed(), "Wash") if "STATUS" in todo]
    assert done == [datetime(2026, 10, 13, 16, tzinfo=UTC), datetime(2026, 10, 15, 3, 30, tzinfo=UTC)]


def test_what_was_left_out_is_cancelled_and_says_why(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "Wed", on(10, 1))
    settle(farm_store, chore, TODAY, SettledAs.SKIPPED, reason="frost", confirmed=None)
    (left_out,) = (todo for todo in titled(fed(), "Wash") if "STATUS" in todo)
    assert str(left_out["STATUS"]) == "CANCELLED"
    assert "COMPLETED" not in left_out
    assert str(left_out["DESCRIPTION"]) == "Left out: frost"


def test_settled_ones_go_as_far_back_as_asked_for(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "day", on(10, 1))
    for day in (on(10, 5), on(10, 12), on(10, 14)):
        settle(farm_store, chore, day)

    def settled(days: int) -> list[date]:
        return [todo["DTSTART"].dt for todo in titled(fed(days=days), "Wash") if "STATUS" in todo]

    assert settled(1) == [on(10, 14)]
    assert settled(2) == [on(10, 14)]
    assert settled(3) == [on(10, 12), on(10, 14)]
    assert settled(10) == [on(10, 5), on(10, 12), on(10, 14)]


def test_what_a_chore_says_goes_along_and_comes_back(farm_store: Store, fed) -> None:
    unit = a_unit(farm_store)
    bed = a_bed(farm_store, unit, kind=BedKind.RAFT)
    a_chore(
        farm_store,
        "Clear; the, pump \\ intake",
        "day",
        TODAY,
        bed_id=bed.id,
        grade=ChoreClass.LIFE_SUPPORT,
        instructions="First, plugs out; " + "then lift the basket, " * 9,
        caution="Mains power and water: dry hands, 養魚.",
        readings=("pH", "temperature"),
        confirmation="flow seen",
        adults_only=True,
    )
    content = fed()
    (todo,) = todos(content)
    assert str(todo["SUMMARY"]) == "Clear; the, pump \\ intake, WREN-N"
    assert str(todo["LOCATION"]) == "WREN-N"
    assert [str(word) for word in todo["CATEGORIES"].cats] == ["life support"]
    assert int(todo["PRIORITY"]) == 1
    assert str(todo["DESCRIPTION"]).split("\n") == [
        "Adults only.",
        "Caution: Mains power and water: dry hands, 養魚.",
        ("First, plugs out; " + "then lift the basket, " * 9).strip(),
        "Read: pH, temperature",
        "Not done without: flow seen",
    ]
    assert todo["DTSTAMP"].dt == NOON_IN_NEW_YORK
    assert max(map(len, content.split(b"\r\n"))) <= 75


def test_priority_falls_with_how_grave_it_is(farm_store: Store, fed) -> None:
    for grade in ChoreClass:
        a_chore(farm_store, grade.value, "day", TODAY, grade=grade)
    priorities = [int(todo["PRIORITY"]) for todo in todos(fed())]
    assert priorities == sorted(set(priorities))
    assert (priorities[0], priorities[-1]) == (1, 9)


def test_a_to_do_keeps_its_id_from_file_to_file_and_no_two_share_one(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "day", TODAY)
    a_chore(farm_store, "Sweep", "day", TODAY)
    first = {str(todo["SUMMARY"]): str(todo["UID"]) for todo in todos(fed())}
    change_chore(farm_store, ChoreChange(chore.id, title="Scrub", rule="2 days"), by=ADA)
    settle(farm_store, chore, TODAY)
    later = {str(todo["SUMMARY"]): str(todo["UID"]) for todo in open_todos(fed())}
    assert later == {"Scrub": first["Wash"], "Sweep": first["Sweep"]}
    assert len({str(todo["UID"]) for todo in todos(fed())}) == 3
    done = [str(todo["UID"]) for todo in todos(fed()) if "STATUS" in todo]
    assert done == [str(todo["UID"]) for todo in todos(fed()) if "STATUS" in todo]


def test_another_farm_has_other_ids(sqlite_store: Store, postgres_store: Store, tmp_path) -> None:
    from tests.farmhand import open_farm

    found = set()
    for number, store in enumerate((sqlite_store, postgres_store)):
        open_farm(store)
        a_chore(store, "Wash", "day", TODAY)
        (todo,) = todos(write_feed(store, str(tmp_path / f"{number}.ics")).file.read_bytes())
        found.add(str(todo["UID"]))
    assert len(found) == 2


def test_what_was_undone_is_open_again(farm_store: Store, fed) -> None:
    chore = a_chore(farm_store, "Wash", "once", TODAY)
    settle(farm_store, chore, TODAY)
    assert open_todos(fed()) == []
    take_back(farm_store)
    assert [str(todo["SUMMARY"]) for todo in open_todos(fed())] == ["Wash"]
    assert len(todos(fed())) == 1


def test_a_calendar_of_nothing_is_not_written(farm_store: Store, tmp_path) -> None:
    with pytest.raises(Refused, match="Nothing written: no chore is to come"):
        write_feed(farm_store, str(tmp_path / "none.ics"))
    assert not (tmp_path / "none.ics").exists()


def test_nothing_in_it_is_of_no_standard(farm_store: Store, fed) -> None:
    a_chore(farm_store, "Wash", "Wed", TODAY, caution="Wet floor.")
    names = {line.split(":")[0].split(";")[0] for line in fed().decode().splitlines() if not line.startswith(" ")}
    assert "DESCRIPTION" in names
    assert not [name for name in names if name.startswith("X-")]
