"""What a look through a store finds: what is wrong, where, and what is to be done about it."""

from __future__ import annotations

from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.journal import operations_in_words


class Part(StrEnum):
    """What is looked through, from the ground up."""

    PAGES = "pages"
    LINKS = "links"
    NUMBERS = "numbers"
    JOURNAL = "journal"
    ROWS = "rows"
    DUE_DAYS = "due days"
    FIGURES = "figures"
    FILES = "files"
    ENTRIES = "entries"


PARTS_IN_WORDS = {
    Part.PAGES: "the pages of the file",
    Part.LINKS: "links between records",
    Part.NUMBERS: "numbers given to records",
    Part.JOURNAL: "the chain of the journal",
    Part.ROWS: "records against the journal",
    Part.DUE_DAYS: "due days of chores",
    Part.FIGURES: "figures that must add up",
    Part.FILES: "photos and receipts",
    Part.ENTRIES: "entries that look unlikely",
}


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong: in which part, in words, and whether `farmops check --repair` puts it right.

    `kind` and `id` name the record, where it is one.
    """

    part: Part
    words: str
    kind: str | None = None
    id: int | None = None
    mends: bool = False


@dataclass(frozen=True, slots=True)
class Looked:
    """What was looked through, how many operations the journal has, and what was found, gravest first."""

    parts: tuple[Part, ...]
    operations: int
    findings: tuple[Finding, ...]

    @property
    def can_be_mended(self) -> bool:
        """Whether something can be put right without a decision, on ground that is sound."""
        grave = {Part.PAGES, Part.LINKS, Part.NUMBERS, Part.JOURNAL, Part.ROWS}
        return any(one.mends for one in self.findings) and not any(one.part in grave for one in self.findings)

    @property
    def words(self) -> str:
        """What it comes to, and what to do next."""
        if not self.findings:
            return f"All is whole: {operations_in_words(self.operations)}. Looked through: {_listed(self.parts)}."
        unlikely = sum(one.part is Part.ENTRIES for one in self.findings)
        wrong = len(self.findings) - unlikely
        said = [f"{wrong} {'thing is' if wrong == 1 else 'things are'} not right."] if wrong else []
        said += [f"{unlikely} {'entry looks' if unlikely == 1 else 'entries look'} unlikely."] if unlikely else []
        return " ".join([*said, self._next])

    @property
    def _next(self) -> str:
        if self.can_be_mended:
            return "What can be put right without a decision: farmops check --repair"
        if all(one.part in (Part.FILES, Part.ENTRIES) for one in self.findings):
            return "The records themselves are whole."
        return "Book nothing more here, and put a backup back: farmops backup --list"


def _listed(parts: tuple[Part, ...]) -> str:
    return ", ".join(PARTS_IN_WORDS[part] for part in parts)


@dataclass(frozen=True, slots=True)
class Repair:
    """To put right what can be put right without a decision."""


@dataclass(frozen=True, slots=True)
class Repaired:
    """How many due days were put right."""

    due_days: int


def repaired_in_words(done: Repaired) -> str:
    """What was put right."""
    return f"Put right: {'1 due day' if done.due_days == 1 else f'{done.due_days} due days'}."
