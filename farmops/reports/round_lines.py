"""Lines of the round: a chore that is due, one that was settled, and the same work in several places on one line."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.model.chores import Chore, Settled
from farmops.model.frozen import dataclass
from farmops.model.rations import LotRation
from farmops.reports.crew import ANYBODY, Doer

FOLDS_FROM = 3
"""Places from which on the same work stands on one line: two are read faster than opened."""
GO_LAST = "go there last: fish in trouble"
UNKNOWN_AMOUNT = "?"
"""The amount of a line of which a lot has no ration."""


def until_words(why: str, ends: str | None) -> str:
    """Why something holds and what ends it: one sentence, or two where the reason is one already."""
    if ends and why.endswith("."):
        return f"{why} Until {ends}."
    return f"{why}, until {ends}" if ends else why


@dataclass(frozen=True, slots=True)
class RoundLine:
    """One chore of the round. `missed` counts the occurrences that went by besides the one that is due.

    One that is asked for because of what was recorded says `why`, and what `ends` it where anything does but doing it.
    Where the fish of its unit are `troubled`, it comes last. One that feeds fish has the `rations` of its lots and
    their `amount` in all.
    """

    chore: Chore
    due: date
    days_late: int
    missed: int
    doer: Doer = ANYBODY
    why: str | None = None
    ends: str | None = None
    troubled: bool = False
    rations: tuple[LotRation, ...] = ()
    amount: str | None = None

    @property
    def where(self) -> str:
        """The place it belongs to, `all` for the farm's own."""
        return where_of(self.chore)

    @property
    def title(self) -> str:
        """What is done, how much is fed where it is known, and what is to be known before it is begun."""
        amount = f": {self.amount}" if self.amount and self.amount != UNKNOWN_AMOUNT else ""
        return f"{self.chore.title}{amount}{self._notes}"

    @property
    def name(self) -> str:
        """The same without the amount, which differs from place to place."""
        return f"{self.chore.title}{self._notes}"

    @property
    def _notes(self) -> str:
        """For adults only, who does it, where to go last."""
        adults, last = "adults only" if self.chore.adults_only else "", GO_LAST if self.troubled else ""
        notes = ", ".join(note for note in (adults, self.doer.words, last) if note)
        return f" ({notes})" if notes else ""

    @property
    def lateness(self) -> str:
        """How late it is, and how many went by, in words; nothing when it is not late."""
        return late_words(self.days_late, self.days_late, self.missed)

    @property
    def reason(self) -> str:
        """Why it is asked for and until when; nothing where its rule alone says so."""
        return until_words(self.why or "", self.ends)

    @property
    def asks(self) -> bool:
        """Whether it is not settled without an answer: a reading, or a confirmation it insists on."""
        return bool(self.chore.measures or self.chore.confirmation)


@dataclass(frozen=True, slots=True)
class SettledLine:
    """A chore that was settled on the day of the round."""

    chore: Chore
    settled: Settled

    @property
    def where(self) -> str:
        """The place it belongs to, `all` for the farm's own."""
        return where_of(self.chore)


@dataclass(frozen=True, slots=True)
class Fold:
    """The same work due in several places, on one line: same title, class and part of the day, same doer."""

    lines: tuple[RoundLine, ...]

    @property
    def first(self) -> RoundLine:
        """Its first line, in walking order."""
        return self.lines[0]

    @property
    def name(self) -> str:
        """What is done, with whom it is for where that is to be said."""
        return self.first.name

    @property
    def where(self) -> str:
        """How many places, such as `4 units`."""
        kinds = {"beds" if one.chore.bed else "lots" if one.chore.lot else "units" for one in self.lines}
        return f"{len(self.lines)} {kinds.pop() if len(kinds) == 1 else 'places'}"

    @property
    def title(self) -> str:
        """What is done and where."""
        if all(one.amount for one in self.lines):
            return f"{self.name}: {', '.join(f'{one.where} {one.amount}' for one in self.lines)}"
        return f"{self.name}: {' '.join(one.where for one in self.lines)}"

    @property
    def minutes(self) -> int:
        """Minutes of them all."""
        return sum(one.chore.minutes for one in self.lines)

    @property
    def days_late(self) -> int:
        """How late the latest of them is."""
        return max(one.days_late for one in self.lines)

    @property
    def lateness(self) -> str:
        """How late they are, from the least to the most, and how many went by."""
        return late_words(
            min(one.days_late for one in self.lines), self.days_late, sum(one.missed for one in self.lines)
        )

    @property
    def reason(self) -> str:
        """Why each of them is asked for, place by place, and until when where that is the same for all."""
        explained = ((one.where, one.why) for one in self.lines if one.why)
        said = [why if why.startswith(where) else f"{where}: {why}" for where, why in explained]
        ends = {one.ends for one in self.lines}
        until = f", until {self.first.ends}" if len(ends) == 1 and self.first.ends else ""
        return f"{'; '.join(said)}{until}"

    @property
    def asks(self) -> bool:
        """Whether any of them is not settled without an answer of its own."""
        return any(one.asks for one in self.lines)


Item = RoundLine | Fold


def folded(lines: Sequence[RoundLine]) -> tuple[Item, ...]:
    """The lines of a section, the same work in three or more places as one that stands where its first would."""
    alike: dict[tuple[object, ...], list[RoundLine]] = {}
    for line in lines:
        alike.setdefault(_work(line), []).append(line)
    return tuple(
        Fold(tuple(same)) if len(same) >= FOLDS_FROM else line
        for line in lines
        if len(same := alike[_work(line)]) < FOLDS_FROM or same[0] is line
    )


def _work(line: RoundLine) -> tuple[object, ...]:
    """What makes work the same to the person who does it. A template's chores share its title until one is renamed."""
    chore = line.chore
    title = " ".join(chore.title.casefold().split())
    apart = chore.id if chore.unit_id is None else None
    return title, chore.grade, chore.part, chore.adults_only, line.doer, line.troubled, apart


def where_of(chore: Chore) -> str:
    """The place a chore belongs to, `all` for the farm's own."""
    return chore.bed or chore.lot or chore.unit or "all"


def late_words(least: int, most: int, missed: int) -> str:
    """How many days late, and how many went by; nothing when none is late."""
    if not most:
        return ""
    days = str(most) if least == most else f"up to {most}"
    unit = "day" if days == "1" else "days"
    return f"{days} {unit} late" + (f", {missed} missed" if missed else "")
