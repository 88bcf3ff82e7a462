"""The days of a rule before there is a chore: what is told of it, and what cannot be told yet."""

from __future__ import annotations

from datetime import date

from farmops.model.errors import Refused
from farmops.schedule.due import upcoming
from farmops.schedule.rules import ByUse, Rule, WhenHolds
from farmops.schedule.words import in_words


def foreseen(rule: Rule, most: int) -> list[date]:
    """The next days of the rule, at most `most`, each done when due. Raises Refused where only records say when."""
    told = untold(rule)
    if told:
        raise Refused(f"No days of '{in_words(rule)}' can be shown: {told}.")
    return upcoming(rule, most)


def untold(rule: Rule) -> str:
    """Why no days of a rule can be told from the rule alone; nothing where they can."""
    match rule:
        case ByUse():
            return "it is due by what is booked as used"
        case WhenHolds():
            return "it is due while that holds"
        case _:
            return ""
