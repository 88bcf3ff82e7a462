"""Forms for people: who works here."""

from __future__ import annotations

from typing import Any

from farmops.model.farm import NewPerson, Person, PersonChange
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

NAME_TAKEN = ("already somebody",)
FOR_ADULTS = "a minor gets no chores for adults only"


def _fields(name: str, note: str | None, minor: bool = False) -> tuple[Field, ...]:
    return (
        Field("name", "Name", Kind.TEXT, name, required=True, blamed=NAME_TAKEN),
        Field("minor", "Minor", Kind.YES, "yes" if minor else "no", hint=FOR_ADULTS, blamed=("for adults only",)),
        making.note(note),
    )


def new(context: Context) -> FormSpec:
    """Somebody begins to work here."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.farm import add_person

        return f"{add_person(store, NewPerson(**values), **making.hand_of(hand, operation)).name} added."

    return FormSpec("New person", _fields("", None), save, context.setting)


def edit(record: Person, context: Context) -> FormSpec:
    """Correct a name, a note, or whether somebody is of age."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.farm import change_person

        changed = change_person(store, PersonChange(record.id, **values), **making.hand_of(hand, operation))
        return f"{changed.name} changed."

    fields = _fields(record.name, record.note, record.minor)
    return FormSpec(record.name, fields, save, context.setting, edits=True, verb="Change")
