"""Forms for crops: what the farm begins to grow, and corrections."""

from __future__ import annotations

from typing import Any

from farmops.model.plantings import Crop, CropChange, NewCrop
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

NO_FACTS = "none"
NAME_TAKEN = ("already a crop",)


def new(context: Context) -> FormSpec:
    """The farm begins to grow a crop; the packaged facts of that name go with it."""
    grown = {crop.name for crop in context.crops}
    known = tuple(name.upper() for name in context.crop_facts if name.upper() not in grown)
    facts = (NO_FACTS, *context.crop_facts)
    fields = (
        Field("name", "Crop", Kind.NAME, "", known, required=True, blamed=NAME_TAKEN),
        Field("facts", "Facts", Kind.NAME, "", facts, strict=True, hint="those of its name, unless you say so"),
        making.note(),
    )
    return FormSpec("New crop", fields, _add, context.setting, again=True)


def _add(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
    from farmops import library
    from farmops.farm.plantings import add_crop

    about = values["facts"] or values["name"]
    facts = None if about == NO_FACTS else library.crop(about)
    entry = NewCrop(values["name"], facts.key if facts else None, values["note"])
    added = add_crop(store, entry, **making.hand_of(hand, operation))
    return f"{added.name} added, {f'with the facts on {facts.name}' if facts else 'without packaged facts'}."


def edit(record: Crop, context: Context) -> FormSpec:
    """Correct the name or the note of a crop."""
    fields = (
        Field("name", "Crop", Kind.TEXT, record.name, required=True, blamed=NAME_TAKEN),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.plantings import change_crop

        changed = change_crop(store, CropChange(record.id, **values), **making.hand_of(hand, operation))
        return f"{changed.name} changed."

    return FormSpec(f"Crop {record.name}", fields, save, context.setting, edits=True, verb="Change")
