"""The words of the pick list: what must not be picked is said before anything that a narrow line could cut."""

from __future__ import annotations

from farmops.exchange.pick_text import place_words
from farmops.reports.picks import Place

READY = Place("WREN-N", True, "ready since Mon 12 Oct; last picked Mon 5 Oct")
HELD = Place("WREN-N", True, READY.words, held="until Thu 15 Oct after Sulphur dust")


def test_a_hold_comes_right_after_the_name() -> None:
    assert place_words(HELD).startswith("WREN-N, do not pick, HELD until Thu 15 Oct")
    assert place_words(HELD).endswith(READY.words)
    assert place_words(READY) == f"WREN-N, {READY.words}"
