"""Many processes book at once while the interface is open: all is there, in one chain, and it shows by itself."""

from __future__ import annotations

import time
from collections.abc import Sequence
from multiprocessing.process import BaseProcess
from pathlib import Path

from farmops.farm.notes import add_note
from farmops.farm.recurring import add_recurring
from farmops.model.ids import new_id
from farmops.model.notes import NewNote
from farmops.model.recurring import NewRecurring
from farmops.records.store import Store
from farmops.reports import lists
from tests import farmhand as hand
from tests.faults.children import Log, be_ready, edit_note, pay_all, run_errands, start
from tests.faults.errands import DAY, UNITS
from tests.faults.soundness import assert_sound, assert_whole, operations
from tests.profiles import count
from tests.tui.demo import LARGE, PLACE_KEYS, Driver, frame_of, on_screen, running, until, until_seen
from tests.tui.stillness import be_still

be_still()
EACH = count(ci=15, full=1_000)
EDITS = count(ci=8, full=300)
PATIENCE_S = 1_200
TROUBLE = ("busy", "locked", "has a fault", "may be old", "does not answer")
BOOKED, ASKED = "Booked: 5 lb", "Not booked yet"
AT_THE_SCREEN = "Eve"


async def test_four_processes_book_while_the_interface_reads_along(busy: Store) -> None:
    before, lists = operations(busy), {by: [new_id() for _ in range(EACH)] for by in UNITS}
    be_ready()
    async with running(busy.place, size=LARGE, by=AT_THE_SCREEN) as pilot:
        children = [start(run_errands, busy.place, ids, by) for by, ids in lists.items()]
        lags = await look_on(pilot, busy, children)
        await until(pilot, lambda: shown(pilot) == len(operations(busy)), "what was booked last")
    assert [child.exitcode for child in children] == [0] * len(UNITS)
    booked = operations(busy)[len(before) :]
    for ids in lists.values():
        assert [id for id in booked if id in set(ids)] == ids
    weighed = len(booked) - EACH * len(UNITS)
    assert weighed == by_whom(busy).count(AT_THE_SCREEN) > 0
    assert_whole(busy)
    print(
        f"\n{EACH} each on {busy.dialect.name}, {weighed} on the screen besides; they showed there after "
        f"{sum(lags) / len(lags):.2f} s, {max(lags):.2f} s at most"
    )


async def look_on(pilot: Driver, store: Store, children: Sequence[BaseProcess]) -> list[float]:
    """Walk about and weigh until the others are done; after how many seconds it showed what they had booked."""
    lags, places = [], list(PLACE_KEYS)
    while not lags or any(child.is_alive() for child in children):
        there, since = len(operations(store)), time.monotonic()
        await until(pilot, lambda there=there: shown(pilot) >= there, "what others booked")  # type: ignore[misc]
        lags.append(time.monotonic() - since)
        place = places[len(lags) % len(places)]
        await pilot.press(PLACE_KEYS[place])
        await until(pilot, lambda place=place: frame_of(pilot.app).open_place == place, place)  # type: ignore[misc]
        await weigh_on_screen(pilot)
        told = on_screen(pilot.app)
        assert not any(word in told for word in TROUBLE), told
    return lags


async def weigh_on_screen(pilot: Driver) -> None:
    """Weigh five pounds, whatever is asked about them, and close the scale."""
    await pilot.press("h")
    await until_seen(pilot, "Weigh a harvest")
    await pilot.press("5", "space", "0", "enter")
    await until(pilot, lambda: any(words in on_screen(pilot.app) for words in (BOOKED, ASKED)), "an answer")
    if ASKED in on_screen(pilot.app):
        await pilot.press("enter")
    await until_seen(pilot, BOOKED)
    await pilot.press("escape")


def shown(pilot: Driver) -> int:
    """The number of the last operation that the screen knows of."""
    row = frame_of(pilot.app).row
    return row.seq if row else 0


def by_whom(store: Store) -> list[str]:
    """Who booked each operation."""
    with store.reading() as reader:
        return [str(row["actor"]) for row in reader.rows("SELECT actor FROM journal")]


def through(children: Sequence[BaseProcess]) -> list[int | None]:
    """How children ended."""
    for child in children:
        child.join(PATIENCE_S)
    return [child.exitcode for child in children]


def test_edits_of_one_record_by_two_at_once_all_count(busy: Store) -> None:
    note = add_note(busy, NewNote(DAY, "a", unit_id=1), by="Ada").id
    before, days = len(operations(busy)), [hand.on(6, 1 + number % 28) for number in range(EDITS)]
    texts = [f"text {number}" for number in range(EDITS)]
    edits = [(busy.place, note, "text", texts, "Ada"), (busy.place, note, "day", days, "Bea")]
    assert through([start(edit_note, *edit) for edit in edits]) == [0, 0]
    (found,) = lists.notes(busy, hand.on(1, 1), hand.on(12, 31))
    assert (found.text, found.day) == (texts[-1], days[-1])
    assert len(operations(busy)) == before + 2 * EDITS
    assert_sound(busy)


def test_what_can_be_paid_once_is_paid_once_whoever_is_quicker(busy: Store, tmp_path: Path) -> None:
    rent = add_recurring(busy, NewRecurring("stall", hand.money("2"), "day", DAY), by="Ada").id
    logs = [Log(tmp_path / by) for by in UNITS]
    children = [start(pay_all, busy.place, rent, EDITS, str(log.path), by) for log, by in zip(logs, UNITS, strict=True)]
    assert through(children) == [0] * len(UNITS)
    paid = [day for log in logs for day in log.of("done")]
    assert len(paid) == len(set(paid)) == EDITS
    refusals = [words for log in logs for words in log.of("refused")]
    assert len(refusals) == (len(UNITS) - 1) * EDITS
    assert all("is not open; the next one is of" in words for words in refusals)
    assert_sound(busy)
