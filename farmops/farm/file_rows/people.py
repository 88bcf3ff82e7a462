"""Rows about people: who works here, whom to call, who is here and who is away."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from farmops.facts import absences as absence_facts
from farmops.facts import contacts as contact_facts
from farmops.facts import farm as farm_facts
from farmops.facts import presence as presence_facts
from farmops.farm.absences import go_away
from farmops.farm.contacts import add_contact
from farmops.farm.farm import write_person
from farmops.farm.file_rows.booking import Booking, Known, Mark, agrees, alike, looked_up, named, refuse_other
from farmops.farm.operation import Operation
from farmops.farm.presence import say_who_is_here
from farmops.model.absences import NewAbsence
from farmops.model.contacts import Contact, NewContact
from farmops.model.farm import NewPerson
from farmops.model.frozen import dataclass
from farmops.model.presence import NewPresence


@dataclass(frozen=True, slots=True)
class PersonSaid:
    """What a row says of somebody, None where it says nothing."""

    name: str
    minor: bool | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class PresentSaid:
    """Somebody is here on a day."""

    day: date
    person_id: int


def _people_there(op: Operation) -> Callable[[PersonSaid], bool]:
    known = Known(op, farm_facts.people, lambda one: alike(one.name))

    def there(said: PersonSaid) -> bool:
        for one in known.alike(alike(said.name)):
            refuse_other(one.name, age=(said.minor, one.minor), note=(said.note, one.note))
            return True
        return False

    return there


def _book_person(op: Operation, said: PersonSaid) -> None:
    """Nobody of that name is there: it was looked up."""
    write_person(op, NewPerson(said.name, said.note, said.minor or False))


def _contacts_there(op: Operation) -> Callable[[NewContact], bool]:
    known = Known(op, contact_facts.contacts, _called)
    return lambda said: any(agrees(said.note, one.note) for one in known.alike(_called(said)))


def _called(one: Contact | NewContact) -> Mark:
    return alike(one.name), alike(one.phone), alike(one.calls_for)


def _absence_there(op: Operation, said: NewAbsence) -> bool:
    found = [
        one
        for one in absence_facts.absences_in(op.reader, said.from_day, said.until_day)
        if (one.person_id, one.from_day, one.until_day) == (said.person_id, said.from_day, said.until_day)
    ]
    for one in found:
        refuse_other(
            f"{one.person} away from {one.from_day}",
            stand_in=(said.stand_in_id, one.stand_in_id),
            note=(said.note, one.note),
        )
    return bool(found)


def _present_there(op: Operation, said: PresentSaid) -> bool:
    return said.person_id in presence_facts.said_of(op.reader, said.day)


def _book_present(op: Operation, said: PresentSaid) -> None:
    """Say of somebody that they are here, beside those of whom it is said."""
    others = presence_facts.said_of(op.reader, said.day)
    say_who_is_here.body(op, NewPresence(said.day, (*others, said.person_id)))


BOOKINGS: dict[str, Booking[Any]] = {
    "people": looked_up(_people_there, _book_person),
    "contacts": looked_up(_contacts_there, add_contact.body),
    "presence": named(_present_there, _book_present),
    "absences": named(_absence_there, go_away.body),
}
