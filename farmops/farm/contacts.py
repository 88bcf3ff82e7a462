"""Contacts: whom to call, written down and corrected."""

from __future__ import annotations

from farmops.facts import contacts as contact_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation
from farmops.model.contacts import Contact, ContactChange, NewContact
from farmops.model.errors import NotUnderstood
from farmops.model.text import name_of, note_of, plain
from farmops.records.notes import ContactRow

LONGEST_PHONE = 40
IN_NUMBERS = set("+-./() ")


@operation("add contact")
def add_contact(op: Operation, entry: NewContact) -> Contact:
    """Write down whom to call, and for what."""
    row = op.add(
        ContactRow(
            name=name_of(entry.name, "name"),
            phone=_phone(entry.phone),
            calls_for=name_of(entry.calls_for, "word for what they are called for"),
            note=note_of(entry.note),
        )
    )
    return _contact(op, row.id)


@operation("change contact")
def change_contact(op: Operation, entry: ContactChange) -> Contact:
    """Correct a name, a number, what they are called for, or a note."""
    row = op.get(ContactRow, entry.contact_id)
    values = mapped(
        given(entry, "name", "phone", "calls_for", "note"),
        name=lambda text: name_of(text, "name"),
        phone=_phone,
        calls_for=lambda text: name_of(text, "word for what they are called for"),
        note=note_of,
    )
    op.change(row, **values)
    return _contact(op, row.id)


def _phone(text: str) -> str:
    """A number as it is dialled: at least three digits, and the signs people part them with."""
    typed = name_of(text, "phone number", longest=LONGEST_PHONE)
    digits = sum(sign.isascii() and sign.isdigit() for sign in typed)
    known = all(sign.isascii() and (sign.isalnum() or sign in IN_NUMBERS) for sign in typed)
    if digits < 3 or not known:
        raise NotUnderstood(
            f"{plain(typed)!r} is no phone number. Understood: digits, such as 555 0100 or +1 (555) 010-0199 ext 4."
        )
    return typed


def _contact(op: Operation, id: int) -> Contact:
    found = contact_facts.contact(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
