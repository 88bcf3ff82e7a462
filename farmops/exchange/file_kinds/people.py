"""Files about people: who works here, whom to call, who is here and who is away."""

from __future__ import annotations

from farmops.exchange.cells import Cells
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, Kind, Take, each
from farmops.farm.file_rows.people import PersonSaid, PresentSaid
from farmops.model.absences import NewAbsence
from farmops.model.contacts import NewContact


def _person(cells: Cells, _: Take) -> PersonSaid:
    return PersonSaid(cells.name("name"), cells.yes("minor"), cells.note())


def _contact(cells: Cells, _: Take) -> NewContact:
    return NewContact(cells.name("name"), cells.name("phone"), cells.name("for"), cells.note())


def _present(cells: Cells, take: Take) -> PresentSaid:
    return PresentSaid(cells.day(), take.names.person(cells, "who"))


def _absence(cells: Cells, take: Take) -> NewAbsence:
    return NewAbsence(
        take.names.person(cells, "who"),
        cells.day("from"),
        cells.day("until"),
        None if cells.empty("stand-in") else take.names.person(cells, "stand-in"),
        cells.note(),
    )


PEOPLE = (Column("name", needed=True, also=("who", "person")), Column("minor", also=("not of age",)), NOTE)
CONTACTS = (
    Column("name", needed=True, also=("who", "contact")),
    Column("phone", needed=True, also=("number", "telephone", "tel")),
    Column("for", needed=True, also=("calls for", "called for", "what")),
    NOTE,
)
PRESENT = (DATE, Column("who", needed=True, also=("name", "person"), numbered=("person id",)))
ABSENCES = (
    Column("who", needed=True, also=("name", "person"), numbered=("person id",)),
    Column("from", needed=True, also=("from day", "first day", "first")),
    Column("until", needed=True, also=("until day", "to", "last day", "last")),
    Column("stand-in", also=("stand in",), numbered=("stand in id",)),
    NOTE,
)
KINDS = (
    Kind("people", PEOPLE, each(_person)),
    Kind("contacts", CONTACTS, each(_contact)),
    Kind("presence", PRESENT, each(_present)),
    Kind("absences", ABSENCES, each(_absence)),
)
