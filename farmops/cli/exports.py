"""`farmops export`, and `farmops import package`: the whole farm out, and in again."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option
from farmops.cli.output import emit, say
from farmops.reports import lists


@click.command()
@click.argument("place")
@json_option
@pass_desk
def export(desk: Desk, place: str, as_json: bool) -> None:
    """The whole farm, as it is now, to PLACE: a folder of CSV files, or one workbook where the name ends in .xlsx.

    The folder is a Data Package (datapackage.json says what each column is): any program reads it, and `farmops import
    package` makes the same farm of it, row by row, journal and photos included; of the workbook the same but for photos
    and receipts, which it cannot hold.

    \b
    Examples: farmops export hollow-lane
              farmops export hollow-lane.xlsx
    """
    from farmops.exchange import packages

    lists.farm(desk.store)
    found = packages.export(desk.store, place)
    if as_json:
        counts = {"tables": found.tables, "rows": found.rows, "files": found.files}
        emit({"place": str(found.place), **counts, "files_missing": list(found.lacking)})
    else:
        say(found.words)


@click.command("package", short_help="The whole farm that an export wrote, into an empty store.")
@click.argument("folder")
@json_option
@pass_desk
def import_package(desk: Desk, folder: str, as_json: bool) -> None:
    """The whole farm that `farmops export` wrote into FOLDER, or into a workbook, into a store that holds none.

    Name that store before the command, with --farm or FARMOPS_FARM.

    \b
    Examples: farmops import package hollow-lane
              farmops import package hollow-lane.xlsx
    """
    from farmops.exchange import packages

    rows = packages.take_in(desk.store, folder)
    if as_json:
        emit({"farm": desk.farm.name, "rows": rows})
    else:
        lacking = " Photos and receipts do not come with a workbook." if folder.lower().endswith(".xlsx") else ""
        say(f"Taken in: {desk.farm.name}, {rows} rows, its journal included.{lacking}")
