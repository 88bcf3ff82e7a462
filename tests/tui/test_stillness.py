"""Tests of the interface go on when nothing is left to do, however long that takes on a busy machine."""

from __future__ import annotations

import threading
import time

from textual.app import App, ComposeResult
from textual.widgets import Label

from tests.tui.stage import screen_text
from tests.tui.stillness import HELD_S

HOPS = 60


class Hopping(App[None]):
    """Each key starts something that ends late."""

    def __init__(self) -> None:
        super().__init__()
        self.held = threading.Event()

    def compose(self) -> ComposeResult:
        yield Label("nothing yet")

    def show(self, words: str) -> None:
        """Put words on the screen."""
        self.query_one(Label).update(words)

    def hop(self, left: int) -> None:
        """Pass a message on, and again after the next drawing, until none is left."""
        if left:
            (self.call_later if left % 2 else self.call_after_refresh)(self.hop, left - 1)
            self.show(f"{left} left")
        else:
            self.show("arrived")

    def key_h(self) -> None:
        self.hop(HOPS)

    def key_t(self) -> None:
        self.run_worker(self._compute, thread=True)

    def key_b(self) -> None:
        self.run_worker(self._wait, thread=True)

    def key_e(self) -> None:
        self.hop(10**9)

    def _compute(self) -> None:
        last = time.process_time() + 4 * HELD_S
        while time.process_time() < last:
            sum(range(1000))
        self.call_from_thread(self.show, "worked out")

    def _wait(self) -> None:
        self.held.wait()
        self.call_from_thread(self.show, "let go")


async def shown_after(key: str) -> str:
    """What stands on the screen as soon as a key is over."""
    app = Hopping()
    async with app.run_test(size=(40, 3)) as pilot:
        await pilot.press(key)
        text = screen_text(app)[0].strip()
        app.held.set()
    return text


async def test_a_key_is_over_when_all_that_followed_from_it_is_drawn() -> None:
    assert await shown_after("h") == "arrived"


async def test_a_key_is_over_when_the_thread_it_started_has_worked_it_out() -> None:
    assert await shown_after("t") == "worked out"


async def test_a_thread_that_is_held_up_holds_up_no_key() -> None:
    assert await shown_after("b") == "nothing yet"


async def test_what_never_ends_is_left_after_a_second() -> None:
    assert (await shown_after("e")).endswith(" left")
