"""The Chores place: lines that hold several chores, what insists on an answer, who is here and whose round it is."""

from __future__ import annotations

import re

import pytest

from farmops.farm.chores import add_chore
from farmops.farm.farm import change_person
from farmops.farm.presence import say_who_is_here
from farmops.model.chores import ChoreClass, NewChore, PartOfDay
from farmops.model.farm import PersonChange
from farmops.model.fish_events import Feeding
from farmops.model.presence import NewPresence
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.crew import crew_of
from farmops.reports.fish_book import book
from farmops.reports.round import round_of
from farmops.tui.screens.help import Help
from farmops.tui.widgets.question import Question
from farmops.tui.widgets.round_lines import BESIDE
from tests.tui.demo import (
    Driver,
    frame_of,
    go_to,
    go_to_chore,
    last_journal,
    listing_of,
    on_screen,
    press,
    running,
    seen,
    until,
    until_seen,
)
from tests.tui.stage import TODAY

FEEDS = "Feed the fish"
LOOK = "Look round: flow"


def due(store: Store, title: str) -> int:
    return sum(one.chore.title == title for one in round_of(store).due)


def cursor(pilot: Driver) -> str:
    """The line under the cursor, whatever section it begins."""
    listing = listing_of(pilot.app)
    own = slice(1, None) if listing.columns == BESIDE else slice(None)
    return " ".join(str(cell) for cell in listing.current.cells[own]) if listing.current else ""


def asked(pilot: Driver) -> bool:
    return frame_of(pilot.app).query_one(Question).asked


def asking(store: Store, **answer: object) -> None:
    """The same work in three units, each with an answer of its own."""
    units = [line.unit for line in lists.units(store)][:3]
    for one in units:
        entry = NewChore("Look at the flow", "day", TODAY, unit_id=one.id, part=PartOfDay.MORNING, **answer)
        add_chore(store, entry, by="Ada")


def fed_last(store: Store) -> tuple[str, str, str | None]:
    """What was fed last, and how they ate."""
    lots = [lot.id for lot in lists.fish_lots(store)]
    one = max((one for lot in lots for one in book(store, lot) if isinstance(one, Feeding)), key=lambda one: one.id)
    return one.lot, one.mass_typed, one.ate


@pytest.fixture
def minor_alone(demo_store: Store) -> None:
    """Ines is a minor, and alone here today."""
    ines = next(one for one in lists.people(demo_store) if one.name == "Ines")
    change_person(demo_store, PersonChange(ines.id, minor=True), by="Ada")
    say_who_is_here(demo_store, NewPresence(TODAY, (ines.id,)), by="Ada")


async def test_the_same_work_is_one_line_and_space_settles_it_as_one_operation(
    demo_place: str, demo_store: Store
) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        assert cursor(pilot).startswith("+ 3 units Feed the fish: WREN 2 oz, ROOK 2.3 oz, TEAL")
        await until_seen(pilot, "6 min · Space does all, Enter opens", "The ration is a ceiling")
        await press(pilot, "space")
        await until_seen(pilot, "PERCH-24 2 oz, PERCH-25 2.3 oz, TROUT-26 3.2 oz. How did they eat?")
        await press(pilot, "a")
        await until_seen(pilot, "Done: Feed the fish, 3 of them. u takes all back.")
        assert due(demo_store, FEEDS) == 0
        await press(pilot, "u")
        await until_seen(pilot, "Taken back: settle chores")
    assert due(demo_store, FEEDS) == 3


async def test_what_was_booked_another_way_since_is_asked_about_before_it_is_taken_back(
    demo_place: str, demo_store: Store
) -> None:
    async with running(demo_place) as pilot:
        one = lists.people(demo_store)[0]
        say_who_is_here(demo_store, NewPresence(TODAY, (one.id,)), by=pilot.app.by)  # type: ignore[attr-defined]
        await press(pilot, "u")
        await until_seen(pilot, "Taken back would be: who is here, 14 Oct, by command. Take it back?")
        await press(pilot, "escape")
        await until_seen(pilot, "Nothing was taken back.")
        assert len(crew_of(demo_store).here) == 1
        await press(pilot, "u")
        await until_seen(pilot, "Take it back?")
        await press(pilot, "enter")
        await until_seen(pilot, "Taken back: who is here")
    assert len(crew_of(demo_store).here) > 1


@pytest.mark.parametrize(("open_it", "shut_it"), [("enter", "enter"), ("right", "left")])
async def test_a_line_of_several_is_opened_and_shut(demo_place: str, open_it: str, shut_it: str) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        await press(pilot, open_it)
        await until_seen(pilot, "- 3 units  Feed the fish")
        assert cursor(pilot).startswith("- 3 units Feed the fish fish care")
        await press(pilot, "down")
        assert cursor(pilot).startswith("  WREN Feed the fish: 2 oz")
        await until_seen(pilot, "PERCH-24: up to 2 oz at 15.2 °C")
        if shut_it == "enter":
            await press(pilot, "up")
        await press(pilot, shut_it)
        await until_seen(pilot, "+ 3 units  Feed the fish: WREN 2 oz, ROOK 2.3 oz, TEAL")
        assert cursor(pilot).startswith("+ 3 units")
        assert frame_of(pilot.app).standing == 0


async def test_right_walks_along_the_row_from_any_other_line(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        await press(pilot, "right", "right")
        assert frame_of(pilot.app).standing == 1
        await until(pilot, lambda: cursor(pilot).startswith("WREN"), "the round of WREN, line by line")
        assert "units" not in cursor(pilot)


async def test_one_of_an_open_line_is_settled_alone(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        await press(pilot, "enter", "down", "space")
        await until_seen(pilot, "Feed the fish: PERCH-24 2 oz. How did they eat?")
        await press(pilot, "escape", "space", "o")
        await until_seen(pilot, "They ate", "57 g")
        await press(pilot, *["backspace"] * 4, *"40 g", "enter", "right", "enter")
        await until_seen(pilot, "Done: Feed the fish, WREN.")
        assert fed_last(demo_store) == ("PERCH-24", "40 g", "some")
        await until(pilot, lambda: re.search(r" ROOK +Feed the fish", on_screen(pilot.app)), "two lines again")
    assert due(demo_store, FEEDS) == 2


async def test_far_more_feed_than_the_ration_is_asked_about_once(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        for answer in ("escape", "enter"):
            await press(pilot, *(["enter", "down"] if answer == "escape" else []), "space", "o")
            await until_seen(pilot, "They ate", "57 g")
            await press(pilot, *["backspace"] * 4, *"2 lb", "enter", "right", "enter")
            await until_seen(pilot, "2 lb of feed for PERCH-24", "ration is 2 oz;", "Enter or y: yes")
            await press(pilot, answer)
        await until_seen(pilot, "Done: Feed the fish, WREN.")
    assert fed_last(demo_store) == ("PERCH-24", "2 lb", "some")
    assert due(demo_store, FEEDS) == 2


async def test_an_open_line_stays_open_when_the_round_is_read_again(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place, size=(120, 40)) as pilot:
        await go_to_chore(pilot, FEEDS)
        await press(pilot, "enter")
        add_chore(demo_store, NewChore("Oil the gate", "day", TODAY), by="Bea")
        await until_seen(pilot, "Oil the gate", "- 3 units  Feed the fish", "  ROOK")


async def test_forms_of_one_chore_want_the_line_open(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        for key in ("e", "l", "p"):
            await press(pilot, key)
            await until_seen(pilot, "! Open the line with Enter or Right, and stand on one of them.")
            await press(pilot, "up", "down")


@pytest.mark.parametrize("answer", [{"confirmation": "flow seen"}, {"readings": ("flow",)}], ids=["seen", "reading"])
@pytest.mark.parametrize("key", ["space", "a"])
async def test_what_asks_for_an_answer_each_is_opened_instead_of_settled(
    demo_place: str, demo_store: Store, answer: dict[str, object], key: str
) -> None:
    asking(demo_store, **answer)
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, "Look at the flow")
        await until_seen(pilot, "Each asks for its own answer: open it with Enter")
        await press(pilot, key)
        await until_seen(pilot, "- 3 units", "Each of them asks for an answer of its own: settle them one by one.")
    assert due(demo_store, "Look at the flow") == 3


@pytest.mark.parametrize("yes", ["enter", "y"])
async def test_a_confirmation_is_asked_for_below_the_list_and_given_by_one_key(
    demo_place: str, demo_store: Store, yes: str
) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, LOOK)
        await press(pilot, "space")
        await until_seen(pilot, "all: flow seen?", "Enter or y: yes    Esc: not yet")
        assert asked(pilot)
        await press(pilot, yes)
        await until_seen(pilot, "Done: Look round")
        assert listing_of(pilot.app).has_focus
    (settled,) = [one.settled for one in round_of(demo_store).settled]
    assert settled.confirmed == "flow seen"


@pytest.mark.parametrize("no", ["escape", "n", "f3", "h"])
async def test_without_a_yes_it_is_not_done(demo_place: str, demo_store: Store, no: str) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, LOOK)
        await press(pilot, "space", no)
        await press(pilot, "escape", "f2")
        await until(pilot, lambda: not asked(pilot), "no question any more")
        await press(pilot, "enter")
    assert not round_of(demo_store).settled


async def test_help_leaves_the_question_standing(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, LOOK)
        await press(pilot, "space")
        await until_seen(pilot, "all: flow seen?")
        await press(pilot, "?")
        await until(pilot, lambda: isinstance(pilot.app.screen, Help), "the help")
        await press(pilot, "escape")
        await until_seen(pilot, "all: flow seen?")
        await press(pilot, "y")
        await until_seen(pilot, "Done: ")
    assert round_of(demo_store).settled


async def test_space_alone_never_answers_its_own_question(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, LOOK)
        await press(pilot, "space", "space", "space")
        assert asked(pilot)
    assert not round_of(demo_store).settled


async def test_all_alike_in_two_units_are_asked_about_before_they_are_settled(
    demo_place: str, demo_store: Store
) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        await press(pilot, "enter", "down", "space", "a")
        await until_seen(pilot, "Done: Feed the fish, WREN.")
        await go_to_chore(pilot, FEEDS)
        await press(pilot, "a")
        await until_seen(pilot, "Feed the fish: PERCH-25 2.3 oz, TROUT-26 3.2 oz. How did they eat?")
        await press(pilot, "s")
        await until_seen(pilot, "Done: Feed the fish, 2 of them.")
    assert due(demo_store, FEEDS) == 0


@pytest.mark.parametrize(("key", "keys", "kind"), [("s", ("3", "enter"), "skipped"), ("d", ("2", "enter"), "deferred")])
async def test_several_are_left_out_or_put_off_with_one_word(
    demo_place: str, demo_store: Store, key: str, keys: tuple[str, ...], kind: str
) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, FEEDS)
        await press(pilot, key)
        await until_seen(pilot, "Feed the fish, WREN, ROOK, TEAL")
        await press(pilot, *keys)
        await until_seen(pilot, "u takes it back.")
    assert [one.settled.kind for one in round_of(demo_store).settled] == [kind] * 3
    assert last_journal(demo_store).name == "settle chores"


async def test_who_is_here_is_said_by_one_key(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "i")
        await until_seen(pilot, "Who is here", "Maren", "As planned", "Wed 14 Oct 2026")
        await press(pilot, "left", "f2")
        await until_seen(pilot, "Here: Maren, Tobit")
    assert [one.name for one in crew_of(demo_store).here] == ["Maren", "Tobit"]


@pytest.mark.usefixtures("minor_alone")
async def test_a_minor_alone_sees_what_waits_for_an_adult(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await until_seen(pilot, "Here: Ines", "Waits for an adult", "Clear the pump intake (adults only, waits")


async def test_one_persons_round_is_chosen_by_a_digit_and_left_again(demo_place: str, demo_store: Store) -> None:
    maren, tobit = (next(one for one in lists.people(demo_store) if one.name == name) for name in ("Maren", "Tobit"))
    for person in (maren, tobit):
        entry = NewChore(f"Work of {person.name}", "day", TODAY, grade=ChoreClass.CROP, person_id=person.id)
        add_chore(demo_store, entry, by="Ada")
    async with running(demo_place, size=(120, 40)) as pilot:
        await until_seen(pilot, "Work of Maren (Maren)", "Work of Tobit (Tobit)")
        await press(pilot, "f")
        await until_seen(pilot, "Whose round?", "0 everybody", "2 Maren")
        await press(pilot, "2")
        await until_seen(pilot, "For Maren", "Work of Maren (Maren)")
        assert "Work of Tobit" not in on_screen(pilot.app)
        await press(pilot, "f", "0")
        await until_seen(pilot, "Work of Tobit (Tobit)")


async def test_somebody_who_is_not_here_has_an_empty_round_that_says_so(demo_place: str, demo_store: Store) -> None:
    maren = next(one for one in lists.people(demo_store) if one.name == "Maren")
    say_who_is_here(demo_store, NewPresence(TODAY, (maren.id,)), by="Ada")
    async with running(demo_place) as pilot:
        await press(pilot, "f", "3")
        await until_seen(pilot, "For Tobit, who is not here: nothing falls to them")


async def test_the_whole_round_of_the_invented_farm_fits_a_large_screen_and_two_pages_of_a_small_one(
    demo_place: str,
) -> None:
    for size, out_of_sight in (((120, 40), 0), ((80, 24), 11)):
        async with running(demo_place, size=size) as pilot:
            await go_to(pilot, "chores")
            listing = listing_of(pilot.app)
            assert listing.max_scroll_y <= min(out_of_sight, listing.size.height), seen(pilot.app)
