"""`farmops water balance`: whether feed, fish, beds and water of a unit fit each other."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, on_option
from farmops.cli.output import emit, line
from farmops.cli.trees import EVERY, only_in_json, plain_figure, tree, why_one_option, whys
from farmops.quantities import Measures
from farmops.reports.balance import NAMES, Balance, BalanceLine, balance_of
from farmops.reports.balance_words import range_words, verdict_words
from farmops.reports.shown import shown


@click.command("balance")
@click.argument("unit")
@why_one_option(NAMES)
@on_option
@answer_options
@pass_desk
def balance(desk: Desk, unit: str, name: str | None, on: str | None, as_json: bool) -> None:
    """Weigh up a UNIT over four weeks: feed per bed, nitrogen in and out, alkalinity used, fish and flow per tank.

    \b
    What is out of its published range says which way to move; what cannot be told says which record is missing.
    Examples: farmops water balance WREN
              farmops water balance WREN --why feed
              farmops water balance WREN --json --why
    """
    only_in_json(name == EVERY, as_json)
    found = balance_of(desk.store, unit, desk.day(on))
    if name is None or name == EVERY:
        _tell(found, desk.measures, as_json, name == EVERY)
    elif as_json:
        emit({"figure": name, "why": plain_figure(found.line(name).figure)})
    else:
        for text in tree(found.line(name).figure, desk.measures):
            line(text)


def _tell(found: Balance, measures: Measures, as_json: bool, with_why: bool) -> None:
    if as_json:
        emit({**plain_balance(found), **whys(with_why, {one.name: one.figure for one in found.lines})})
    else:
        _print(found, measures)


def _print(found: Balance, measures: Measures) -> None:
    line(f"{found.unit.code}, {found.first} to {found.on}")
    for one in found.lines:
        against = range_words(one, measures)
        noted = f" ({one.figure.note})" if one.figure.note and one.figure.value is not None else ""
        line(f"{one.figure.name}: {shown(one.figure, measures)}{f', {against}' if against else ''}{noted}")
        if one.advice and one.figure.value is not None:
            line(f"  {one.advice}")
    line(verdict_words(found))


def plain_balance(found: Balance) -> dict[str, object]:
    """The balance in JSON's words; values in the unit of storage that `in` names."""
    return {
        "unit": found.unit.code,
        "from": found.first,
        "to": found.on,
        "lines": [_plain(one) for one in found.lines],
    }


def _plain(one: BalanceLine) -> dict[str, object]:
    figure = one.figure
    return {
        "name": one.name,
        "value": None if figure.value is None else float(figure.value),
        "in": figure.unit,
        "low": one.low,
        "high": one.high,
        "place": one.place,
        "advice": one.advice if figure.value is not None else "",
        "reason": figure.reason,
        "source": one.source or figure.source,
    }
