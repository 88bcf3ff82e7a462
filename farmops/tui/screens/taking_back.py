"""Taking back what a person booked last; what was booked another way than on the screen is asked about first."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from farmops.model.errors import FarmopsError
from farmops.reports.store import Store
from farmops.tui.screens.confirm import Confirm
from farmops.tui.work import WorkMixin

if TYPE_CHECKING:
    from farmops.model.journal import Undone

Then = Callable[[str], None]
Otherwise = Callable[[FarmopsError], None] | None


def take_back(screen: WorkMixin, then: Then, otherwise: Otherwise = None) -> None:
    """Take back what the person booked last and go on with what is to be said of it."""
    by: str = screen.app.by  # type: ignore[attr-defined]

    def told(found: str | Undone) -> None:
        if isinstance(found, str):
            then(found)
        else:
            question = f"Taken back would be: {_words(found, by)}. Take it back?"
            screen.app.push_screen(Confirm(question), partial(answered, found.operation))

    def answered(operation: str, yes: bool | None) -> None:
        if yes:
            named = partial(_taken_back, by=by, operation=operation)
            screen.work(named, then, group="write", otherwise=otherwise)
        else:
            then("Nothing was taken back.")

    screen.work(partial(_last, by=by), told, group="write", otherwise=otherwise)


def _last(store: Store, *, by: str) -> str | Undone:
    """What was taken back, in words; or, not taken back yet, what was booked another way."""
    from farmops.farm.undo import from_elsewhere
    from farmops.model.journal import Through

    return from_elsewhere(store, by, Through.SCREEN) or _taken_back(store, by=by)


def _taken_back(store: Store, *, by: str, operation: str | None = None) -> str:
    from farmops.farm.undo import undo
    from farmops.model.journal import Through, Which

    return f"Taken back: {_words(undo(store, Which(operation), by=by, through=Through.SCREEN), by)}."


def _words(done: Undone, by: str) -> str:
    from farmops.model.journal import Through

    return done.words_for(by, Through.SCREEN)
