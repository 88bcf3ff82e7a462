"""`farmops returns`: what each unit, bed, crop, fish lot, month or year brought and cost."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import chart_options, span_options, word
from farmops.cli.output import emit, line, say, table, table_width, terminal_width
from farmops.cli.trees import only_in_json, why_option, whys
from farmops.figures import Figure, Number
from farmops.model.costs import Basis
from farmops.quantities import main_area_unit, main_mass_unit
from farmops.reports.returns import Asked, Returns, UnitReturns, monthly, yearly
from farmops.reports.returns import returns as unit_returns
from farmops.reports.shown import shown, shown_bare
from farmops.reports.yields import By, YieldLine, Yields, yields

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart
    from farmops.reports.spans import Span

BASES = [basis.value for basis in Basis]
MG_PER_G = 1_000
HEADS = ["", "state", "produce", "per area", "cost per weight", "fish", "value", "cost", "net"]


@click.command()
@span_options
@click.option(
    "--by",
    "grouped",
    type=click.Choice(["unit", "bed", "crop", "lot", "month", "year"]),
    default="unit",
    show_default=True,
)
@click.option("--basis", type=click.Choice(BASES), default="full", show_default=True, help="Which costs are counted.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@why_option
@chart_options
@pass_desk
def returns(
    desk: Desk,
    first: str | None,
    last: str | None,
    grouped: str,
    basis: str,
    on: str | None,
    with_why: bool,
    as_json: bool,
) -> None:
    """Yield, cost per weight, value and net return; produce and fish apart.

    \b
    Cash counts money paid in the span; operating the operating costs; full adds ownership by the day.
    Examples: farmops returns --from "1 mar" --to "14 oct"
              farmops returns --by crop
              farmops returns --basis cash --json --why
    """
    only_in_json(with_why, as_json)
    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last), word(Basis, basis))
    if grouped in ("bed", "crop", "lot"):
        _yields(desk, yields(desk.store, asked, By(grouped)), as_json, with_why)
    elif grouped == "month":
        _spans(desk, monthly(desk.store, asked), "month", as_json, with_why)
    elif grouped == "year":
        _spans(desk, yearly(desk.store, asked), "year", as_json, with_why)
    else:
        _units(desk, unit_returns(desk.store, asked), as_json, with_why)


def _units(desk: Desk, found: Returns, as_json: bool, with_why: bool) -> None:
    if as_json:
        units = [plain_returns(one, with_why) for one in found.units]
        told = {**_head(found), "units": units, "farm": plain_returns(found.farm, with_why)}
        emit(told, lambda: _units_drawn(desk, found))
    else:
        print_returns(desk, found)


def print_returns(desk: Desk, found: Returns) -> None:
    """The table of units and what a reader should know beside it; on a narrow terminal units of measure go above."""
    line(f"{found.span.first} to {found.span.last}, {found.basis} cost")
    if not found.units:
        say("No unit yet. Add the first: farmops units add WREN --state building")
        return
    lines = (*found.units, found.farm)
    rows = [_row(desk, one) for one in lines]
    if table_width(HEADS, rows) <= terminal_width():
        table(HEADS, rows, right=[2, 3, 4, 5, 6, 7, 8])
    else:
        table(_narrow_heads(desk), [_narrow_row(desk, one) for one in lines], right=[1, 2, 3, 4, 5, 6, 7])
    _measures(desk, [one for one in lines if one.value.value or one.cost.value])
    _notes(desk, found)


def _measures(desk: Desk, lines: list[UnitReturns]) -> None:
    """What value and cost come to, unit by unit."""
    mass, area = main_mass_unit(desk.measures), main_area_unit(desk.measures)
    heads = [
        desk.measures.currency,
        "over operating",
        "an hour",
        f"value/{area}",
        f"pays at /{mass}",
        "pays at harvest of",
    ]
    rows = []
    for one in lines:
        figures = (one.over_operating, one.per_hour, one.value_per_area, one.break_even_price, one.break_even_yield)
        cells = ["-" if figure.value is None else shown_bare(figure, desk.measures) for figure in figures]
        rows.append([one.unit.removeprefix("the "), *cells])
    line()
    table(heads, rows, right=[1, 2, 3, 4, 5])


def _narrow_heads(desk: Desk) -> list[str]:
    mass, area = main_mass_unit(desk.measures), main_area_unit(desk.measures)
    return [desk.measures.currency, "produce", f"{mass}/{area}", f"cost/{mass}", "fish", "value", "cost", "net"]


def _narrow_row(desk: Desk, one: UnitReturns) -> list[str]:
    figures = (one.marketable, one.yield_per_area, one.cost_per_mass, one.fish, one.value, one.cost, one.net)
    cells = ["-" if figure.value is None else shown_bare(figure, desk.measures) for figure in figures]
    return [one.unit.removeprefix("the "), *cells]


def _head(found: Returns) -> dict[str, object]:
    return {
        "from": found.span.first,
        "to": found.span.last,
        "basis": found.basis,
        "currency": found.settings.measures.currency,
        "not_shared_cents": found.unshared.value,
        "marked_sold_g": found.sales.marked_mg / MG_PER_G,
        "in_sales_g": found.sales.covered_mg / MG_PER_G,
    }


def _row(desk: Desk, one: UnitReturns) -> list[str]:
    figures = (one.marketable, one.yield_per_area, one.cost_per_mass, one.fish, one.value, one.cost, one.net)
    return [one.unit, one.state or "", *(_cell(desk, figure) for figure in figures)]


def _cell(desk: Desk, figure: Figure) -> str:
    return "-" if figure.value is None else shown(figure, desk.measures)


def _notes(desk: Desk, found: Returns) -> None:
    """Why cells are empty, and what a reader should know beside the numbers."""
    if found.unshared.value:
        say(f"{shown(found.unshared, desk.measures)} is shared, but no unit was active to bear it.")
    for words in found.sales.words:
        say(words)
    reasons: dict[str, list[str]] = {}
    for one in found.units:
        for figure in one.figures().values():
            if figure.value is None and figure.reason and one.unit not in reasons.get(figure.reason, []):
                reasons.setdefault(figure.reason, []).append(one.unit)
    for reason, units in reasons.items():
        say(f"- for {', '.join(units[:6])}{' and others' if len(units) > 6 else ''}: {reason}.")
    for note in dict.fromkeys(figure.note for figure in (found.farm.cost_per_mass, *(u.cost for u in found.units))):
        if note:
            say(note)


SHORT = {"month": "%Y-%m", "year": "%Y"}
NAMED = {"month": "%b %Y", "year": "%Y"}


def _spans(desk: Desk, found: tuple[Returns, ...], each: str, as_json: bool, with_why: bool) -> None:
    if as_json:
        lines = [
            {each: f"{one.span.first:{SHORT[each]}}", **_head(one), "farm": plain_returns(one.farm, with_why)}
            for one in found
        ]
        told = {"basis": found[0].basis, "currency": found[0].settings.measures.currency, f"{each}s": lines}
        emit(told, lambda: _prices_drawn(desk, found))
        return
    rows = [[f"{one.span.first:{NAMED[each]}}", *_row(desk, one.farm)[2:]] for one in found]
    table(["", *HEADS[2:]], rows, right=[1, 2, 3, 4, 5, 6, 7])


def _yields(desk: Desk, found: Yields, as_json: bool, with_why: bool) -> None:
    if as_json:
        lines = [_plain_yield(found.by, one, with_why) for one in found.lines]
        told = {"from": found.span.first, "to": found.span.last, "currency": desk.measures.currency}
        emit({**told, f"{found.by}s": lines}, lambda: _yields_drawn(desk, found))
        return
    line(f"{found.span.first} to {found.span.last}, by {found.by}")
    mass, area = main_mass_unit(desk.measures), main_area_unit(desk.measures)
    heads = [found.by, "produce", "area", f"{mass}/{area}", f"cost/{mass}", "value", "cost", "net"]
    rows = []
    for one in found.lines:
        figures = (one.marketable, one.area, one.yield_per_area, one.cost_per_mass, one.value, one.cost, one.net)
        rows.append([one.name, *("-" if each.value is None else shown_bare(each, desk.measures) for each in figures)])
    if found.by is By.LOT:
        heads, rows = _without_area([heads, *rows])
    table(heads, rows, right=range(1, len(heads)))


def _units_drawn(desk: Desk, found: Returns) -> Chart:
    from farmops.exchange.chart_of import yields_chart
    from farmops.reports.spread import sure_of_units

    rows = [(one.unit, {"per area": one.yield_per_area}) for one in (*found.units, found.farm)]
    sure = sure_of_units(desk.store, found.span)
    return yields_chart(rows, sure.spreads, f"Produce per area, {_span_words(found.span)}", desk.measures)


def _yields_drawn(desk: Desk, found: Yields) -> Chart:
    from farmops.exchange.chart_of import yields_chart
    from farmops.reports.spread import sure_of_names

    rows = [(one.name, {"per area": one.yield_per_area}) for one in found.lines]
    names = [one.name for one in found.lines if one.marketable.value and found.by is By.BED]
    sure = sure_of_names(desk.store, found.span, names)
    title = f"Produce per area by {found.by}, {_span_words(found.span)}"
    return yields_chart(rows, sure.spreads, title, desk.measures)


def _prices_drawn(desk: Desk, found: tuple[Returns, ...]) -> Chart:
    from farmops.exchange.chart_of import prices_chart

    return prices_chart(found, None, desk.farm.name, desk.measures)


def _span_words(span: Span) -> str:
    return f"{span.first} to {span.last}"


def _without_area(rows: list[list[str]]) -> tuple[list[str], list[list[str]]]:
    """Fish have no bed."""
    heads, *lines = [[*row[:2], *row[4:]] for row in rows]
    return [heads[0], "fish", *heads[2:]], lines


def _plain_yield(by: By, one: YieldLine, with_why: bool) -> dict[str, object]:
    figures: dict[str, tuple[Figure, Number]] = {
        "harvest_g": (one.harvest, 1000),
        "marketable_g": (one.marketable, 1000),
        "area_m2": (one.area, 10**6),
        "yield_g_per_m2": (one.yield_per_area, Fraction(1, 1000)),
        "value_cents": (one.value, 1),
        "cost_cents": (one.cost, 1),
        "cost_per_kg_cents": (one.cost_per_mass, Fraction(1, 10**6)),
        "net_cents": (one.net, 1),
    }
    return {by.value: one.name, **numbers(figures, with_why)}


def plain_returns(one: UnitReturns, with_why: bool = False) -> dict[str, object]:
    """A unit's returns in canonical units; null where there is nothing to divide, with the reason."""
    figures: dict[str, tuple[Figure, Number]] = {
        "harvest_g": (one.harvest, 1000),
        "marketable_g": (one.marketable, 1000),
        "fish_g": (one.fish, 1000),
        "bed_area_m2": (one.area, 10**6),
        "yield_g_per_m2": (one.yield_per_area, Fraction(1, 1000)),
        "cost_cents": (one.cost, 1),
        "cost_per_kg_cents": (one.cost_per_mass, Fraction(1, 10**6)),
        "fish_cost_per_kg_cents": (one.fish_cost_per_mass, Fraction(1, 10**6)),
        "value_cents": (one.value, 1),
        "net_cents": (one.net, 1),
        "value_per_m2_cents": (one.value_per_area, Fraction(1, 10**6)),
        "operating_cost_cents": (one.operating_cost, 1),
        "over_operating_cents": (one.over_operating, 1),
        "labour_cents": (one.labour, 1),
        "minutes": (one.minutes, 1),
        "per_hour_cents": (one.per_hour, Fraction(1, 60)),
        "break_even_price_per_kg_cents": (one.break_even_price, Fraction(1, 10**6)),
        "break_even_harvest_g": (one.break_even_yield, 1000),
    }
    return {"unit": one.unit, "state": one.state, **numbers(figures, with_why)}


def numbers(figures: dict[str, tuple[Figure, Number]], with_why: bool = False) -> dict[str, object]:
    """Numbers in canonical units by key, why those that are null are missing, and on request the tree of each."""
    values = {name: _number(figure, per) for name, (figure, per) in figures.items()}
    reasons = {name: figure.reason for name, (figure, _) in figures.items() if figure.value is None}
    return {**values, "reasons": reasons, **whys(with_why, {name: figure for name, (figure, _) in figures.items()})}


def _number(figure: Figure, per: Number) -> int | float | None:
    if figure.value is None:
        return None
    exact = Fraction(figure.value) / Fraction(per)
    return int(exact) if exact.denominator == 1 else round(float(exact), 6)
