"""`farmops picks`: what is ordered for a day, what is ready to pick for it, and where."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options
from farmops.cli.output import emit, line, say
from farmops.exchange.pick_text import pick_text
from farmops.model.sales import SoldBy
from farmops.reports.ordering import Wanted
from farmops.reports.picks import Pick, Place
from farmops.reports.picks import picks as pick_list

MG_PER_G = 1_000


@click.command()
@click.option("--on", metavar="DAY", help="The day to pick for; the weekday of today is today. [today]")
@answer_options
@pass_desk
def picks(desk: Desk, on: str | None, as_json: bool) -> None:
    """The pick list of a day: what is ordered, what is ready, and where; plain text that prints.

    \b
    Examples: farmops picks
              farmops picks --on fri --json
    """
    found = pick_list(desk.store, desk.day_or_none(on, ahead=True, today_too=True))
    if as_json:
        ordered, besides = ([_plain_pick(one) for one in part] for part in (found.ordered, found.besides))
        emit({"date": found.day, "ordered": ordered, "ready_besides": besides})
        return
    for text in pick_text(found):
        line(text)
    if not found.ordered:
        say(found.nothing_words)
        say('A standing order: farmops orders add "the inn" "KALE 6 bunches at 2.50" --every Fri')


def _plain_pick(one: Pick) -> dict[str, object]:
    return {
        "what": one.what,
        "orders": [_plain_wanted(each) for each in one.wanted],
        "places": [_plain_place(each) for each in one.places],
    }


def _plain_wanted(one: Wanted) -> dict[str, object]:
    by_weight = one.order.sold_by is SoldBy.WEIGHT
    return {
        "order": one.order.id,
        "buyer": one.order.buyer,
        "sold_by": one.order.sold_by,
        "amount_g": one.order.amount / MG_PER_G if by_weight else None,
        "amount_count": None if by_weight else one.order.amount,
        "left_g": one.left / MG_PER_G if by_weight else None,
        "left_count": None if by_weight else one.left,
        "sale": one.sale_id,
    }


def _plain_place(one: Place) -> dict[str, object]:
    return {"where": one.name, "ready": one.ready, "since": one.since, "held": one.held, "words": one.words}
