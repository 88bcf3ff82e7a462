"""Work off the screen's thread: a function of the store runs in a worker, its result comes back as a message."""

from __future__ import annotations

from collections.abc import Callable
from threading import Thread
from time import sleep
from typing import Any

from textual.app import App
from textual.message import Message
from textual.widget import Widget
from textual.worker import Worker, get_current_worker

from farmops.model.errors import FarmopsError
from farmops.reports.store import Store

Work = Callable[[Store], Any]
Then = Callable[[Any], object]
GLANCE_SECONDS = 0.005
TROUBLE_SECONDS = 20
LAST_WRITE = "last_write"
"""Where the app keeps the piece of writing that was asked for last."""


class Ready(Message):
    """A piece of work is done; its receiver goes on with `then(result)`."""

    bubble = False

    def __init__(self, then: Then, result: Any) -> None:
        super().__init__()
        self.then = then
        self.result = result


class Failed(Message):
    """A piece of work was refused or could not be done; `error` says why in words."""

    def __init__(self, error: FarmopsError) -> None:
        super().__init__()
        self.error = error


class Broken(Message):
    """A piece of work failed by a fault of the program."""

    def __init__(self, error: BaseException) -> None:
        super().__init__()
        self.error = error


def _keep_daily(app: App[Any], store: Store) -> None:
    """The backup of the day, apart from all work: what is booked next does not wait for it, and a form may be gone."""
    from farmops.farm.daily import clock_set_back, keep_daily

    for look in (keep_daily, clock_set_back) if store.wrote else ():
        trouble = look(store)
        if trouble is not None:
            app.notify(trouble, severity="warning", timeout=TROUBLE_SECONDS, markup=False)


def _broken(store: Store, error: Exception) -> Message:
    """A fault that no damage of the store explains is the program's."""
    from farmops.reports.soundness import damage_behind

    damaged = damage_behind(store)
    return Failed(damaged) if damaged else Broken(error)


class WorkMixin(Widget):
    """What places and forms have in common: they never block, and they hold frozen dataclasses only.

    It stands behind the kind of widget it is mixed into, whose looks are inherited from the first base.
    """

    def work(
        self, work: Work, then: Then, *, group: str = "read", otherwise: Callable[[FarmopsError], None] | None = None
    ) -> None:
        """Run `work(store)` in a thread; a newer piece of the same group of reading replaces an older one.

        Pieces of the group `write` run one after the other, so that undo takes back what was entered just before.
        """
        app = self.app
        store = app.store  # type: ignore[attr-defined]
        before = getattr(self.app, LAST_WRITE, None) if group == "write" else None
        worker = self.run_worker(
            lambda: self._in_thread(work, store, then, otherwise, before, app if group == "write" else None),
            thread=True,
            exclusive=group == "read",
            group=group,
            exit_on_error=False,
        )
        if group == "write":
            setattr(self.app, LAST_WRITE, worker)

    def _in_thread(
        self,
        work: Work,
        store: Store,
        then: Then,
        otherwise: Callable[[FarmopsError], None] | None,
        before: Worker[Any] | None,
        writing: App[Any] | None,
    ) -> None:
        worker = get_current_worker()
        while before is not None and not before.is_finished:
            sleep(GLANCE_SECONDS)
        message: Message
        try:
            message = Ready(then, work(store))
        except FarmopsError as error:
            message = Ready(otherwise, error) if otherwise else Failed(error)
        except Exception as error:
            message = _broken(store, error)
        if not worker.is_cancelled and self.is_attached:
            self.post_message(message)
        if getattr(writing, "daily_backups", False):
            Thread(target=_keep_daily, args=(writing, store)).start()

    def on_ready(self, message: Ready) -> None:
        """Go on with the result, unless what asked for it is gone."""
        message.stop()
        if self.is_attached:
            message.then(message.result)

    async def _on_message(self, message: Message) -> None:
        """Nobody waits for what comes to a screen that is being closed, whose parts are gone before it is."""
        if not (self._pruning and isinstance(message, Ready | Failed | Broken)):
            await super()._on_message(message)
