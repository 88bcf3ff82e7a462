"""Noticing that a store was written to: a thread of its own looks, so that the screen sleeps until something moved."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event, Thread

from farmops.reports.store import Store

SECONDS = 0.8


class Watch(Thread):
    """Calls `moved`, from its own thread, when the store looks other than before.

    A store that does not show whether it moved is taken to have moved each time; so is any while `restless`.
    """

    def __init__(self, store: Callable[[], Store], moved: Callable[[], object]) -> None:
        super().__init__(name="watch", daemon=True)
        self.restless = False
        self._store, self._moved = store, moved
        self._left = Event()

    def run(self) -> None:
        """Look every moment until told to leave."""
        before: object = None
        while not self._left.wait(SECONDS):
            stamp = self._store().stamp()
            if self.restless or stamp is None or stamp != before:
                before = stamp
                self._moved()

    def leave(self) -> None:
        """Stop looking; nobody waits for it."""
        self._left.set()
