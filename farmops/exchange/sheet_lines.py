"""A line of a sheet that comes back: what was done with one chore, how long it took, what was read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from farmops import clock
from farmops.model.chores import Chore, SettledAs, Settling
from farmops.model.errors import NotFound, NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.readings import Form, NewReading
from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.quantities.readings import typed_reading

NUMBER = re.compile(r"#?(?P<number>[0-9]{1,18})[.:]?(?: +|$)")
DONE = re.compile(r"(?:done|d|x|ok)(?: +|$)", re.IGNORECASE)
SKIP = re.compile(r"(?:skip|s)(?: +(?P<reason>.*))?", re.IGNORECASE)
DEFER = re.compile(r"defer(?: +(?:to +|until +)?(?P<day>.*))?", re.IGNORECASE)
UNIT = r"(?:as +)?(?:ion|N|NH4|NO[23]|[CF]|mg/L|ppm|min|s|L/h|gal/h|dKH|[um]S/cm)"
READING = re.compile(
    rf"(?P<measure>(?:fill|drain) +time|[A-Za-z][\w-]*) *= *(?P<value>[<>]? *[^\s=]+(?: +{UNIT}(?![\w/=]))*)",
    re.IGNORECASE,
)
MINUTES = re.compile(r"(?<![\w.,])(?P<minutes>[0-9]{1,4}) *min(?:utes|s)?\b\.?", re.IGNORECASE)
UNDERSTOOD = (
    "Understood after its number: done, skip and why, defer and a day, 6 min, pH=7.1, and the words it insists on."
)


@dataclass(frozen=True, slots=True)
class How:
    """How lines are understood: the farm's measures, the day they tell of, and what its kits report.

    Where a person is `sure`, an unlikely value is booked without asking.
    """

    measures: Measures
    on: date
    form: Form | None = None
    sure: bool = False


def chore_number(text: str) -> int:
    """The number a line begins with. Raises NotUnderstood."""
    found = NUMBER.match(text.strip())
    if found is None:
        raise NotUnderstood(f"{plain(text.strip())!r} begins with no number of a chore. {UNDERSTOOD}")
    return int(found["number"])


def settling_of(text: str, chores: Mapping[int, Chore], how: How) -> Settling:
    """What a line says of the chore whose number it begins with. Raises NotFound or NotUnderstood."""
    number = chore_number(text)
    if number not in chores:
        raise NotFound(f"There is no chore {number}. See: farmops chores list")
    return settling_for(chores[number], NUMBER.sub("", text.strip(), count=1), how)


def settling_for(chore: Chore, text: str, how: How) -> Settling:
    """What the rest of a line says of its chore; nothing more than a number means done. Raises NotUnderstood."""
    words = " ".join(text.split())
    skipped, deferred = SKIP.fullmatch(words), DEFER.fullmatch(words)
    if skipped is not None:
        return Settling(chore.id, SettledAs.SKIPPED, how.on, reason=skipped["reason"])
    if deferred is not None:
        until = clock.parse_day(deferred["day"] or "", how.on, ahead=True)
        return Settling(chore.id, SettledAs.DEFERRED, how.on, until=until)
    return _done(chore, DONE.sub("", words, count=1) if DONE.match(words) else words, how)


def _done(chore: Chore, words: str, how: How) -> Settling:
    readings = tuple(_reading(found, how) for found in READING.finditer(words))
    rest = READING.sub(" ", words)
    minutes = MINUTES.search(rest)
    rest = MINUTES.sub(" ", rest, count=1)
    return Settling(
        chore.id,
        SettledAs.DONE,
        how.on,
        confirmed=_confirmed(chore, rest),
        minutes=int(minutes["minutes"]) if minutes else None,
        readings=readings,
        sure=how.sure,
    )


def _reading(found: re.Match[str], how: How) -> NewReading:
    return typed_reading(found["measure"], found["value"].rstrip(",;"), how.measures, how.form, sure=how.sure)


def _confirmed(chore: Chore, rest: str) -> str | None:
    """The words it insists on, which a beginning of them says; nothing else may be left over."""
    words = " ".join(rest.replace(";", " ").split()).strip(" ,")
    if not words:
        return None
    if not chore.confirmed_by(words):
        insists = f"{chore.title} insists on: {chore.confirmation}. " if chore.confirmation else ""
        raise NotUnderstood(f"{plain(words)!r} is not understood. {insists}{UNDERSTOOD}")
    return chore.confirmation
