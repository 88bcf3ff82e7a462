"""Names that try to be something else: markup, escapes, wide, joined and endless text."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from farmops.tui.widgets.listing import Column, Heading, Line
from farmops.tui.widgets.listing_cells import cut, placed
from farmops.tui.widgets.listing_lines import shown
from tests.tui.listing_stage import Stage

COLUMNS = (Column("name", "name", width=14), Column("weight", "weight", width=8, align="point"), Column("end", "end"))

HOSTILE = {
    "markup": "[red]x[/red]",
    "link": "[@click=quit]y[/]",
    "escape": "\x1b[31mred",
    "title": "\x1b]0;own\x07",
    "c1": "\x9b31m",
    "override": "kale\u202egpj",
    "newline": "two\nlines",
    "tab": "a\tb",
    "return": "over\rwritten",
    "null": "nu\x00ll",
    "joiner": "👨\u200d👩\u200d👧",
    "selector": "❤\ufe0f heart",
    "combining": "e\u0301" * 30,
    "leading": "\u0301leading",
    "wide": "採收" * 20,
    "surrogate": "lone\ud800",
    "bom": "\ufeffbom",
    "separator": "a\u2028b",
    "private": "\ue000\U0010ffff",
    "endless": "x" * 100_000,
}


@pytest.mark.parametrize("name", HOSTILE)
async def test_a_hostile_name_is_only_text_and_moves_nothing_beside_it(name: str) -> None:
    text = HOSTILE[name]
    app = Stage(COLUMNS, [Line("1", ("honest", "1.5 lb", "END")), Line("2", (text, "12.25 lb", "END"))])
    async with app.run_test(size=(60, 8)):
        strips = app.screen._compositor.render_strips()
        honest, hostile = strips[1].text, strips[2].text
        assert cell_len(honest) == cell_len(hostile) == 60
        assert "\ufe0f" not in hostile  # terminals disagree on how wide it makes the sign before it
        assert cell_len(honest[: honest.index("END")]) == cell_len(hostile[: hostile.index("END")])
        assert not any(unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") for sign in hostile)


async def test_markup_and_escapes_are_shown_as_they_are() -> None:
    columns = (Column("name", grow=True),)
    app = Stage(columns, [Line("1", ("[red]x[/red]",)), Heading("[b]\x1b[1m"), Line("2", ("\x1b[31mred \u202e",))])
    async with app.run_test(size=(60, 8)):
        assert app.seen()[:3] == ["▸ [red]x[/red]", " [b]\\x1b[1m", "  \\x1b[31mred \\u202e"]


async def test_hostile_words_in_head_note_and_empty_words() -> None:
    app = Stage((Column("a", "[red]\x1b[1m"),), [], empty="[b]none[/b] \x1b[2J")
    async with app.run_test(size=(60, 9)) as pilot:
        assert "[b]none[/b] \\x1b[2J" in app.text()
        app.listing.filter("[x] \x1b]0;")
        await pilot.pause()
        assert "[x] \\x1b]0;" in app.text()
        assert "[red]\\x1b[1m" in app.seen()[0]


def test_wide_text_is_cut_between_characters() -> None:
    assert cut("採收採收", 8) == "採收採收"
    assert cut("採收採收", 7) == "採收採…"
    assert cut("採收採收", 6) == "採收…"
    assert placed("採收採收", 6) == "採收… "
    assert placed("採收採收", 6, "right") == " 採收…"
    assert cut("é" * 3 + "e\u0301x" * 3, 5) == "éééé…".replace("éééé", "éééé"[:3] + "e\u0301")
    assert [cut("採收", width) for width in (0, 1, 2, 3, 4)] == ["", "…", "…", "採…", "採收"]


@given(st.text(), st.integers(0, 40), st.sampled_from(["left", "right"]))
def test_a_cell_is_always_as_wide_as_its_column(text: str, width: int, align: str) -> None:
    safe = shown(text)
    drawn = placed(safe, width, align)
    assert cell_len(drawn) == width
    assert cell_len(safe) > width or safe in drawn
