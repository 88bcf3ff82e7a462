"""What a stand-in is told: when not to feed, what never to do, what to be careful of; each with its source."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.frozen import dataclass


class RuleKind(StrEnum):
    """What a rule is about."""

    STOP = "stop"
    NEVER = "never"
    CAUTION = "caution"


@dataclass(frozen=True, slots=True)
class CareRule:
    """One rule in a sentence or two."""

    key: str
    kind: RuleKind
    words: str
    source: str
    standing: Standing


@cache
def care_rules() -> tuple[CareRule, ...]:
    """All rules, in the order of the table."""
    return tuple(
        CareRule(row["key"], RuleKind(row["kind"]), row["words"], row["source"], Standing(row["standing"]))
        for row in tables.read("care_rules.csv")
    )


def rules_of(kind: RuleKind) -> tuple[str, ...]:
    """The sentences of one kind."""
    return tuple(one.words for one in care_rules() if one.kind is kind)
