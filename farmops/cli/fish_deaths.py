"""`farmops fish died` and `farmops fish losses`: fish that died or went, and the steps that follow from several."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import NUMBER
from farmops.cli.fish_plain import plain_loss
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, word
from farmops.cli.output import emit, say, table
from farmops.model.fish import Disposal, LossCause
from farmops.model.fish_events import Loss, NewLoss
from farmops.model.values import Measured
from farmops.quantities import MASS
from farmops.reports import lists, names


@click.command("died")
@click.argument("lot")
@click.argument("number", type=NUMBER, default=1)
@click.option("--cause", type=one_of(LossCause), default="unknown", help="Why, as far as it is known. [unknown]")
@click.option("--disposal", type=one_of(Disposal), help="What was done with them.")
@click.option("--weight", metavar="WEIGHT", help="What they weighed together.")
@on_option
@note_option
@json_option
@pass_desk
def died(
    desk: Desk,
    lot: str,
    number: int,
    cause: str,
    disposal: str | None,
    weight: str | None,
    on: str | None,
    note: str | None,
    as_json: bool,
) -> None:
    """Fish of a LOT died or went; two deaths in a unit on a day bring their own steps.

    \b
    Examples: farmops fish died P1
              farmops fish died P1 2 --cause oxygen --disposal buried
    """
    from farmops.farm.fish_events import record_loss

    lists.farm(desk.store)
    found = names.lot(desk.store, lot)
    mass = Measured(MASS.parse(weight, desk.measures), weight) if weight is not None else None
    entry = NewLoss(found.id, desk.day(on), number, word(LossCause, cause), word(Disposal, disposal), mass, note)
    booked = record_loss(desk.store, entry, **desk.hand)
    if as_json:
        loss = plain_loss(booked.loss)
        emit({**loss, "steps": list(booked.steps), "left_out": list(booked.left_out), "call": booked.call})
        return
    say(f"Booked: {booked.loss.number} of {booked.loss.lot} lost, {booked.loss.cause}, {booked.loss.day}.")
    say("Gloves and a bag for dead fish; disposal by local rule. Slip? farmops undo")
    for step in booked.steps:
        say(f"Now: {step}")
    for left in booked.left_out:
        say(f"Left out today: {left}")
    if booked.call:
        say(f"Call: {booked.call}")


@click.command("losses")
@click.argument("lot")
@answer_options
@pass_desk
def losses(desk: Desk, lot: str, as_json: bool) -> None:
    """List the fish that died or went of a LOT.

    \b
    Example: farmops fish losses P1
    """
    lists.farm(desk.store)
    found = lists.losses(desk.store, names.lot(desk.store, lot).id)
    if as_json:
        emit({"losses": [plain_loss(one) for one in found]})
    elif not found:
        say(f"None of {lot.upper()} died or went. Book one: farmops fish died {lot.upper()}")
    else:
        rows = [
            [
                str(one.id),
                str(one.day),
                str(one.number),
                one.cause,
                one.disposal or "",
                one.mass_typed or "",
                one.note or "",
            ]
            for one in found
        ]
        table(["no.", "day", "fish", "cause", "disposal", "weight", "note"], rows, right=[0, 2])


def _row(one: Loss) -> list[str]:
    number, weight = str(one.number), one.mass_typed or ""
    return [str(one.id), str(one.day), number, one.cause, one.disposal or "", weight, one.note or ""]
