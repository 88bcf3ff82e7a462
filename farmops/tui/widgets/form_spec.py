"""What a form is: its fields, and what books them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from farmops.model.frozen import dataclass
from farmops.reports.store import Store
from farmops.tui.widgets.fields import Field, Setting


@dataclass(frozen=True, slots=True)
class Hand:
    """Who books; `sure` when they were asked about just this and booked it all the same.

    Long work tells `watch` how much of how much is done; what that raises stops it, and nothing of it is kept.
    """

    by: str
    sure: bool = False
    watch: Callable[[int, int], None] | None = None


Save = Callable[[Store, dict[str, Any], Hand, str], str]
Preview = Callable[[Store, dict[str, Any], Hand], str]


@dataclass(frozen=True, slots=True)
class FormSpec:
    """A form: its fields and what books them, in a worker, with the values by name and the operation's id.

    An `again` form stays open for the next record. In one that `edits`, a field left as it was has the value KEEP.
    `about` stands below the title; `verb` on the button; `start` names the field to begin in. `preview` says what would
    come of booking it, in a worker too; its words take the place of `about` once all fields are understood. The labels
    of a `wide` form are sentences.
    """

    title: str
    fields: tuple[Field, ...]
    save: Save
    setting: Setting
    again: bool = False
    edits: bool = False
    about: str = ""
    verb: str = "Book"
    start: str = ""
    wide: bool = False
    preview: Preview | None = None
