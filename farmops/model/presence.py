"""Who is here on a day, who is away, and who stands in."""

from __future__ import annotations

from datetime import date

from farmops.model.farm import Person
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class NewPresence:
    """Who is here on a day, by number; nobody named takes back what was said of the day."""

    day: date
    people: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Member:
    """Somebody who works here and whether they are here on a day; `away_until` and `stand_in_id` while away."""

    person: Person
    here: bool
    away_until: date | None = None
    stand_in_id: int | None = None


@dataclass(frozen=True, slots=True)
class Crew:
    """Everybody on a day. Where nothing was `said` of the day, who is not away is here."""

    day: date
    said: bool
    members: tuple[Member, ...]

    @property
    def here(self) -> tuple[Person, ...]:
        """Who is here."""
        return tuple(one.person for one in self.members if one.here)

    def member(self, person_id: int) -> Member | None:
        """The one of that number."""
        return next((one for one in self.members if one.person.id == person_id), None)
