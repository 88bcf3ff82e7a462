"""`farmops compare`: which of two is better, and whether the records can tell."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, span_options, word
from farmops.cli.output import emit, line
from farmops.cli.returns import BASES, plain_returns
from farmops.cli.trees import only_in_json, why_option, whys
from farmops.exchange.compare_text import cautions, compare_text, sentence
from farmops.model.costs import Basis
from farmops.quantities import Measures
from farmops.reports.comparing import YIELD, Compared, compare_two
from farmops.reports.returns import Asked
from farmops.reports.spans import Span


@click.command()
@click.argument("first_name", metavar="ONE")
@click.argument("second_name", metavar="OTHER")
@click.option("--crop", metavar="NAME", help="Only this crop of both.")
@span_options
@click.option("--basis", type=click.Choice(BASES), default="full", show_default=True, help="Which costs are counted.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@why_option
@answer_options
@pass_desk
def compare(
    desk: Desk,
    first_name: str,
    second_name: str,
    crop: str | None,
    first: str | None,
    last: str | None,
    basis: str,
    on: str | None,
    with_why: bool,
    as_json: bool,
) -> None:
    """Compare two units, beds or crops: like crops against like, else value per area.

    \b
    Weeks are compared with weeks: clearly better, too close to call, or too little data.
    Examples: farmops compare WREN PLOVER
              farmops compare WREN-N WREN-S --crop CHARD --from "1 mar"
              farmops compare CHARD KALE --json --why
    """
    only_in_json(with_why, as_json)
    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last), word(Basis, basis))
    found = compare_two(desk.store, asked, first_name, second_name, crop)
    if as_json:
        lines = [_plain_line(one, found.span, desk.measures, with_why) for one in found.lines]
        beside = [plain_returns(one, with_why) for one in found.beside or ()]
        head = {"from": found.span.first, "to": found.span.last, "currency": desk.measures.currency}
        emit({**head, "first": found.first, "second": found.second, "compared": lines, "beside": beside})
        return
    for words in compare_text(found):
        line(words)


def _plain_line(one: Compared, span: Span, measures: Measures, with_why: bool) -> dict[str, object]:
    keys = [f"{place}_{_unit(one)}" for place in ("first", "second")]
    return {**plain_compared(one, measures), **whys(with_why, dict(zip(keys, one.a_week(span), strict=True)))}


def _unit(one: Compared) -> str:
    return "g_per_m2_week" if one.unit == YIELD else "cents_per_m2_week"


def plain_compared(one: Compared, measures: Measures) -> dict[str, object]:
    """One comparison in canonical units: weights in g per m2, values in cents per m2, a week."""
    unit = _unit(one)
    interval = one.result.interval if one.result else None
    return {
        "of": one.what,
        "verdict": one.verdict,
        "better": one.better,
        "weeks": one.weeks,
        "same_weeks": one.paired,
        "more_weeks": one.result.more_weeks if one.result else None,
        f"first_{unit}": _canonical(one.first_a_week, one) if one.compared_weeks[0] else None,
        f"second_{unit}": _canonical(one.second_a_week, one) if one.compared_weeks[1] else None,
        f"difference_{unit}": _canonical(interval.difference, one) if interval else None,
        f"low_{unit}": _canonical(interval.low, one) if interval else None,
        f"high_{unit}": _canonical(interval.high, one) if interval else None,
        "words": " ".join((sentence(one, measures), *cautions(one))),
    }


def _canonical(value: float, one: Compared) -> float:
    return round(value * (1_000 if one.unit == YIELD else 1_000_000), 6)
