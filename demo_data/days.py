"""Days that several files share: the last one, who was away, and the marks of the hidden slips."""

from __future__ import annotations

from datetime import date, timedelta

LAST = date(2026, 10, 14)
LAST_WEIGHED = date(2026, 10, 13)
SHARERS = ("Maren", "Tobit")
HELPER = "Ines"
HELPER_WEEKS = (
    (date(2025, 4, 20), date(2025, 4, 26)),
    (date(2025, 8, 3), date(2025, 8, 16)),
    (date(2026, 4, 19), date(2026, 4, 25)),
    (date(2026, 8, 2), date(2026, 8, 15)),
)
SCALE_HIGH = (date(2026, 2, 2), date(2026, 6, 30))
SCALE_HIGH_BY = 1.03
NO_TARE_WEEK = (date(2026, 7, 20), date(2026, 7, 26))
NO_TARE_UNIT = "ROOK"
HEAT_LOSS = date(2026, 7, 12)


def within(day: date, span: tuple[date, date]) -> bool:
    """Whether the day lies in a span, both ends included."""
    return span[0] <= day <= span[1]


def helped(day: date) -> bool:
    """Whether the helper minds the farm on that day."""
    return any(within(day, week) for week in HELPER_WEEKS)


def days(first: date, last: date) -> list[date]:
    """Every day from the first to the last."""
    return [first + timedelta(days=step) for step in range((last - first).days + 1)]
