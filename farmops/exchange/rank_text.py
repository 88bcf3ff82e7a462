"""The order of the units under other assumptions, and units as investments, as plain text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from farmops.figures import Figure
from farmops.model.text import filled, width
from farmops.quantities import Measures, main_mass_unit
from farmops.reports.investment import Investment, Investments
from farmops.reports.ranking import Ranked, Ranking
from farmops.reports.shown import shown

MOST = 4
GAP = "  "
NO_UNIT = "No unit brought anything in this span."
CHANGED = "*"
A_YEAR = 365
SHORT_SPAN = "The span is shorter than a year: the other seasons may leave less, or more."


def rank_text(found: Ranking, columns: int = 80) -> Iterator[str]:
    """A sentence for each order, then the table; what differs from the farm's own order is marked."""
    yield f"{found.span.first} to {found.span.last}, {found.basis} cost, best first"
    if not found.as_set.by_net and not found.as_set.by_cost:
        yield NO_UNIT
        return
    price = f"cost per {main_mass_unit(found.settings.measures)}"
    yield hangs_on(found, "by_net", "net return")
    yield hangs_on(found, "by_cost", price)
    yield ""
    rows = [["", "by net return", f"by {price}"], *(_row(one, found.as_set) for one in (found.as_set, *found.others))]
    if sum(_widths(rows)) + 2 * len(GAP) <= columns:
        yield from aligned(rows)
        return
    for at in (1, 2):
        narrow = [[row[0], row[at]] for row in rows]
        yield from aligned(narrow) if sum(_widths(narrow)) + len(GAP) <= columns else _below_each_other(narrow, columns)
        yield ""


def _below_each_other(rows: Sequence[Sequence[str]], columns: int) -> Iterator[str]:
    """Each row as a sentence on as many lines as it needs, for names too long for a table."""
    for words, units in rows:
        yield from wrap(f"{words}: {units}" if words else units, columns, subsequent_indent=GAP, break_on_hyphens=False)


def hangs_on(found: Ranking, order: str, words: str) -> str:
    """Whether the best by one order stays the best, and what the answer hangs on."""
    units = getattr(found.as_set, order)
    if not units:
        return f"By {words} there is no order yet: not enough records."
    first, other = found.first_changed(order), found.changed(order)
    if first:
        return f"By {words} {units[0]} is first, but not with {_listed(first)}."
    if other:
        return f"By {words} {units[0]} is first whatever is assumed; the others change places with {_listed(other)}."
    return f"By {words} the order is the same whatever is assumed."


def _listed(words: Sequence[str]) -> str:
    return ", ".join(words)


def _row(one: Ranked, as_set: Ranked) -> list[str]:
    return [one.words, _units(one.by_net, as_set.by_net), _units(one.by_cost, as_set.by_cost)]


def _units(units: Sequence[str], usual: Sequence[str]) -> str:
    named = " ".join(units[:MOST]) + (f" +{len(units) - MOST}" if len(units) > MOST else "")
    return f"{named or '-'} {CHANGED}" if tuple(units) != tuple(usual) else named or "-"


def _widths(rows: Sequence[Sequence[str]]) -> list[int]:
    return [max(width(row[at]) for row in rows) for at in range(len(rows[0]))]


def aligned(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Rows in columns, the first one named on the left."""
    widths = _widths(rows)
    for row in rows:
        yield GAP.join(filled(cell, wide) for cell, wide in zip(row, widths, strict=True)).rstrip()


def investment_text(found: Investments, columns: int = 80) -> Iterator[str]:
    """Each unit as an investment, in lines of words: what it took, what it leaves, when it is earned back."""
    yield f"{found.span.first} to {found.span.last}, interest {shown_share(found)} a year, " + (
        "labour counted" if found.labour else "labour not counted"
    )
    if found.span.days < A_YEAR:
        yield SHORT_SPAN
    if not found.units:
        yield "No unit yet."
    for one in found.units:
        yield ""
        yield one.unit
        yield from (f"  {words:<22}{value}" for words, value in investment_lines(one, found.settings.measures))


def shown_share(found: Investments) -> str:
    """The rate of interest as a person reads it."""
    return f"{float(found.interest) * 100:g} %"


def investment_lines(one: Investment, measures: Measures) -> list[tuple[str, str]]:
    """Words and values; where most is missing for one reason, only what is missing."""
    lacking = one.outlay if one.outlay.value is None else one.a_year
    if lacking.value is None:
        return [("earned back", str(lacking.reason))]
    lines: list[tuple[str, Figure]] = [
        ("took to build", one.outlay),
        ("leaves in a year", one.a_year),
        ("earned back in", one.payback),
        ("  with interest", one.discounted_payback),
        ("worth today", one.worth_today),
        ("rate of return", one.rate_of_return),
    ]
    return [(words, shown(figure, measures)) for words, figure in lines]
