"""Random keys, clicks, sizes and typed text: the interface never falls over and never writes beside the journal."""

from __future__ import annotations

import random
from contextlib import suppress
from typing import Any

import pytest
from textual.errors import NoWidget
from textual.geometry import Offset

from farmops.facts import journal as journal_facts
from farmops.records.chain import breaks
from farmops.records.store import Store
from tests.faults.soundness import assert_file_sound, rows_of
from tests.profiles import count
from tests.tui.demo import SMALL, Driver, go_to, press, running, until_idle, until_seen

APPS = 4
STEPS = count(ci=500, full=20_000) // APPS
KEYS = (
    *"abcdehlnopstuwxyU0123456789/?:,. ",
    *("enter", "escape", "tab", "shift+tab", "up", "down", "left", "right", "home", "end", "pageup", "pagedown"),
    *("backspace", "delete", "f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "f10"),
)
TEXTS = (
    "1 6",
    "620 g",
    "yesterday",
    "99999999999999999999",
    "[bold]x[/]",
    "\x1b[31m",
    "Брокколи",
    "羽衣甘蓝",
    "=1+1",
    "'; --",
)
NAMED = {" ": "space", "/": "slash", "?": "question_mark", ":": "colon", ",": "comma", ".": "full_stop"}


async def random_step(pilot: Driver, dice: random.Random) -> None:
    """One thing that a hand, a cat or a resized window could do."""
    roll = dice.random()
    if roll < 0.8:
        key = dice.choice(KEYS)
        await pilot.press(NAMED.get(key, key))
    elif roll < 0.88:
        await pilot.press(*(NAMED.get(sign, sign) for sign in dice.choice(TEXTS) if sign.isprintable()), "enter")
    elif roll < 0.97:
        width, height = pilot.app.size
        at = Offset(dice.randrange(width), dice.randrange(height))
        with suppress(NoWidget):  # where a size that was just given is not drawn yet, there is nothing to hit
            await pilot.click(offset=at, times=dice.choice((1, 1, 2)))
    else:
        await pilot.resize_terminal(dice.randrange(10, 200), dice.randrange(3, 60))


@pytest.mark.parametrize("seed", range(APPS))
async def test_random_hands_break_nothing(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    monkeypatch.setattr("farmops.tui.widgets.clipboard.tools_here", lambda *_: iter(()))
    dice = random.Random(seed)
    async with running(demo_place) as pilot:
        for _ in range(STEPS):
            await random_step(pilot, dice)
            assert pilot.app._exception is None
        await until_idle(pilot)
        await pilot.resize_terminal(*SMALL)
        await press(pilot, *["escape"] * 8)
        await go_to(pilot, "chores")
        await press(pilot, "0")
        await until_seen(pilot, "Quillet Bank", "[Chores]", "? help")
    assert rows_of(demo_store) == told_by_journal(demo_store)
    assert_file_sound(demo_place)


def told_by_journal(store: Store) -> dict[tuple[str, int], dict[str, Any]]:
    """Every row as its last image has it; the chain is whole, and each image begins where the one before ended."""
    told: dict[tuple[str, int], dict[str, Any] | None] = {}
    with store.reading() as reader:
        assert breaks(journal_facts.chain(reader)) == []
        for line in reversed(journal_facts.lines(reader)):
            written = journal_facts.written(reader, line.operation)
            assert written is not None
            for one in written.images:
                assert one.before == told.get((one.table, one.id)), line
                told[one.table, one.id] = one.after
    return {key: row for key, row in told.items() if row is not None}
