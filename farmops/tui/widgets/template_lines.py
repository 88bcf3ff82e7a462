"""The list of templates: what gives a chore, when it is due, and what the grower changed."""

from __future__ import annotations

from datetime import date

from farmops.quantities import Measures
from farmops.reports.store import Store
from farmops.reports.templates import TemplateLine, template_lines
from farmops.tui.widgets.listing_lines import Column, Line

COLUMNS = (
    Column("chore", "chore", grow=True),
    Column("given", "given by", priority=1),
    Column("rule", "rule"),
    Column("minutes", "min", align="right", priority=2),
    Column("open", "open", align="right", priority=3),
    Column("changed", "yours"),
)
EMPTY = "No template is known."


def templates(store: Store, today: date, unit: str | None) -> list[TemplateLine]:
    """Every template; they are the same wherever one stands."""
    return template_lines(store)


def template_line(one: TemplateLine, measures: Measures) -> Line:
    """A template, quiet where it gives no chore."""
    cells = (
        one.template.title,
        one.given_by,
        one.template.rule,
        str(one.template.minutes),
        str(one.open_chores or ""),
        one.changed_words,
    )
    return Line(f"templates {one.template.key}", cells, look="quiet" if one.dropped else "normal", data=one)
