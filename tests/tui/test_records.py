"""The kinds of records on one line: the one that is open always in sight, however narrow the terminal."""

from __future__ import annotations

import pytest

from farmops.tui.screens.records import KINDS, kinds_words

TITLES = [kind.title for kind in KINDS]


@pytest.mark.parametrize("room", [30, 58, 78, 118, 300])
@pytest.mark.parametrize("chosen", range(len(TITLES)))
def test_the_open_kind_is_in_sight_and_the_line_fits(room: int, chosen: int) -> None:
    words = kinds_words(TITLES, chosen, room)
    assert f"[{TITLES[chosen]}]" in words
    assert len(words) <= room
    assert words.endswith(", . others")


def test_where_there_is_room_all_kinds_are_named() -> None:
    assert all(title in kinds_words(TITLES, 0, 300) for title in TITLES)
    assert "…" not in kinds_words(TITLES, 0, 300)
    assert kinds_words(TITLES, len(TITLES) - 1, 40).startswith("…")
