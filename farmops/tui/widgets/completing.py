"""Completing names while they are typed: a few letters stand for the one name that they begin."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import accumulate, islice
from typing import TYPE_CHECKING

from textual.suggester import Suggester

from farmops.model.errors import NotFound, NotUnderstood
from farmops.model.nearness import near_names
from farmops.model.text import plain

if TYPE_CHECKING:
    from farmops.tui.widgets.fields import Field

NAMED_AT_MOST = 8
FEW = 16
"""Names that are listed one and all where they are short; of more of them, the first are named."""
MOST_KNOWN = 200
"""Of more names than this, the first few say nothing to who missed one."""
LISTED_SIGNS = 160
"""Signs up to which names are listed in a sentence, so that long ones leave the field above it in sight."""


def folded(text: str) -> str:
    """The text as it is compared: case and runs of blanks do not count."""
    return " ".join(text.casefold().split())


def matches(options: Sequence[str], typed: str) -> tuple[str, ...]:
    """The options that begin with what was typed; if none does, those with words that begin with its words."""
    wanted = folded(typed)
    if not wanted:
        return ()
    beginning = tuple(one for one in options if folded(one).startswith(wanted))
    return beginning or tuple(one for one in options if _has_words(folded(one), wanted.split()))


def _has_words(option: str, words: Sequence[str]) -> bool:
    return all(re.search(rf"(?<![^\W_]){re.escape(word)}", option) for word in words)


def resolved(field: Field, typed: str) -> str:
    """The option that was meant; the text itself where a field takes any. Raises NotFound or NotUnderstood."""
    exact = next((one for one in field.options if folded(one) == folded(typed)), None)
    picked = exact or _by_number(field, typed)
    if picked is not None:
        return picked
    found = matches(field.options, typed)
    if not field.strict:
        return found[0] if len(found) == 1 and continues(found[0], typed) else typed.strip()
    if len(found) == 1 or (found and field.nearest):
        return found[0]
    if found:
        raise NotUnderstood(f"Which one: {_listed(found)}?")
    raise NotFound(_missing(field, typed))


def _by_number(field: Field, typed: str) -> str | None:
    digits = typed.strip()
    if field.numbered and digits.isascii() and digits.isdigit() and 0 < int(digits) <= len(field.options):
        return field.options[int(digits) - 1]
    return None


def continues(option: str, typed: str) -> bool:
    """Whether typing stopped within a word of the option; a whole word, or a blank at the end, is meant as it is."""
    wanted = folded(typed)
    rest = folded(option)[len(wanted) :]
    return folded(option).startswith(wanted) and rest[:1].isalnum() and not typed.endswith(" ")


def _missing(field: Field, typed: str) -> str:
    named = near_names(typed, field.options) or _near_ends(typed, field.options)
    if named:
        hint = f"Did you mean {' or '.join(plain(one) for one in named)}?"
    else:
        hint = f"Known: {_listed(field.options)}." if field.options and len(field.options) <= MOST_KNOWN else ""
    return " ".join(part for part in (f"There is no {plain(typed.strip())!r} here.", hint, field.otherwise) if part)


def _near_ends(typed: str, options: Sequence[str]) -> list[str]:
    """The options of which the end, as the city of a time zone, is near to what was typed."""
    ends = {one.rpartition("/")[2].replace("_", " "): one for one in options if "/" in one}
    return [ends[end] for end in near_names(typed, ends)]


def told_at_once(options: Sequence[str]) -> tuple[str, ...]:
    """The names to choose from before a letter is typed: all of a few short ones, else the first."""
    few = len(options) <= FEW and sum(len(one) for one in options) <= LISTED_SIGNS
    return tuple(options if few else options[:NAMED_AT_MOST])


def _listed(options: Sequence[str]) -> str:
    """The first of them, fewer where they are long, and how many more there are."""
    most = len(told_at_once(options))
    lengths = accumulate(len(one) for one in options)
    many = max(1, sum(1 for used in islice(lengths, most) if used <= LISTED_SIGNS))
    shown = ", ".join(plain(one) for one in options[:many])
    return f"{shown} and {len(options) - many} more" if len(options) > many else shown


class OnlyOne(Suggester):
    """Suggests the rest of a name as soon as no other name begins that way."""

    def __init__(self, field: Field) -> None:
        super().__init__(use_cache=False, case_sensitive=True)
        self.field = field

    async def get_suggestion(self, value: str) -> str | None:
        """The one name that begins with the value, if it would be taken."""
        found = matches(self.field.options, value)
        if len(found) != 1 or not found[0].casefold().startswith(value.casefold()):
            return None
        return found[0] if self.field.strict or continues(found[0], value) else None
