"""What is told in plain text over a place, as tables for a file."""

from __future__ import annotations

from functools import partial

from farmops.exchange.compare_text import cautions, sentence
from farmops.exchange.tables import Table
from farmops.quantities import Measures
from farmops.quantities.readings import show_value
from farmops.reports.comparing import Compared, Comparisons
from farmops.reports.cycling import Cycling
from farmops.reports.investment import Investments
from farmops.reports.ranking import Ranked, Ranking
from farmops.reports.shown import shown
from farmops.tui.widgets.listing_lines import Column, Line, View
from farmops.tui.widgets.listing_tables import GoesOut, table_of

READ = (Column("measure", "measure"), Column("day", "day"), Column("value", "value", align="right"))
RANKED = ("assumed", "place", "by net", "by cost")
COMPARED = ("of", "verdict", "better", "weeks", "says")


def cycling_out(found: Cycling, measures: Measures) -> GoesOut:
    """Each reading since the cycling began, and their curves."""
    from farmops.exchange.chart_of import cycling_chart

    read = [
        Line(str(one.id), (measure.value, str(one.day), show_value(one.value, measure, measures)))
        for measure, curve in found.curves
        for one in curve
    ]
    title = f"{found.unit} cycling"
    return GoesOut(title, lambda: [table_of(READ, View(read))], partial(cycling_chart, found, measures))


def ranking_out(found: Ranking) -> GoesOut:
    """The order of the units under each assumption, a place on a row."""
    rows = [row for one in (found.as_set, *found.others) for row in _places(one)]
    return GoesOut("What the order of the units hangs on", lambda: [Table("rows", RANKED, rows)])


def _places(one: Ranked) -> list[tuple[str, int, str | None, str | None]]:
    def at(names: tuple[str, ...], place: int) -> str | None:
        return names[place] if place < len(names) else None

    most = max(len(one.by_net), len(one.by_cost))
    return [(one.words, place + 1, at(one.by_net, place), at(one.by_cost, place)) for place in range(most)]


def investments_out(found: Investments) -> GoesOut:
    """Each unit with its figures, or why there is none."""
    measures = found.settings.measures
    names = list(dict.fromkeys(name for one in found.units for name in one.figures()))
    columns = [Column("unit", "unit"), *(Column(name, name.replace("_", " "), align="right") for name in names)]
    lines = [
        Line(one.unit, (one.unit, *(shown(one.figures()[name], measures) for name in names))) for one in found.units
    ]
    return GoesOut("Earned back", lambda: [table_of(columns, View(lines))])


def comparisons_out(found: Comparisons, measures: Measures) -> GoesOut:
    """Each comparison with its verdict in words."""
    rows = [_compared(one, measures) for one in found.lines]
    return GoesOut(f"{found.first} beside {found.second}", lambda: [Table("rows", COMPARED, rows)])


def _compared(one: Compared, measures: Measures) -> tuple[str, str, str | None, int, str]:
    words = " ".join((sentence(one, measures), *cautions(one)))
    return one.what, str(one.verdict), one.better, one.weeks, words
