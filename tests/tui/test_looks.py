"""The look of each place, small and large, in a dark and a light theme."""

from __future__ import annotations

import pytest
from syrupy.assertion import SnapshotAssertion

from tests.tui.demo import PLACE_KEYS, SIZES, go_to, press, running, until_seen
from tests.tui.looks import cells, look

LAST_TO_COME = {
    "beds": "▸ TEAL-N    PAK CHOI",
    "returns": "CHARD: WREN is clearly better than ROOK",
    "chores": "not done without: flow seen",
}


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])
@pytest.mark.parametrize("place", PLACE_KEYS)
async def test_a_place_looks_as_it_did(
    demo_place: str, snapshot: SnapshotAssertion, place: str, size: tuple[int, int]
) -> None:
    async with running(demo_place, size=size) as pilot:
        await go_to(pilot, place)
        await until_seen(pilot, "? help", LAST_TO_COME.get(place, ""))
        assert pilot.app.theme == "evening"
        evening = cells(pilot.app)
        await press(pilot, "f8")
        assert pilot.app.theme == "morning"
        assert look(evening, cells(pilot.app)) == snapshot
