"""Who does what on a day: chores fall to whom they are given, else to whoever is here."""

from __future__ import annotations

from datetime import date

from farmops.facts import farm as farm_facts
from farmops.facts import presence as presence_facts
from farmops.facts.reading import Store
from farmops.model.chores import Chore
from farmops.model.farm import Person
from farmops.model.frozen import dataclass
from farmops.model.presence import Crew


@dataclass(frozen=True, slots=True)
class Doer:
    """Who does a chore on a day; `person` None is anybody who is here and may.

    `usual` is whose it is as a rule when that is somebody else, who is not here. What `waits` is for adults only, and
    no adult is here.
    """

    person: Person | None = None
    usual: Person | None = None
    waits: bool = False

    @property
    def words(self) -> str:
        """Who does it, where that is to be said."""
        if self.waits:
            return "waits for an adult"
        if self.usual is None:
            return self.person.name if self.person else ""
        return f"{self.person.name} for {self.usual.name}" if self.person else f"{self.usual.name} is not here"

    def is_for(self, person: Person) -> bool:
        """Whether the chore falls to a person who is here: it is theirs, or anybody's."""
        return self.person is None or self.person.id == person.id


ANYBODY = Doer()


def crew_of(store: Store, on: date | None = None) -> Crew:
    """Everybody and whether they are here on a day."""
    with store.reading() as reader:
        return presence_facts.crew_on(reader, on or farm_facts.farm(reader).today())


def doer_of(chore: Chore, crew: Crew) -> Doer:
    """Who does a chore: whose it is as a rule, else who stands in for them, else the one person here who may."""
    able = [one for one in crew.here if may(chore, one)]
    if crew.here and not able:
        return Doer(waits=True)
    usual = crew.member(chore.person_id) if chore.person_id is not None else None
    if usual is None:
        return ANYBODY
    if usual.here:
        return Doer(usual.person)
    instead = next((one for one in able if one.id == usual.stand_in_id), able[0] if len(able) == 1 else None)
    return Doer(instead, usual.person)


def falls_to(person: Person, chore: Chore, doer: Doer, crew: Crew) -> bool:
    """Whether a chore is in the round of a person who is here; a minor is told what waits for an adult, too."""
    return person in crew.here and (doer.waits or (doer.is_for(person) and may(chore, person)))


def may(chore: Chore, person: Person) -> bool:
    """Whether a person may be given a chore."""
    return not (chore.adults_only and person.minor)
