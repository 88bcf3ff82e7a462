"""Hours as a label gives them: text to hours and back."""

from __future__ import annotations

import re

from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

HOURS_A_DAY = 24
TYPED = re.compile(r"(?P<number>[0-9]{1,5}) ?(?P<unit>h|hrs?|hours?|d|days?)?")


def parse_hours(text: str) -> int:
    """`72 h`, `3 days`, or hours alone."""
    found = TYPED.fullmatch(" ".join(text.lower().split()))
    if found is None:
        raise NotUnderstood(f"{plain(text)!r} is no time to wait. Understood: 72 h, 3 days, or 72 for hours.")
    return int(found["number"]) * (HOURS_A_DAY if (found["unit"] or "").startswith("d") else 1)


def show_hours(hours: int) -> str:
    """Hours as they are read: `72 h`."""
    return f"{hours} h"
