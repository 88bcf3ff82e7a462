"""Lines for costs that come again: those that are due and those to come."""

from __future__ import annotations

from collections.abc import Sequence

from farmops.quantities import Measures, show_money
from farmops.reports.recurring import Recurrence
from farmops.tui.widgets.listing_lines import Heading, Line


def due_lines(found: Sequence[Recurrence], measures: Measures) -> list[Line | Heading]:
    """What is due and not booked, under its heading."""
    lines: list[Line | Heading] = [recurring_line(one, measures) for one in found if one.due]
    return [Heading("Due again: p books it when it is paid"), *lines] if lines else []


def coming_lines(found: Sequence[Recurrence], measures: Measures) -> list[Line | Heading]:
    """What comes again later, or is over, under its heading."""
    lines: list[Line | Heading] = [recurring_line(one, measures) for one in found if not one.due]
    return [Heading("Comes again"), *lines] if lines else []


def recurring_line(one: Recurrence, measures: Measures) -> Line:
    """What comes again as a line, with the day of the first open time."""
    cost = one.cost
    more = f", {len(one.due)} times open" if len(one.due) > 1 else ""
    cells = (
        str(one.next or "over"),
        f"{cost.what}{more}",
        cost.unit or "all",
        show_money(cost.amount_minor, measures),
        cost.rule_words,
        cost.payee or "",
    )
    return Line(f"recurring {one.id}", cells, look="normal" if one.due else "quiet", data=one)
