"""Random keys, clicks, sizes and typed text: the interface never falls over and never writes beside the journal."""

from __future__ import annotations

import random
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from textual.app import App
from textual.errors import NoWidget
from textual.geometry import Offset

from farmops.facts import journal as journal_facts
from farmops.records.chain import breaks
from farmops.records.store import Store
from farmops.tui.screens.record_kinds import KINDS
from farmops.tui.widgets.forms import FormScreen
from tests.faults.soundness import assert_file_sound, rows_of
from tests.profiles import count
from tests.tui.demo import PLACE_KEYS, SMALL, Driver, frame_of, go_to, press, running, until_idle, until_seen

APPS = 4
STEPS = count(ci=500, full=20_000) // APPS
EPISODE = 25
"""After so many steps the hand goes somewhere else, so that no form keeps it for long."""
LEAST_REACHED = count(ci=4, full=60)
MOVES = ("enter", "escape", "tab", "shift+tab", "up", "down", "left", "right", "home", "end", "pageup", "pagedown")
KEYS = (
    *"abcdefghijklmnoprstuvwxyzUNPCTISR!+-=0123456789/?:,. ",
    *(MOVES * 2),
    *("backspace", "delete", *(f"f{number}" for number in range(1, 12))),
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
NAMED |= {"!": "exclamation_mark", "+": "plus", "-": "minus", "=": "equals_sign"}


async def go_somewhere(pilot: Driver, dice: random.Random) -> None:
    """Any place, list, unit and line, and then anything that can be done there but leaving."""
    for _ in range(8):
        await pilot.press("escape")
    frame = frame_of(pilot.app)
    await pilot.press(dice.choice([*PLACE_KEYS.values()]), str(dice.randrange(7)))
    await until_idle(pilot)
    if frame.open_place == "records":
        await pilot.press(*[dice.choice(("comma", "full_stop"))] * dice.randrange(len(KINDS)))
        await until_idle(pilot)
    await pilot.press(*["down"] * dice.randrange(8))
    action = dice.choice([one for one in frame.actions_here() if one.id != "quit"])
    await pilot.press(NAMED.get(action.keys[0], action.keys[0]))
    await until_idle(pilot)


def whereabouts(app: App[Any]) -> tuple[str, ...]:
    """What is on the screen, told from all else that could be: the place and its list, a form by its fields."""
    frame, screen = frame_of(app), app.screen
    kind = getattr(frame.place, "kind", None)
    fields = [one.name for one in screen.spec.fields] if isinstance(screen, FormScreen) else []
    return frame.open_place, getattr(kind, "name", ""), type(screen).__name__, " ".join(fields)


def has_left(app: App[Any]) -> bool:
    """Whether the hand has found the way out: the interface ended, as it was told to, and is opened again."""
    return app._exit


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
    demo_place: str,
    demo_store: Store,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    record_property: Callable[[str, object], None],
    seed: int,
) -> None:
    monkeypatch.setattr("farmops.tui.widgets.clipboard.tools_here", lambda *_: iter(()))
    monkeypatch.chdir(tmp_path)
    dice, reached, made = random.Random(seed), set[tuple[str, ...]](), 0
    while made < STEPS:
        async with running(demo_place) as pilot:
            while made < STEPS and not has_left(pilot.app):
                if made % EPISODE == 0:
                    await go_somewhere(pilot, dice)
                reached.add(whereabouts(pilot.app))
                await random_step(pilot, dice)
                made += 1
                assert pilot.app._exception is None
            await until_idle(pilot)
            if not has_left(pilot.app):
                await pilot.resize_terminal(*SMALL)
                await press(pilot, *["escape"] * 8)
                await go_to(pilot, "chores")
                await press(pilot, "0")
                await until_seen(pilot, "Quillet Bank", "[Chores]", "? help")
        assert not pilot.app.return_value
    record_property("screens reached", len(reached))
    print(f"{STEPS} steps reached {len(reached)} screens")
    assert len(reached) >= LEAST_REACHED
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
