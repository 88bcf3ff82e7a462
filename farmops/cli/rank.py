"""`farmops rank` and `farmops payback`: what the order of the units hangs on, and whether a unit is earned back."""

from __future__ import annotations

from fractions import Fraction

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, span_options, word
from farmops.cli.output import emit, line, terminal_width
from farmops.cli.returns import BASES, numbers
from farmops.cli.trees import only_in_json, why_option
from farmops.exchange.rank_text import investment_text, rank_text
from farmops.figures import Figure, Number
from farmops.model.costs import Basis
from farmops.reports.investment import Investment, investments
from farmops.reports.ranking import Numbers, Ranked, ranking
from farmops.reports.returns import Asked


@click.command()
@span_options
@click.option("--basis", type=click.Choice(BASES), default="full", show_default=True, help="Which costs are counted.")
@click.option("--rate", metavar="AMOUNT", help="Also with an hour of work at this rate.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@why_option
@answer_options
@pass_desk
def rank(
    desk: Desk,
    first: str | None,
    last: str | None,
    basis: str,
    rate: str | None,
    on: str | None,
    with_why: bool,
    as_json: bool,
) -> None:
    """The order of the units, and whether it holds with other costs, methods, labour and prices.

    \b
    Examples: farmops rank --from "1 mar"
              farmops rank --rate 15 --json --why
    """
    only_in_json(with_why, as_json)
    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last), word(Basis, basis))
    found = ranking(desk.store, asked, desk.money(rate).exact if rate else None)
    if as_json:
        head = {"from": found.span.first, "to": found.span.last, "basis": found.basis}
        as_set, *others = (_plain_ranked(one, with_why) for one in (found.as_set, *found.others))
        emit({**head, "as_set": as_set, "others": others})
        return
    for words in rank_text(found, terminal_width()):
        line(words)


def _plain_ranked(one: Ranked, with_why: bool) -> dict[str, object]:
    units = [_plain_numbers(unit, with_why) for unit in one.units]
    return {"assumed": one.words, "by_net": list(one.by_net), "by_cost_per_kg": list(one.by_cost), "units": units}


def _plain_numbers(one: Numbers, with_why: bool) -> dict[str, object]:
    figures: dict[str, tuple[Figure, Number]] = {
        "net_cents": (one.net, 1),
        "cost_per_kg_cents": (one.cost_per_mass, Fraction(1, 10**6)),
    }
    return {"unit": one.unit, **numbers(figures, with_why)}


@click.command()
@span_options
@click.option("--interest", type=click.FloatRange(0, 100), default=5, show_default=True, help="Percent a year.")
@click.option("--labour", is_flag=True, help="Count labour at its rate.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@why_option
@answer_options
@pass_desk
def payback(
    desk: Desk,
    first: str | None,
    last: str | None,
    interest: float,
    labour: bool,
    on: str | None,
    with_why: bool,
    as_json: bool,
) -> None:
    """Whether a unit earns back what it took to build: payback, worth today, rate of return.

    \b
    Each year to come is taken to be like the days on which it was active in the span.
    Examples: farmops payback
              farmops payback --from "1 mar" --interest 8 --labour
    """
    only_in_json(with_why, as_json)
    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last))
    share = Fraction(str(interest)) / 100
    found = investments(desk.store, asked, share, labour=labour)
    if as_json:
        head = {"from": found.span.first, "to": found.span.last, "currency": desk.measures.currency}
        units = [_plain(one, with_why) for one in found.units]
        emit({**head, "interest": float(share), "labour": labour, "units": units})
        return
    for words in investment_text(found):
        line(words)


def _plain(one: Investment, with_why: bool) -> dict[str, object]:
    return {
        "unit": one.unit,
        **numbers(
            {
                "outlay_cents": (one.outlay, 1),
                "a_year_cents": (one.a_year, 1),
                "payback_years": (one.payback, 1),
                "discounted_payback_years": (one.discounted_payback, 1),
                "worth_today_cents": (one.worth_today, 1),
                "rate_of_return": (one.rate_of_return, 1),
            },
            with_why,
        ),
    }
