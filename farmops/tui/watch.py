"""Noticing that a store was written to or that the day turned: a thread looks, so that the screen sleeps till then."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from threading import Event, Thread

from farmops.reports.store import Store

SECONDS = 0.8


class Watch(Thread):
    """Calls `moved`, from its own thread, when the store looks other than before, or it is another day.

    A store that does not show whether it moved is taken to have moved each time; so is any while `restless`.
    """

    def __init__(self, store: Callable[[], Store], moved: Callable[[], object], day: Callable[[], date | None]) -> None:
        super().__init__(name="watch", daemon=True)
        self.restless = False
        self._store, self._moved, self._day = store, moved, day
        self._left = Event()

    def run(self) -> None:
        """Look every moment until told to leave."""
        before: object = None
        while not self._left.wait(SECONDS):
            now = (self._store().stamp(), self._day())
            if self.restless or now[0] is None or now != before:
                before = now
                self._moved()

    def leave(self) -> None:
        """Stop looking; nobody waits for it."""
        self._left.set()
