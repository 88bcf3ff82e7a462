"""Whom to call."""

from __future__ import annotations

from farmops.model.contacts import Contact
from farmops.records.reading import Reader

CONTACTS = "SELECT id, name, calls_for, phone, note FROM contact"


def contacts(reader: Reader, after: int = 0) -> list[Contact]:
    """Everybody to call, in the order in which they were written down; those after one of them where that is asked."""
    return reader.all(Contact, f"{CONTACTS} WHERE id > :after ORDER BY id", after=after)


def contact(reader: Reader, id: int) -> Contact | None:
    """The contact of that number."""
    return reader.one(Contact, f"{CONTACTS} WHERE id = :id", id=id)
