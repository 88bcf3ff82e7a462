"""What a person sees of a list, and what its keys and the mouse do."""

from __future__ import annotations

import pytest

from farmops.tui.widgets.listing import Bar, Column, Heading, Line, Spark
from tests.tui.listing_stage import CHORE_COLUMNS, CHORES, ONE_COLUMN, Stage, numbered

WIDE = (100, 24)


async def test_numbers_stand_under_each_other_by_their_decimal_mark() -> None:
    columns = (Column("unit", "unit"), Column("yield", "yield", align="point"))
    cells = ["1.8 lb", "12 lb", "0,5 lb", "-3.25 lb", "1,297 lb", "-", "$14.90"]
    app = Stage(columns, [Line(str(i), (f"U{i}", cell)) for i, cell in enumerate(cells)])
    async with app.run_test(size=(40, 12)):
        assert app.seen()[:8] == [
            "  unit        yield",
            "▸ U0        1.8 lb",
            "  U1       12 lb",
            "  U2        0,5 lb",
            "  U3       -3.25 lb",
            "  U4    1,297 lb",
            "  U5              -",
            "  U6      $14.90",
        ]


async def test_a_narrow_terminal_drops_the_least_needed_column_and_a_wide_one_brings_it_back() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        assert "  TEAL    Clear the pump intake" in app.text()
        assert "life support" in app.text()
        await app.resized(pilot, 60, 20)
        assert "life support" not in app.text()
        assert "  TEAL    Clear the pump intake         2 days late   5 min" in app.seen()
        await app.resized(pilot, *WIDE)
        assert "life support" in app.text()


async def test_nothing_is_drawn_beyond_the_edge() -> None:
    app = Stage((Column("a", "a"), Column("b", "b"), Column("c", "c")), [Line("1", ("a" * 50, "b" * 50, "c" * 50))])
    async with app.run_test(size=(60, 10)):
        assert app.seen()[1].count("…") == 3
        assert not app.listing.show_horizontal_scrollbar


async def test_long_words_run_on_over_empty_cells() -> None:
    columns = (Column("unit", width=4), Column("produce", width=10), Column("fish", width=14), Column("net", width=6))
    lines = [
        Line("1", ("WREN", "no harvest yet, cycling", "", "-72.15")),
        Line("2", ("ROOK", "no harvest yet, cycling", "9 lb", "-1.00")),
    ]
    app = Stage(columns, lines)
    async with app.run_test(size=(60, 10)):
        assert app.seen()[:2] == [
            "▸ WREN  no harvest yet, cycling     -72.15",
            "  ROOK  no harves…  9 lb            -1.00",
        ]


async def test_without_heads_there_is_no_head_line_and_with_heads_it_stays() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        assert app.seen()[0].startswith("▸ all")
        app.listing.show(ONE_COLUMN, numbered(200))
        await pilot.press("end")
        assert app.seen()[0] == "  name"
        assert app.seen()[23] == "▸ line 199"


async def test_the_cursor_passes_over_headings() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        walked = [app.key]
        for _ in range(5):
            await pilot.press("down")
            walked.append(app.key)
        assert walked == ["look", "intake", "pad", "feed", "chard", "chard"]
        await pilot.press("up", "up", "up")
        assert app.key == "intake"
        assert [line.split()[0] for line in app.marked()] == ["TEAL"]


async def test_the_heading_over_the_first_line_comes_into_sight_again() -> None:
    items = [Heading("Late"), *numbered(12)]
    app = Stage(ONE_COLUMN, items)
    async with app.run_test(size=(40, 8)) as pilot:
        await pilot.press("end")
        assert " Late" not in app.seen()
        await pilot.press("home")
        assert app.seen()[1:3] == [" Late", "▸ line 0"]
        await pilot.press("end", *["up"] * 11)
        assert app.seen()[1:3] == [" Late", "▸ line 0"]


async def test_pages_and_edges() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=(40, 11)) as pilot:
        await pilot.press("pagedown")
        assert app.marked() == ["line 9"]
        await pilot.press("pagedown")
        assert app.marked() == ["line 18"]
        assert app.seen()[1:3] == ["  line 9", "  line 10"]
        await pilot.press("pageup")
        assert app.marked() == ["line 9"]
        await pilot.press("end", "pagedown")
        assert app.marked() == ["line 99"]
        await pilot.press("pageup", "home", "pageup", "up")
        assert app.marked() == ["line 0"]


async def test_left_and_right_belong_to_the_place() -> None:
    class Walks(Stage):
        BINDINGS = [("left", "walk('left')", ""), ("right", "walk('right')", "")]  # noqa: RUF012
        walked = ""

        def action_walk(self, way: str) -> None:
            self.walked += way

    app = Walks(ONE_COLUMN, numbered(100))
    async with app.run_test(size=(40, 11)) as pilot:
        await pilot.press("left", "right")
        assert app.walked == "leftright"


async def test_the_cursor_is_marked_by_a_shape_and_inverse() -> None:
    app = Stage(ONE_COLUMN, numbered(3))
    async with app.run_test(size=(40, 11)):
        assert app.marked() == ["line 0"]
        assert all("reverse" in style for style in app.styles_of("line 0"))
        assert not any("reverse" in style for style in app.styles_of("line 1"))


async def test_what_is_done_is_struck_through_and_the_room_between_is_not() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE):
        assert all("strike" in style and "not strike" not in style for style in app.styles_of("Feed perch-24"))
        assert not any("strike" in style for style in app.styles_of("Pick CHARD"))
        strips = app.screen._compositor.render_strips()
        blanks = [run for strip in strips for run in strip if run.text.isspace() and run.style]
        assert not any(run.style.strike for run in blanks if run.style)


async def test_an_app_without_colours_still_shows_where_the_cursor_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE):
        assert app.no_color
        assert [line.split()[0] for line in app.marked()] == ["all"]
        assert any("reverse" in style for style in app.styles_of("Look round"))


async def test_the_cursor_stays_on_its_line_when_others_come_and_go() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=(40, 11)) as pilot:
        app.listing.go_to("53")
        await pilot.press("up", "up", "up")
        row = app.seen().index("▸ line 50")
        app.listing.show(ONE_COLUMN, [Line("n", ("new",)), *numbered(100)])
        await pilot.pause()
        assert app.marked() == ["line 50"]
        assert app.seen().index("▸ line 50") == row


async def test_the_cursor_goes_to_the_nearest_line_when_its_own_is_gone() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        app.listing.go_to("pad")
        app.listing.show(CHORE_COLUMNS, [item for item in CHORES if item != CHORES[3]])
        await pilot.pause()
        assert app.key == "feed"
        app.listing.show(CHORE_COLUMNS, CHORES[:3])
        await pilot.pause()
        assert app.key == "intake"
        app.listing.show(CHORE_COLUMNS, [CHORES[0], Heading("Late"), Heading("Morning")])
        await pilot.pause()
        assert app.key == "look"
        app.listing.show(CHORE_COLUMNS, [Heading("Late")])
        await pilot.pause()
        assert app.key is None
        assert app.moved[-1] is None


async def test_new_lines_do_not_pull_back_who_has_scrolled_away() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=(40, 11)) as pilot:
        app.listing.scroll_to(y=40, animate=False)
        await pilot.pause()
        app.listing.show(ONE_COLUMN, [*numbered(100), Line("n", ("new",))])
        await pilot.pause()
        assert app.seen()[1] == "  line 40"
        assert app.key == "0"
        app.listing.show(ONE_COLUMN, numbered(100)[1:])
        await pilot.pause()
        assert app.marked() == ["line 1"]


async def test_lines_that_their_owner_changes_stay_as_they_were_shown() -> None:
    items = numbered(20)
    app = Stage(ONE_COLUMN, items)
    async with app.run_test(size=(40, 11)) as pilot:
        await pilot.press("end")
        items.clear()
        await pilot.press("up")
        assert app.marked() == ["line 18"]
        app.listing.show(ONE_COLUMN, items, empty="none left")
        await pilot.pause()
        assert app.key is None
        assert "none left" in app.text()


async def test_every_move_is_told_once() -> None:
    app = Stage(ONE_COLUMN, numbered(3))
    async with app.run_test(size=(40, 11)) as pilot:
        await pilot.press("down", "down", "down", "home")
        assert app.moved == ["0", "1", "2", "0"]


async def test_go_to_says_whether_the_line_is_there() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE):
        assert app.listing.go_to("chard")
        assert app.key == "chard"
        assert not app.listing.go_to("no such")
        assert app.key == "chard"


async def test_enter_opens_the_line() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        await pilot.press("down", "enter")
        assert app.opened == ["intake"]


async def test_a_click_stands_on_a_line_and_a_double_click_opens_it() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        await pilot.click(app.listing, offset=(20, 3))
        assert app.key == "pad"
        assert app.opened == []
        await pilot.double_click(app.listing, offset=(20, 6))
        assert app.opened == ["chard"]
        await pilot.click(app.listing, offset=(20, 4))  # a heading
        await pilot.click(app.listing, offset=(20, 15))  # nothing
        assert app.key == "chard"


async def test_a_click_finds_its_line_in_a_scrolled_list_with_a_head() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=(40, 11)) as pilot:
        await pilot.press("end")
        words = app.seen()[4]
        await pilot.click(app.listing, offset=(5, 4))
        assert app.marked() == [words.strip()]
        await pilot.click(app.listing, offset=(5, 0))  # the head
        assert app.marked() == [words.strip()]


async def test_the_wheel_scrolls_and_leaves_the_cursor() -> None:
    app = Stage(ONE_COLUMN, numbered(100))
    async with app.run_test(size=(40, 11)) as pilot:
        app.listing.scroll_down(animate=False)
        app.listing.scroll_down(animate=False)
        await pilot.pause()
        assert app.seen()[:2] == ["  name", "  line 2"]
        assert app.key == "0"
        await pilot.press("down")
        assert app.marked() == ["line 1"]


async def test_an_empty_list_says_so_in_the_middle() -> None:
    app = Stage(CHORE_COLUMNS, [], empty="Nothing is due. Next: feed perch-24 tomorrow morning.")
    async with app.run_test(size=(80, 11)) as pilot:
        assert app.seen()[5].strip() == "Nothing is due. Next: feed perch-24 tomorrow morning."
        assert app.seen()[5].startswith(" " * 10)
        await pilot.press("down", "up", "end", "pagedown", "enter")
        assert app.opened == []
        await app.resized(pilot, 30, 11)
        assert [line.strip() for line in app.seen()[4:7]] == [
            "Nothing is due. Next: feed",
            "perch-24 tomorrow morning.",
            "",
        ]


async def test_an_empty_list_has_no_head() -> None:
    app = Stage(ONE_COLUMN, [], empty="No weighings yet.")
    async with app.run_test(size=(60, 9)):
        assert app.text().split() == ["No", "weighings", "yet."]


async def test_a_tiny_terminal_and_back() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=WIDE) as pilot:
        before = app.seen()
        app.listing.go_to("chard")
        await app.resized(pilot, 20, 5)
        assert [line.split()[0] for line in app.marked()] == ["WREN"]
        await app.resized(pilot, 3, 1)
        await app.resized(pilot, *WIDE)
        app.listing.go_to("look")
        await pilot.pause()
        assert app.seen() == before


async def test_plain_ascii_where_the_app_asks_for_it() -> None:
    columns = (Column("name", width=8), Column("bar", width=10), Column("spark"))
    line = Line("1", ("a long name", Bar(5, 4, 6, 10), Spark((1, 2, 3, 4, 5, 6, 7, 8))))
    app = Stage(columns, [line], plain_ascii=True)
    async with app.run_test(size=(60, 8)):
        assert app.seen()[0] == "> a long ~  ====|-      ._-=+*#@"
        assert all(seen.isascii() for seen in app.seen())


async def test_drawings_stand_in_cells() -> None:
    columns = (Column("name", "unit"), Column("bar", "lb per sq ft", width=20), Column("spark", "weeks"))
    line = Line("1", ("WREN", Bar(5, 4, 6, 10, "few data"), Spark((1, 2, 3, 4, 5, 6, 7, 8))))
    app = Stage(columns, [line])
    async with app.run_test(size=(60, 8)):
        assert app.seen()[:2] == [
            "  unit  lb per sq ft          weeks",
            "▸ WREN  ━━━━─┿─ few data      ▁▂▃▄▅▆▇█",
        ]


async def test_a_line_may_have_fewer_or_more_cells_than_there_are_columns() -> None:
    app = Stage((Column("a", width=3), Column("b", width=3)), [Line("1", ("one",)), Line("2", ("one", "two", "six"))])
    async with app.run_test(size=(40, 8)):
        assert app.seen()[:2] == ["▸ one", "  one  two"]


async def test_lines_wider_than_all_before_widen_their_column_when_they_come_into_sight() -> None:
    items = numbered(1_000)
    items[997] = Line("997", ("a name far longer than others",))
    app = Stage((Column("name", "name"), Column("end", "end")), items)
    async with app.run_test(size=(60, 8)) as pilot:
        assert app.seen()[0] == "  name      end"
        await pilot.press("end")
        assert "  a name far longer than others" in app.seen()
        assert app.seen()[0] == "  name                           end"


async def test_a_list_may_be_filled_before_it_is_on_the_screen() -> None:
    app = Stage(CHORE_COLUMNS, CHORES)
    app.listing.show(CHORE_COLUMNS, CHORES)
    app.listing.go_to("pad")
    async with app.run_test(size=WIDE):
        assert app.key == "pad"
        assert [line.split()[0] for line in app.marked()] == ["ROOK"]
