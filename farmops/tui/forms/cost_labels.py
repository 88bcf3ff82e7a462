"""The form that loads a set of labels for costs."""

from __future__ import annotations

from typing import Any

from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

ABOUT = "Without a file: the expense lines of US Schedule F. No tax advice: whoever does the taxes decides."
BLAMED = ("cannot be read", "no column", "no category", "comes twice", "is empty", "a set holds", "no text")


def new(context: Context) -> FormSpec:
    """Load a set of labels."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.label_sets import label_set
        from farmops.farm.cost_labels import load_labels

        entry = label_set(values["file"], values["name"])
        loaded = load_labels(store, entry, **making.hand_of(hand, operation))
        return f"{loaded.number} labels of {loaded.label_set} loaded."

    fields = (
        Field("file", "File", Kind.TEXT, hint="CSV: label, category; or empty", blamed=BLAMED),
        Field("name", "Name of the set", Kind.TEXT, hint="empty: as the file is called"),
    )
    return FormSpec("Labels for costs", fields, save, context.setting, about=ABOUT, verb="Load")
