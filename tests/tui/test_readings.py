"""Readings in the interface: a line for each below the list, judged as typed; a row of them; a sheet booked back."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.model.journal import Through
from farmops.model.readings import FRESH_DAYS, Form, Reading
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.round import RoundLine, round_of
from farmops.reports.water import series_of
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.series import Series
from farmops.tui.widgets.field_box import FieldBox
from farmops.tui.widgets.field_lines import FieldLines
from farmops.tui.widgets.forms import FormScreen
from tests import farmhand as hand
from tests.tui.demo import (
    LARGE,
    SIZES,
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
    until_water_is_known,
)

TEST = "Test ammonia, nitrite, pH after stocking"
TODAY = date(2026, 10, 14)


def readings(store: Store) -> list[Reading]:
    return [line.reading for line in series_of(store, date.min, date.max)]


class New:
    """What was read since the test began, in the order it was booked."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.known = {one.id for one in readings(store)}

    @property
    def readings(self) -> list[Reading]:
        """The readings themselves."""
        return sorted((one for one in readings(self.store) if one.id not in self.known), key=lambda one: one.id)

    def __call__(self) -> list[tuple[str, str]]:
        """What of and as what they were typed."""
        return [(one.measure.value, one.typed) for one in self.readings]


@pytest.fixture
def new(demo_store: Store) -> New:
    """Nothing was read yet."""
    return New(demo_store)


def unit_called(store: Store, code: str) -> object:
    return next(line.unit for line in lists.units(store) if line.unit.code == code)


def due(store: Store, title: str) -> list[RoundLine]:
    return [line for line in round_of(store).due if line.chore.title.startswith(title)]


def lines_of(pilot: Driver) -> FieldLines:
    return frame_of(pilot.app).place.query_one(FieldLines)


async def open_lines(pilot: Driver, title: str = TEST) -> FieldLines:
    """Walk to a chore that asks for readings, and press Space."""
    await go_to_chore(pilot, title)
    await until_water_is_known(pilot)
    await press(pilot, "space")
    lines = lines_of(pilot)
    await until(pilot, lambda: lines.opened and any(box.has_focus_within for box in lines.boxes), "lines to read in")
    return lines


async def test_space_opens_a_line_for_each_reading_and_the_last_enter_is_done(
    demo_place: str, demo_store: Store, new: New
) -> None:
    async with running(demo_place) as pilot:
        lines = await open_lines(pilot)
        assert [box.field.label for box in lines.boxes] == ["ammonia", "nitrite", "pH", "temperature"]
        assert due(demo_store, TEST)
        await press(pilot, *"0.25", "enter", *"0", "enter", *"7.1", "enter", *"14", "enter")
        await until_seen(pilot, f"Done: {TEST}, TEAL.")
        assert not lines.opened
        assert listing_of(pilot.app).has_focus
    assert new() == [("ammonia", "0.25"), ("nitrite", "0"), ("pH", "7.1"), ("temperature", "14")]
    assert {one.unit for one in new.readings} == {"TEAL"}
    assert not due(demo_store, TEST)
    assert (last_journal(demo_store).name, last_journal(demo_store).through) == ("settle chores", Through.SCREEN)


async def test_one_undo_takes_back_the_doing_and_what_was_read(demo_place: str, demo_store: Store, new: New) -> None:
    async with running(demo_place) as pilot:
        await open_lines(pilot)
        await press(pilot, *"0.25", "enter", "enter", "enter", "enter")
        await until_seen(pilot, "Not read: nitrite, pH, temperature.")
        assert new() == [("ammonia", "0.25")]
        await press(pilot, "u")
        await until_seen(pilot, "Taken back: settle chores")
    assert new() == []
    assert due(demo_store, TEST)


async def test_keys_typed_ahead_land_in_the_lines_they_are_meant_for(
    demo_place: str, demo_store: Store, new: New
) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, TEST)
        await until_water_is_known(pilot)
        await pilot.press("space", *"0.5", "enter", *"0.1", "enter", *"7", "enter", *"13.5", "enter")
        await until_seen(pilot, f"Done: {TEST}, TEAL.")
    assert new() == [("ammonia", "0.5"), ("nitrite", "0.1"), ("pH", "7"), ("temperature", "13.5")]


async def test_space_before_the_water_is_known_opens_the_lines_when_it_is(
    demo_place: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("farmops.tui.screens.chores.AFTER_PAINT_SECONDS", 0.6)
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, TEST)
        await press(pilot, "space")
        await until_seen(pilot, "Looking up what was read last ...")
        await until(pilot, lambda: frame_of(pilot.app).place.query(FieldLines), "lines to read in")
        await until(pilot, lambda: lines_of(pilot).opened and lines_of(pilot).boxes[0].has_focus_within, "the cursor")


@pytest.mark.parametrize("size", [*SIZES, (60, 20)], ids=str)
async def test_a_reading_out_of_range_says_at_once_what_it_means_and_what_to_do(
    demo_place: str, size: tuple[int, int]
) -> None:
    async with running(demo_place, size=size) as pilot:
        await open_lines(pilot)
        await press(pilot, *"1.5")
        await until_seen(pilot, "! harmful for rainbow trout: above 0.5 (from memory). First: no feed, air on full")
        await press(pilot, "backspace", "backspace", "backspace", *"0.25")
        await until(pilot, lambda: "harmful" not in on_screen(pilot.app), "no warning any more")


async def test_ammonia_is_judged_anew_when_ph_and_temperature_are_typed(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await open_lines(pilot)
        await press(pilot, *"0.4", "enter", "enter", *"8.6", "enter")
        assert "toxic ammonia" not in on_screen(pilot.app)
        await press(pilot, *"16")
        await until_seen(pilot, "! harmful for fish: 0.051 mg/L toxic ammonia, above 0.05.")


async def test_what_is_bad_is_said_once_more_when_it_is_booked(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await open_lines(pilot)
        await press(pilot, *"1.5", "enter", *"0", "enter", *"7", "enter", *"21", "enter")
        await until_seen(pilot, "Done:", "! temperature 21: dangerous for rainbow trout: above 18.0 °C")


async def test_escape_gives_up_and_what_was_typed_is_there_again(demo_place: str, demo_store: Store, new: New) -> None:
    async with running(demo_place) as pilot:
        lines = await open_lines(pilot)
        await press(pilot, *"0.25", "enter", *"0.1", "escape")
        await until_seen(pilot, "Not done yet. What you typed is there again with Space.")
        assert not lines.opened
        assert due(demo_store, TEST)
        assert new() == []
        await open_lines(pilot)
        assert [box.text for box in lines.boxes] == ["0.25", "0.1", "", ""]
        assert lines.boxes[2].has_focus_within
        await press(pilot, "enter", "enter")
        await until_seen(pilot, "Done:")
        assert new() == [("ammonia", "0.25"), ("nitrite", "0.1")]
        assert not pilot.app.drafts  # type: ignore[attr-defined]


async def test_a_draft_is_of_one_chore_alone(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        lines = await open_lines(pilot)
        await press(pilot, *"0.25", "escape")
        await open_lines(pilot, "Test ammonia, nitrite, pH, temperature")
        assert [box.text for box in lines.boxes] == ["", "", "", ""]
        await press(pilot, *"3", "escape")
        await press(pilot, "home")
        await open_lines(pilot)
        assert lines.boxes[0].text == "0.25"


async def test_walking_away_shuts_the_lines_and_keeps_what_was_typed(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        lines = await open_lines(pilot)
        await press(pilot, *"0.25", "f4")
        await go_to(pilot, "chores")
        assert lines.boxes[1].has_focus_within
        listing_of(pilot.app).focus()
        await press(pilot, "down")
        assert not lines.opened
        await press(pilot, "up", "space")
        await until(pilot, lambda: lines.opened and lines.boxes[0].text == "0.25", "the draft")


async def test_what_cannot_be_is_refused_in_its_line(demo_place: str, demo_store: Store, new: New) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        lines = await open_lines(pilot)
        await press(pilot, "tab", "tab", *"19", "enter")
        await until_seen(pilot, '! pH: "19" cannot be: pH lies within 0 to 14. Understood: 7.2, <6.')
        assert lines.boxes[2].has_focus_within
        await press(pilot, "shift+tab", "up", *"x", "enter", "enter", "enter", "enter")
        await until_seen(pilot, '! ammonia: "x" is no number.')
        assert lines.opened
    assert new() == []


async def test_an_unlikely_reading_is_asked_about_once_and_kept_by_enter(
    demo_place: str, demo_store: Store, new: New
) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        lines = await open_lines(pilot)
        await press(pilot, "down", "down", *"10", "enter")
        await until_seen(pilot, "! pH 10, is that right? Readings are 4.5 to 9.5 as a rule. Enter again keeps it.")
        assert lines.boxes[2].has_focus_within
        await press(pilot, "enter")
        assert lines.boxes[3].has_focus_within
        await press(pilot, "enter")
        await until_seen(pilot, "Done:")
    assert new() == [("pH", "10")]


async def test_an_unlikely_reading_that_was_only_left_is_asked_about_before_it_is_booked(
    demo_place: str, new: New
) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        lines = await open_lines(pilot)
        await press(pilot, "tab", "tab", *"10", "tab", "enter")
        await until_seen(pilot, "! pH 10, is that right?")
        assert lines.opened
        assert lines.boxes[2].has_focus_within
        assert new() == []
        await press(pilot, "enter", "enter")
        await until_seen(pilot, "Done:")
    assert new() == [("pH", "10")]


async def test_the_kit_is_remembered(demo_place: str, demo_store: Store, new: New) -> None:
    teal = unit_called(demo_store, "TEAL")
    hand.read(demo_store, teal, hand.on(10, 13), nitrite="0.3 ion")  # type: ignore[arg-type]
    async with running(demo_place, size=LARGE) as pilot:
        await open_lines(pilot)
        await until_seen(pilot, "as ion; last 0.3 ion, 13 Oct")
        await press(pilot, "tab", *"0.5", "enter", "enter", "enter")
        await until_seen(pilot, "Done:")
    assert [one.form for one in new.readings] == [Form.AS_ION, Form.AS_ION]


async def test_a_confirmation_is_asked_for_after_the_last_reading(demo_place: str, demo_store: Store, new: New) -> None:
    teal = unit_called(demo_store, "TEAL")
    hand.a_chore(
        demo_store,
        "Time the siphon",
        "day",
        TODAY,
        unit_id=teal.id,  # type: ignore[attr-defined]
        readings=("fill time", "rust"),
        confirmation="ten cycles seen",
    )
    async with running(demo_place) as pilot:
        lines = await open_lines(pilot, "Time the siphon")
        assert [box.field.label for box in lines.boxes] == ["fill time"]
        await press(pilot, *"11:30", "enter")
        await until_seen(pilot, "Time the siphon, TEAL: ten cycles seen?")
        await press(pilot, "escape")
        assert due(demo_store, "Time the siphon")
        await press(pilot, "space")
        await until(pilot, lambda: lines.opened and lines.boxes[0].text == "11:30", "what was typed")
        await press(pilot, "enter", "enter")
        await until_seen(pilot, "Done: Time the siphon, TEAL.")
    assert new() == [("fill time", "11:30")]


async def test_words_of_a_chore_that_are_no_measures_open_nothing(demo_place: str, demo_store: Store) -> None:
    teal = unit_called(demo_store, "TEAL")
    hand.a_chore(demo_store, "Look for rust", "day", TODAY, unit_id=teal.id, readings=("rust",))  # type: ignore[attr-defined]
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, "Look for rust")
        await press(pilot, "space")
        await until_seen(pilot, "Done: Look for rust, TEAL. u takes it back.")


async def test_the_row_of_units_shows_how_warm_the_water_is(demo_place: str, demo_store: Store) -> None:
    siskin, dipper = unit_called(demo_store, "SISKIN"), unit_called(demo_store, "DIPPER")
    hand.read(demo_store, siskin, TODAY, temperature="12.3 C")  # type: ignore[arg-type]
    hand.read(demo_store, dipper, hand.on(10, 14 - FRESH_DAYS - 1), temperature="15.0 C")  # type: ignore[arg-type]
    async with running(demo_place) as pilot:
        foot = seen(pilot.app)[5]
        assert foot.startswith("┗━━━━━━━━┛ └ 15.2 C ┘ └ 15.1 C ┘")
        assert foot.endswith("└ 12.3 C ┘ └────────┘")
        await pilot.resize_terminal(60, 20)
        await until_seen(pilot, "1 WREN")


async def test_the_latest_readings_stand_among_the_fish_and_enter_shows_the_series(
    demo_place: str, demo_store: Store, new: New
) -> None:
    teal = unit_called(demo_store, "TEAL")
    hand.read(demo_store, teal, hand.on(10, 12), nitrite="0.6 N", ph="7.0", minute=450)  # type: ignore[arg-type]
    hand.read(demo_store, teal, hand.on(10, 13), nitrite="0.05 N")  # type: ignore[arg-type]
    async with running(demo_place) as pilot:
        await go_to(pilot, "fish")
        await until_seen(pilot, "Water, latest readings")
        await until(pilot, lambda: listing_of(pilot.app).go_to(f"reading {new.readings[-1].id}"), "the reading")
        await until_seen(pilot, "0.05 mg/L as N")
        await press(pilot, "enter")
        await until_seen(pilot, "TEAL nitrite", "2026-10-12", "0.6 mg/L as N")
        assert isinstance(pilot.app.screen, Series)
        await press(pilot, "down")
        await until_seen(pilot, "First: no feed, air on full, change part of the water.")
        await press(pilot, "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen), "the form")
        await press(pilot, *["backspace"] * 5, *"0.06", "f2")
        await until_seen(pilot, "TEAL nitrite of Mon 12 Oct 2026 changed.")
        await press(pilot, "x")
        await until_seen(pilot, "Reading removed. u brings it back.")
        await press(pilot, "escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, Frame), "back")
    assert new() == [("pH", "7.0"), ("nitrite", "0.05 N")]


async def test_r_books_a_row_of_readings_of_the_unit_under_the_cursor(
    demo_place: str, demo_store: Store, new: New
) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "fish")
        await press(pilot, "r")
        await until_seen(pilot, "Readings of WREN")
        await press(pilot, *"6.8", "enter", *"15", "f2")
        await until_seen(pilot, "Booked: WREN pH 6.8, temperature 15. u takes it back.")
        await press(pilot, "c")
        await until_seen(pilot, "Close PERCH-24")
    assert new() == [("pH", "6.8"), ("temperature", "15")]


async def test_a_reading_is_no_lot_to_close(demo_place: str, demo_store: Store, new: New) -> None:
    hand.read(demo_store, unit_called(demo_store, "TEAL"), hand.on(10, 13), ph="7")  # type: ignore[arg-type]
    async with running(demo_place) as pilot:
        await go_to(pilot, "fish")
        await until(pilot, lambda: listing_of(pilot.app).go_to(f"reading {new.readings[0].id}"), "the reading")
        await press(pilot, "c")
        await until_seen(pilot, "! Stand on the line of a fish lot to book that none are left.")


async def open_sheet(pilot: Driver, store: Store) -> dict[str, FieldBox]:
    """Press b; the lines of a look round, of a test and of the pump intake."""
    await press(pilot, "b")
    await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen), "the sheet")
    form = pilot.app.screen
    assert isinstance(form, FormScreen)
    titles = {"look": "Look round: flow", "test": TEST, "pump": "Clear the pump intake"}
    return {name: form.box(f"chore_{due(store, title)[0].chore.id}") for name, title in titles.items()}


async def write(pilot: Driver, box: FieldBox, text: str) -> None:
    """Type a line of the sheet."""
    box.focus_input()
    await press(pilot, *text)


async def test_a_sheet_is_booked_back_line_by_line_and_taken_back_at_once(
    demo_place: str, demo_store: Store, new: New
) -> None:
    before = len(round_of(demo_store).due)
    async with running(demo_place) as pilot:
        lines = await open_sheet(pilot, demo_store)
        assert lines["look"].has_focus_within
        await press(pilot, *"4 min flow", "enter")
        await write(pilot, lines["test"], "7 min ph=6.9 amm=0.25")
        await write(pilot, lines["pump"], "skip no time")
        await press(pilot, "f2")
        await until_seen(pilot, "Booked back: 3 chores. u takes the whole sheet back.")
        assert new() == [("pH", "6.9"), ("ammonia", "0.25")]
        assert len(round_of(demo_store).due) == before - 3
        await press(pilot, "u")
        await until_seen(pilot, "Taken back: book back sheet")
    assert len(round_of(demo_store).due) == before
    assert new() == []


async def test_each_line_of_the_sheet_answers_as_it_is_typed(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        lines = await open_sheet(pilot, demo_store)
        await write(pilot, lines["test"], "nitrite=2 9 min")
        await until_seen(pilot, "= done, 9 min, nitrite 2; not read: ammonia, pH, temperature")
        await until_seen(pilot, "! nitrite harmful for rainbow trout: 6.57 mg/L as ion, above 0.3 (from memory).")
        await write(pilot, lines["pump"], "all good")
        await press(pilot, "enter")
        await until_seen(pilot, "! 'all good' is not understood. Clear the pump intake insists on: flow seen.")


async def test_a_line_that_is_refused_holds_back_the_sheet_and_nothing_typed_is_lost(
    demo_place: str, demo_store: Store, new: New
) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        lines = await open_sheet(pilot, demo_store)
        await write(pilot, lines["look"], "x")
        await write(pilot, lines["test"], "ph=7")
        await press(pilot, "f2")
        await until_seen(pilot, "! Not booked.", "asks for a confirmation: flow seen.")
        assert new() == []
        await press(pilot, "escape")
        lines = await open_sheet(pilot, demo_store)
        await until_seen(pilot, "Filled in with what you typed before you left.")
        assert (lines["look"].text, lines["test"].text, lines["pump"].text) == ("x", "ph=7", "")
        lines["look"].text = "flow"
        await press(pilot, "f2")
        await until_seen(pilot, "Booked back: 2 chores.")
    assert new() == [("pH", "7")]


async def test_an_unlikely_reading_on_the_sheet_is_asked_about_once(
    demo_place: str, demo_store: Store, new: New
) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        lines = await open_sheet(pilot, demo_store)
        await write(pilot, lines["test"], "ph=10.5")
        await press(pilot, "f2")
        await until_seen(pilot, "pH 10.5, is that right?")
        assert new() == []
        await press(pilot, "f2")
        await until_seen(pilot, "Booked back: 1 chore.")
    assert new() == [("pH", "10.5")]


async def test_an_empty_sheet_books_nothing(demo_place: str, demo_store: Store) -> None:
    before = last_journal(demo_store)
    async with running(demo_place) as pilot:
        await open_sheet(pilot, demo_store)
        await press(pilot, "f2")
        await until_seen(pilot, "! Not booked: no line says anything yet. x is done.")
    assert last_journal(demo_store) == before
