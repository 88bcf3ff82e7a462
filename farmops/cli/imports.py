"""`farmops import`: taking in files."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.exports import import_package
from farmops.cli.output import emit, line, say

if TYPE_CHECKING:
    from farmops.exchange.imports import Outcome

MADE = ("units", "beds", "crops", "plantings")
MOST_REFUSALS = 200


@click.group("import")
def import_group() -> None:
    """Take in a file; every row is booked, already there, or refused by its line."""


import_group.add_command(import_package)


@import_group.command("harvests")
@click.argument("file", type=click.Path(exists=True, dir_okay=False))
@click.option("--dry-run", is_flag=True, help="Only tell what would be done.")
@click.option("--create-missing", is_flag=True, help="Make units, beds, crops and plantings that the farm lacks.")
@click.option("--all-or-nothing", is_flag=True, help="Book nothing when one row is refused.")
@click.option("--weights-in", metavar="UNIT", help="Unit of weights that name none, such as lb or kg.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout.")
@pass_desk
def import_harvests(
    desk: Desk,
    file: str,
    dry_run: bool,
    create_missing: bool,
    all_or_nothing: bool,
    weights_in: str | None,
    on: str | None,
    as_json: bool,
) -> int:
    """Weighings from a CSV file with columns date, unit, bed, crop, weight, and optionally count, use, note.

    \b
    The same file twice adds nothing. Exit 1: nothing was booked. Exit 4: some rows booked, some refused.
    Examples: farmops import harvests july.csv --dry-run
              farmops import harvests july.csv --create-missing
    """
    from farmops.exchange.imports import carry_out, foresee, plan, read_rows

    day = desk.day(on)
    planned = plan(desk.store, read_rows(file), create_missing=create_missing, today=day, weights_in=weights_in)
    if planned.ignored:
        say(f"Columns left aside: {', '.join(planned.ignored)}.")
    if dry_run:
        found = foresee(planned, all_or_nothing=all_or_nothing)
    else:
        found = carry_out(desk.store, planned, by=desk.by, all_or_nothing=all_or_nothing, operation=desk.operation)
    _tell(found, dry_run, as_json)
    return found.exit_code


def _tell(found: Outcome, dry_run: bool, as_json: bool) -> None:
    if as_json:
        emit(_plain(found, dry_run))
        return
    would = "would be " if dry_run else ""
    line(f"{found.booked} {would}booked, {found.already} already there, {len(found.refused)} refused")
    for kind in MADE:
        names = _created(found, kind)
        if names:
            shown = ", ".join(names[:8]) + (f" and {len(names) - 8} more" if len(names) > 8 else "")
            line(f"{kind} {would}made: {shown}")
    for one in found.refused[:MOST_REFUSALS]:
        say(str(one))
    if len(found.refused) > MOST_REFUSALS:
        say(f"and {len(found.refused) - MOST_REFUSALS} more; --json lists them all")
    for asked in found.questioned[:MOST_REFUSALS]:
        say(f"Look again at {asked}")
    if len(found.questioned) > MOST_REFUSALS:
        say(f"and {len(found.questioned) - MOST_REFUSALS} more to look at; --json lists them all")
    if found.booked and not dry_run:
        say("farmops undo takes the whole file back.")


def _plain(found: Outcome, dry_run: bool) -> dict[str, object]:
    return {
        "dry_run": dry_run,
        "booked": found.booked,
        "already": found.already,
        "refused": [{"line": one.line, "column": one.column, "reason": one.reason} for one in found.refused],
        "questioned": [{"line": one.line, "question": one.question} for one in found.questioned],
        "created": {kind: list(_created(found, kind)) for kind in MADE},
    }


def _created(found: Outcome, kind: str) -> tuple[str, ...]:
    names: tuple[str, ...] = getattr(found, f"created_{kind}")
    return names
