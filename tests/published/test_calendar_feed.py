"""The iCalendar file against RFC 5545: its own examples expanded from it by another program, and what it asks for."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from icalendar import Todo

from farmops.exchange.feed import write_feed
from farmops.model.chores import ChoreClass, SettledAs
from farmops.records.store import Store
from tests.exchange.calendars import days_of, titled, todos
from tests.farmhand import a_chore, open_farm, settle
from tests.frozen import frozen
from tests.labels import published
from tests.published.test_recurrence import IN_THE_RFC

TODAY = date(1996, 1, 1)
"""Before the first of the examples."""
SECTION = "RFC 5545, section 3.6.2"


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def farm(store: Store) -> Store:
    open_farm(store)
    return store


def written(store: Store, folder: Path) -> bytes:
    return write_feed(store, str(folder / "chores.ics"), on=TODAY).file.read_bytes()


@pytest.fixture
def of_every_kind(farm: Store, tmp_path: Path) -> list[Todo]:
    """To-dos that recur, are due once, were put off, done and left out."""
    for rule in ("day", "Mon", "month on the 31st", "14 days after", "once"):
        a_chore(farm, rule, rule, TODAY)
    done = a_chore(farm, "done", "day", TODAY)
    settle(farm, done, TODAY)
    settle(farm, a_chore(farm, "left out", "day", TODAY), TODAY, SettledAs.SKIPPED, reason="frost", confirmed=None)
    later = TODAY + timedelta(days=3)
    settle(farm, a_chore(farm, "put off", "Mon", TODAY), TODAY, SettledAs.DEFERRED, until=later, confirmed=None)
    return todos(written(farm, tmp_path))


@published("RFC 5545, section 3.8.5.3", note="expanded from the file by dateutil; days alone, those without EXDATE")
def test_the_examples_of_the_rfc_come_out_of_the_file(farm: Store, tmp_path: Path) -> None:
    examples = [row for row in IN_THE_RFC if not row[4]]
    assert len(examples) == 32
    for name, start, _, rrule, *_ in examples:
        with frozen(start):
            a_chore(farm, name, rrule, date.fromisoformat(start), literal=True)
    content = written(farm, tmp_path)
    for name, _, _, _, _, expected, complete in examples:
        wanted = [date.fromisoformat(day) for day in expected.split()]
        assert days_of(titled(content, name), len(wanted) + (complete == "yes")) == wanted, name


@published(
    f"{SECTION} and 3.8.2.3", note="DUE is later than DTSTART, of the same value type, and the day it ends before"
)
def test_a_day_begins_with_dtstart_and_is_over_with_due(of_every_kind: list[Todo]) -> None:
    assert len(of_every_kind) == 11
    for todo in of_every_kind:
        assert todo["DUE"].params["VALUE"] == todo["DTSTART"].params["VALUE"] == "DATE"
        assert todo["DUE"].dt == todo["DTSTART"].dt + timedelta(days=1)
        assert "DURATION" not in todo


@published(f"{SECTION} and 3.8.2.1", note="its second example has COMPLETED with STATUS:NEEDS-ACTION")
def test_what_is_completed_says_so_in_both_ways_and_in_utc(of_every_kind: list[Todo]) -> None:
    completed = [todo for todo in of_every_kind if "COMPLETED" in todo]
    assert [str(todo["STATUS"]) for todo in completed] == ["COMPLETED"]
    assert [todo["COMPLETED"].to_ical() for todo in completed] == [b"19960101T160000Z"]
    assert {str(todo.get("STATUS", "")) for todo in of_every_kind} == {"", "COMPLETED", "CANCELLED"}


@published(SECTION, note="what must be there once; DTSTART where there is an RRULE; at most one RRULE")
def test_each_to_do_has_what_the_rfc_asks_for(of_every_kind: list[Todo]) -> None:
    for todo in of_every_kind:
        assert [name for name in ("UID", "DTSTAMP", "DTSTART") if isinstance(todo.get(name), list | None)] == []
        assert not isinstance(todo.get("RRULE"), list)


@published("RFC 5545, section 3.8.1.9", note="1 to 4 high, 5 medium, 6 to 9 low")
def test_what_keeps_fish_alive_is_high_and_paperwork_low(farm: Store, tmp_path: Path) -> None:
    for grade in ChoreClass:
        a_chore(farm, grade.value, "day", TODAY, grade=grade)
    priority = {str(todo["SUMMARY"]): int(todo["PRIORITY"]) for todo in todos(written(farm, tmp_path))}
    assert all(1 <= number <= 9 for number in priority.values())
    assert max(priority["life support"], priority["fish care"]) <= 4
    assert min(priority["upkeep"], priority["paperwork"]) >= 6
