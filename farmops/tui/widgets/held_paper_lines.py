"""Lines for papers that run out, in Records."""

from __future__ import annotations

from datetime import date

from farmops.quantities import Measures
from farmops.reports.papers_held import PaperHeld, papers_held
from farmops.reports.store import Store
from farmops.tui.widgets.listing_lines import Column, Line

PAPER_COLUMNS = (
    Column("paper", "paper"),
    Column("name", "name", grow=True),
    Column("number", "number", priority=2),
    Column("for", "for", priority=1),
    Column("until", "good until"),
    Column("stands", ""),
)
NO_PAPER = "No paper yet. n files one: a permit, an insurance, a seal. 30 days ahead a chore calls for the next."


def held(store: Store, today: date, unit: str | None) -> list[PaperHeld]:
    """The papers of the farm and of one unit."""
    return [one for one in papers_held(store, today) if unit is None or one.paper.unit in (unit, None)]


def paper_line(one: PaperHeld, measures: Measures) -> Line:
    """A paper as a line."""
    paper = one.paper
    until = str(paper.until_day or "no end")
    cells = (paper.kind.value, paper.name, paper.number or "", paper.unit or "farm", until, one.stands)
    return Line(f"papers {one.id}", cells, look="quiet" if paper.renewed else "normal", data=one)
