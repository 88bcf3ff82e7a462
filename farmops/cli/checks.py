"""`farmops check`: is everything there, and what was booked?"""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options
from farmops.cli.output import emit, line, say
from farmops.model.errors import CheckFailed
from farmops.model.soundness import Finding, Looked, Repaired, repaired_in_words

SHOWN = 30


@click.command()
@click.option("--repair", "repairs", is_flag=True, help="Put right what needs no decision: due days of chores.")
@click.option("--only-damage", is_flag=True, help="Leave out entries that are whole and merely look unlikely.")
@answer_options
@pass_desk
def check(desk: Desk, repairs: bool, only_damage: bool, as_json: bool) -> None:
    """Look through the whole farm. Ends with 4 when something is found.

    The pages of the file, links, the chain of the journal, every record against what was booked last, due days,
    figures, photos and receipts, and entries that look unlikely: booked twice, far from the usual.

    \b
    Examples: farmops check
              farmops check --only-damage
              farmops check --repair
    """
    from farmops.exchange.checking import check as look

    found, repaired = look(desk.store, only_damage=only_damage), 0
    if repairs and found.can_be_mended:
        repaired = _repair(desk)
        found = look(desk.store, only_damage=only_damage)
    if as_json:
        emit(_plain(found, repaired))
    else:
        _tell(found, repaired)
    if found.findings:
        raise CheckFailed(found.words)


def _repair(desk: Desk) -> int:
    from farmops.farm.soundness import repair
    from farmops.model.soundness import Repair

    return repair(desk.store, Repair(), **desk.hand).due_days


def _tell(found: Looked, repaired: int) -> None:
    if repaired:
        say(repaired_in_words(Repaired(repaired)))
    for one in found.findings[:SHOWN]:
        line(f"{one.part}: {one.words}")
    if len(found.findings) > SHOWN:
        line(f"and {len(found.findings) - SHOWN} more; all of them: farmops check --json")
    if not found.findings:
        say(found.words)


def _plain(found: Looked, repaired: int) -> dict[str, object]:
    return {
        "looked_through": list(found.parts),
        "operations": found.operations,
        "repaired_due_days": repaired,
        "findings": [_finding(one) for one in found.findings],
    }


def _finding(one: Finding) -> dict[str, object]:
    return {"part": one.part, "words": one.words, "kind": one.kind, "id": one.id, "can_be_repaired": one.mends}
