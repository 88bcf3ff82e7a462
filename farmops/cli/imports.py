"""`farmops import`: taking in files."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.exports import import_package
from farmops.cli.file_imports import (
    COMMANDS,
    Bar,
    booking_options,
    file_argument,
    meant_by,
    plain_lines,
    reading_options,
    say_how_read,
    say_lines,
    say_some,
)
from farmops.cli.output import emit, line, say

if TYPE_CHECKING:
    from farmops.exchange.imports import Outcome
    from farmops.model.lines import Stretch

    Lines = tuple[tuple[Stretch, ...], tuple[Stretch, ...]]

MADE = ("units", "beds", "crops", "plantings")


@click.group("import")
def import_group() -> None:
    """Take in a file; every row is booked, already there, or refused by its line."""


import_group.add_command(import_package)
for one in COMMANDS:
    import_group.add_command(one)


@import_group.command("harvests")
@file_argument
@reading_options
@click.option("--create-missing", is_flag=True, help="Make units, beds, crops and plantings that the farm lacks.")
@click.option("--weights-in", metavar="UNIT", help="Unit of weights that name none, such as lb or kg.")
@click.option("--crop", metavar="CROP", help="Of which crop rows are that name none. [what grew in the bed]")
@booking_options
@pass_desk
def import_harvests(
    desk: Desk,
    file: str,
    columns: tuple[str, ...],
    sheet: str | None,
    dates: str | None,
    decimals: str | None,
    dry_run: bool,
    create_missing: bool,
    all_or_nothing: bool,
    weights_in: str | None,
    crop: str | None,
    on: str | None,
    as_json: bool,
) -> int:
    """Weighings from a CSV file or workbook with columns date, unit, bed, crop, weight; also count, use, note.

    Or a sheet of your own with a date and a column for each bed, WREN-N or WREN-N (kg), and the weights below it.

    \b
    The same file twice adds nothing. Exit 1: nothing was booked. Exit 4: some rows booked, some refused.
    Examples: farmops import harvests july.csv --dry-run
              farmops import harvests july.csv --create-missing
              farmops import harvests season.xlsx --sheet July
    """
    from farmops.exchange.customs import Decimals, Order
    from farmops.exchange.imports import carry_out, foresee, plan, read_rows

    planned = plan(
        desk.store,
        read_rows(file, meant_by(columns), sheet),
        create_missing=create_missing,
        today=desk.day(on),
        weights_in=weights_in,
        order=Order(dates) if dates else None,
        decimals=Decimals(decimals) if decimals else None,
        crop=crop,
        watch=Bar("Reading"),
    )
    say_how_read(planned.told, planned.ignored)
    if dry_run:
        found = foresee(planned, all_or_nothing=all_or_nothing)
    else:
        found = carry_out(
            desk.store,
            planned,
            by=desk.by,
            all_or_nothing=all_or_nothing,
            operation=desk.operation,
            watch=Bar("Booking"),
        )
    lines = (planned.booked_lines if found.booked else (), planned.already_lines) if dry_run else None
    if as_json:
        emit(
            {
                **_plain(found, dry_run),
                **(plain_lines(*lines) if lines else {}),
                "read_as": list(planned.told),
                "left_aside": list(planned.ignored),
            }
        )
    else:
        _tell(found, dry_run, lines)
    return found.exit_code


def _tell(found: Outcome, dry_run: bool, lines: Lines | None) -> None:
    would = "would be " if dry_run else ""
    line(f"{found.booked} {would}booked, {found.already} already there, {len(found.refused)} refused")
    for kind in MADE:
        names = _created(found, kind)
        if names:
            shown = ", ".join(names[:8]) + (f" and {len(names) - 8} more" if len(names) > 8 else "")
            line(f"{kind} {would}made: {shown}")
    if lines:
        say_lines(*lines)
    say_some(found.refused, "")
    say_some([f"Look again at {one}" for one in found.questioned], " to look at")
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
