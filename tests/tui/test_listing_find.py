"""Finding in a list: by words in any order, case and accent, typed into the bar under it or given."""

from __future__ import annotations

from farmops.tui.widgets.listing import Bar, Column, Heading, Item, Line, Spark
from tests.tui.listing_stage import CHORE_COLUMNS, CHORES, ONE_COLUMN, Stage, numbered

SIZE = (80, 14)


async def test_all_words_must_be_in_the_line_in_any_order() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=SIZE) as pilot:
        app.listing.filter("support  CLEAR")
        await pilot.pause()
        assert [line.split()[0] for line in app.seen() if line] == ["Late", "▸", "1"]
        assert app.seen()[13] == "  1 of 5 hold: support CLEAR"
        app.listing.filter("")
        await pilot.pause()
        assert app.seen()[0].startswith("  all")
        assert app.key == "intake"
        assert "hold:" not in app.text()


async def test_accents_and_case_do_not_matter_on_either_side() -> None:
    app = Stage(ONE_COLUMN, [Line("1", ("Crème de SALADE",)), Line("2", ("Straße",)), Line("3", ("cafe\u0301",))])
    async with app.run_test(size=SIZE) as pilot:
        for wanted, found in (("creme", "1"), ("SALÀDE", "1"), ("strasse", "2"), ("CAFÉ", "3")):
            app.listing.filter(wanted)
            await pilot.pause()
            assert app.key == found
            assert f"1 of 3 hold: {wanted}" in app.text()


async def test_a_word_is_not_found_across_two_cells_nor_in_a_heading() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=SIZE) as pilot:
        for wanted in ("intakelife", "morning"):
            app.listing.filter(wanted)
            await pilot.pause()
            assert f"No line holds: {wanted}" in app.text()
            assert f"0 of 5 hold: {wanted}" in app.text()
            assert app.key is None


async def test_columns_stay_as_wide_as_they_are_while_searching() -> None:
    columns = (Column("name", "name"), Column("end", "end"))
    app = Stage(columns, [Line("1", ("a long name indeed", "x")), Line("2", ("short", "y"))])
    async with app.run_test(size=SIZE) as pilot:
        head = app.seen()[0]
        app.listing.filter("short")
        await pilot.pause()
        assert app.seen()[0] == head
        app.listing.show(columns, [Line("2", ("short", "y"))])
        await pilot.pause()
        assert app.seen()[0] == "  name   end"


async def test_sections_without_lines_are_hidden() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=SIZE) as pilot:
        app.listing.filter("perch")
        await pilot.pause()
        assert " Late" not in app.seen()
        assert app.seen()[:2] == [" Morning", app.seen()[1]]


async def test_the_cursor_comes_back_to_its_line_when_nothing_was_found() -> None:
    app = Stage(ONE_COLUMN, numbered(1_000))
    async with app.run_test(size=SIZE) as pilot:
        app.listing.go_to("700")
        app.listing.filter("nowhere")
        await pilot.pause()
        assert app.key is None
        app.listing.filter("")
        await pilot.pause()
        assert app.marked() == ["line 700"]


async def test_new_lines_are_filtered_too() -> None:
    app = Stage(ONE_COLUMN, numbered(20))
    async with app.run_test(size=SIZE) as pilot:
        app.listing.filter("line 1")
        app.listing.show(ONE_COLUMN, [*numbered(12), Line("x", ("another",))])
        await pilot.pause()
        assert "4 of 13 hold: line 1" not in app.text()
        assert "3 of 13 hold: line 1" in app.text()
        assert "another" not in app.text()


async def test_the_last_line_is_seen_above_the_count() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=SIZE) as pilot:
        app.listing.filter("line")
        await pilot.press("end")
        assert app.seen()[12:] == ["▸ line 99", "  100 of 100 hold: line"]


async def test_what_is_typed_filters_and_enter_keeps_it() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=SIZE) as pilot:
        app.finder.open()
        await pilot.press(*"ine 42")
        await pilot.pause(0.3)
        assert app.seen()[1] == "▸ line 42"
        assert "1 of 100 hold: ine 42" in app.text()
        assert "Find ine 42" in app.seen()[13]
        await pilot.press("enter")
        assert not app.finder.is_open
        assert app.listing.has_focus
        assert app.seen()[13] == "  1 of 100 hold: ine 42"
        app.finder.open()
        await pilot.press("backspace", "7", "enter")
        assert app.marked() == ["line 47"]


async def test_enter_does_not_wait_for_the_pause_in_typing() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=SIZE) as pilot:
        app.finder.open()
        await pilot.press(*"line 7", "enter")
        assert app.listing.wanted == "line 7"
        assert app.opened == []


async def test_escape_shows_all_lines_again() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=SIZE) as pilot:
        app.finder.open()
        await pilot.press(*"42")
        await pilot.pause(0.3)
        await pilot.press("escape")
        assert not app.finder.is_open
        assert app.listing.has_focus
        assert app.marked() == ["line 42"]
        assert "hold:" not in app.text()
        await pilot.pause(0.3)
        assert app.listing.wanted == ""


async def test_arrows_walk_the_list_while_typing() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=SIZE) as pilot:
        app.finder.open()
        await pilot.press("down", "down", "up")
        assert app.marked() == ["line 1"]
        assert app.finder.is_open


async def test_a_line_is_copied_with_its_cells_parted_by_tabs() -> None:
    items: list[Item] = [
        Line("1", ("WREN", "two\tcells\nhere", Spark((1, 2.5)), Bar(3.7, 3.1, 4.2, 5, "few"))),
        Heading("Late"),
        Line("2", ("ROOK", "=1+1", "-108.22", "-2 lb")),
        Line("3", ("TEAL", "@cmd", "+cmd|' /C calc'!A0", "-")),
    ]
    columns = tuple(Column(name, name) for name in ("unit", "note", "run", "bar"))
    app = Stage(columns, items)
    async with app.run_test(size=SIZE) as pilot:
        listing = app.listing
        assert listing.as_text("line") == "WREN\ttwo\\tcells\\nhere\t1 2.5\t3.7 (3.1 to 4.2) few"
        assert [listing.as_text("cell", column) for column in (0, 3, 9)] == ["WREN", "3.7 (3.1 to 4.2) few", ""]
        await pilot.press("down")
        assert listing.as_text("line") == "ROOK\t'=1+1\t-108.22\t-2 lb"
        await pilot.press("down")
        assert listing.as_text("line") == "TEAL\t'@cmd\t'+cmd|' /C calc'!A0\t-"


async def test_the_whole_table_is_copied_as_filtered() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=SIZE) as pilot:
        assert app.listing.as_text("table").count("\n") == 6
        app.listing.filter("pump")
        await pilot.pause()
        text = app.listing.as_text("table")
        assert text == "Late\nTEAL\tClear the pump intake\tlife support\t2 days late\t5 min"
        app.listing.show(ONE_COLUMN, [Line("1", ("pump",))])
        await pilot.pause()
        assert app.listing.as_text("table") == "name\npump"
        app.listing.filter("nothing")
        await pilot.pause()
        assert app.listing.as_text("line") == app.listing.as_text("cell") == ""
