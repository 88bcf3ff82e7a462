"""Absences: who is away from when to when, who stands in, and which work moves out of the time."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class Absence:
    """Somebody is away, both days included; the stand-in does what is on the care sheet."""

    id: int
    person_id: int
    person: str
    from_day: date
    until_day: date
    stand_in_id: int | None
    stand_in: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewAbsence:
    """Somebody is going away, both days included."""

    person_id: int
    from_day: date
    until_day: date
    stand_in_id: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class AbsenceChange:
    """A correction of an absence, such as coming home early."""

    absence_id: int
    person_id: int | Keep = KEEP
    from_day: date | Keep = KEEP
    until_day: date | Keep = KEEP
    stand_in_id: int | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class Moved:
    """A chore that is due on a day on which nobody is left to do it, or just before one leaves.

    `until` is the day it is put off to, None where it is due before anybody leaves. One that can be done `before`
    they leave does not come again until they are back.
    """

    chore_id: int
    title: str
    where: str
    due: date
    until: date | None
    before: bool


@dataclass(frozen=True, slots=True)
class Moves:
    """What moves out of an absence. `here` are those who stay, for whom nothing moves by itself."""

    moved: tuple[Moved, ...]
    here: tuple[str, ...]
    warnings: tuple[str, ...]

    @property
    def staying(self) -> str:
        """Why nothing moves by itself, in words; nothing where nobody stays."""
        if not self.here:
            return ""
        return f"{', '.join(self.here)} {'stays' if len(self.here) == 1 else 'stay'}: nothing moves by itself."

    @property
    def before(self) -> tuple[Moved, ...]:
        """What is to be done before leaving."""
        return tuple(one for one in self.moved if one.before)

    @property
    def put_off(self) -> tuple[Moved, ...]:
        """What is put off until somebody is back, unless it is done before."""
        return tuple(one for one in self.moved if one.until is not None)


@dataclass(frozen=True, slots=True)
class Away:
    """An absence with what moved out of it."""

    absence: Absence
    moves: Moves
