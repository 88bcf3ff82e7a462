"""`farmops fish rations`, and what `farmops chores done` says was fed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any, TypeVar

import click

from farmops.cli.chore_output import plain_ration
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, on_option, one_of, word
from farmops.cli.output import emit, line, say
from farmops.model.chores import Chore
from farmops.model.errors import Refused
from farmops.model.fish import Ate
from farmops.model.rations import Fed, LotRation

F = TypeVar("F", bound=Callable[..., Any])


def feeding_options(command: F) -> F:
    """--fed and --ate, of a chore that feeds fish."""
    command = click.option("--ate", type=one_of(Ate), help="How much of the feed they ate.")(command)
    return click.option(
        "--fed",
        "amounts",
        metavar="[LOT=]AMOUNT",
        multiple=True,
        help="What the fish got. [what is left of their ration]",
    )(command)


def fed_of_options(
    desk: Desk, chosen: Sequence[Chore], day: date, amounts: Sequence[str], ate: str | None
) -> dict[int, tuple[Fed, ...]]:
    """What each chore fed, where it was said; a chore that is not among them feeds by its ration."""
    if not amounts and ate is None:
        return {}
    from farmops.reports.rations import fed_by_ration, rations_of

    how, found = word(Ate, ate), {one.id: rations_of(desk.store, one, day) for one in chosen}
    if not any(found.values()):
        raise Refused("Not booked: none of these chores feeds fish. Book it alone: farmops fish fed LOT AMOUNT")
    if not amounts:
        return {id: fed_by_ration(own, how) for id, own in found.items() if own}
    if len(chosen) > 1:
        raise Refused("Not booked: amounts are of one chore. Settle this chore alone, by its number.")
    own = found[chosen[0].id]
    return {chosen[0].id: tuple(_fed(desk, own, text, how) for text in amounts)}


def _fed(desk: Desk, own: Sequence[LotRation], text: str, ate: Ate | None) -> Fed:
    name, sign, amount = text.rpartition("=")
    fitting = [one for one in own if not sign or one.code == name.strip().upper()]
    if len(fitting) != 1:
        codes = ", ".join(one.code for one in own)
        raise Refused(f"Not booked: say of which lot, such as {own[0].code}={amount}. There: {codes}.")
    return Fed(fitting[0].lot_id, desk.mass(amount), ate)


@click.command("rations")
@on_option
@answer_options
@pass_desk
def list_rations(desk: Desk, on: str | None, as_json: bool) -> None:
    """List the ration of each lot on a day: the most feed, what holds it there, what was fed already.

    \b
    Example: farmops fish rations
    """
    from farmops.reports.rations import ration_words, rations_on

    found = rations_on(desk.store, desk.day(on))
    if as_json:
        emit({"on": found.on, "rations": [plain_ration(one) for one in found.lots]})
    elif not found.lots:
        say(f"No fish in the water on {found.on}. All lots: farmops fish list --all")
    for one in found.lots if not as_json else ():
        line(ration_words(one, desk.measures))
