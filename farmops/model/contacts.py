"""Contacts: whom to call, and for what."""

from __future__ import annotations

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class Contact:
    """Somebody to call: a vet, an electrician, a neighbour, an agency."""

    id: int
    name: str
    calls_for: str
    phone: str
    note: str | None


@dataclass(frozen=True, slots=True)
class NewContact:
    """Somebody who can be called from now on."""

    name: str
    phone: str
    calls_for: str
    note: str | None = None


@dataclass(frozen=True, slots=True)
class ContactChange:
    """A correction of a contact."""

    contact_id: int
    name: str | Keep = KEEP
    phone: str | Keep = KEEP
    calls_for: str | Keep = KEEP
    note: str | Keep | None = KEEP
