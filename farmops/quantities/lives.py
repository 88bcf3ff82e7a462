"""How long a thing lasts: text to months and back."""

from __future__ import annotations

import re

from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

MONTHS_A_YEAR = 12
YEARS = r"(?P<years>[0-9]{1,4}) ?(?:years?|yrs?|y)"
MONTHS = r"(?P<months>[0-9]{1,5}) ?(?:months?|mos?|m)"
LIFE = re.compile(rf"(?P<bare>[0-9]{{1,5}})|(?:{YEARS})?(?: ?{MONTHS})?")


def parse_life(text: str) -> int:
    """The life of a thing in months: `8 years`, `30 months`, `2 years 6 months`, or months alone."""
    match = LIFE.fullmatch(" ".join(text.lower().split()))
    if match is None or not any(match.groups()):
        raise NotUnderstood(
            f"{plain(text)!r} is no length of life. Understood: 8 years, 30 months, 2 years 6 months, or 30 for months."
        )
    if match["bare"]:
        return int(match["bare"])
    return int(match["years"] or 0) * MONTHS_A_YEAR + int(match["months"] or 0)


def show_life(months: int) -> str:
    """A length of life as it is read: `2 years 6 months`."""
    years, rest = divmod(months, MONTHS_A_YEAR)
    counted = ((years, "year"), (rest, "month"))
    return " ".join(f"{many} {name}{'s' if many > 1 else ''}" for many, name in counted if many)
