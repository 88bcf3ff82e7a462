"""Forms for contacts: whom to call."""

from __future__ import annotations

from typing import Any

from farmops.model.contacts import Contact, ContactChange, NewContact
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

CALLED_FOR = ("vet", "electrician", "power company", "neighbour", "fish supplier", "poison control", "fish agency")


def new(context: Context) -> FormSpec:
    """Write down whom to call."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.contacts import add_contact

        return f"{add_contact(store, NewContact(**values), **making.hand_of(hand, operation)).name} written down."

    return FormSpec("Whom to call", _fields("", "", "", None), save, context.setting)


def edit(record: Contact, context: Context) -> FormSpec:
    """Correct a contact."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.contacts import change_contact

        changed = change_contact(store, ContactChange(record.id, **values), **making.hand_of(hand, operation))
        return f"{changed.name} changed."

    fields = _fields(record.name, record.calls_for, record.phone, record.note)
    return FormSpec(f"Call {record.name}", fields, save, context.setting, edits=True, verb="Change")


def _fields(name: str, calls_for: str, phone: str, note: str | None) -> tuple[Field, ...]:
    return (
        Field("name", "Name", Kind.TEXT, name, required=True),
        Field("calls_for", "For", Kind.NAME, calls_for, CALLED_FOR, required=True, hint="vet, electrician"),
        Field("phone", "Phone", Kind.TEXT, phone, required=True, blamed=("no phone number", "phone number has")),
        making.note(note),
    )
