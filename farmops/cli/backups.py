"""`farmops backup` and `farmops restore`."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option
from farmops.cli.output import emit, line, say, table
from farmops.model.backups import MADE_IN_WORDS, Backup, Kept, Restored, made_in_words, put_back_in_words, size_of
from farmops.reports import lists

SHOWN = 10


@click.command()
@click.option("--to", "place", metavar="FILE", help="The file to write, or a folder to put it in. [beside the store]")
@click.option("--list", "listed", is_flag=True, help="Only list the backups that lie beside the store.")
@json_option
@pass_desk
def backup(desk: Desk, place: str | None, listed: bool, as_json: bool) -> None:
    """Copy the farm as it is now, others may go on writing; the copy is looked through before it counts.

    One is made by itself with the first booking of a day and before each upgrade. Keep one elsewhere, too: on a stick,
    on another machine. FARMOPS_DAILY_BACKUP=off leaves the daily ones out.

    \b
    Examples: farmops backup
              farmops backup --to /media/stick
              farmops backup --list
    """
    from farmops.exchange import backups

    lists.farm(desk.store)
    if listed:
        _list(backups.backups(desk.store), as_json)
        return
    made = backups.backup(desk.store, place)
    if as_json:
        emit(_kept(made))
    else:
        say(made_in_words(made))


def _list(found: list[Backup], as_json: bool) -> None:
    if as_json:
        emit({"backups": [_plain(one) for one in found]})
        return
    rows = [[f"{one.at:%Y-%m-%d %H:%M:%S}Z", size_of(one), MADE_IN_WORDS[one.made], str(one.file)] for one in found]
    if rows:
        table(["made", "size", "", "file"], rows, right=[1])
    else:
        say("No backup lies beside the store yet. Make one: farmops backup")


def _plain(one: Backup) -> dict[str, Any]:
    return {"file": str(one.file), "at": one.at, "made": one.made, "size_bytes": one.size}


def _kept(made: Kept) -> dict[str, Any]:
    return {
        **_plain(made.backup),
        "operations": made.operations,
        "rows": made.rows,
        "files_copied": made.copied,
        "files_folder": str(made.folder) if made.folder else None,
        "files_missing": list(made.lacking),
    }


@click.command()
@click.argument("file")
@click.option("--dry-run", "rehearsed", is_flag=True, help="Only try it, and say what would be lost.")
@click.option("--other-farm", is_flag=True, help="It is of another farm, and that is meant.")
@json_option
@pass_desk
def restore(desk: Desk, file: str, rehearsed: bool, other_farm: bool, as_json: bool) -> None:
    """Put the backup FILE in the place of what is there. It is tried on a copy first; what it replaces is kept.

    \b
    Examples: farmops restore farm-backups/farm-20261013T051200Z-daily.db --dry-run
              farmops restore farm-backups/farm-20261013T051200Z-daily.db
    """
    from farmops.exchange import backups

    found = backups.restore(desk.store, file, rehearsed=rehearsed, other_farm=other_farm)
    if as_json:
        emit(_restored(found))
        return
    say(put_back_in_words(found, rehearsed=rehearsed))
    for one in found.lost[:SHOWN]:
        line(f"{one.at:%Y-%m-%d %H:%M}Z  {one.by}  {one.name}")
    if len(found.lost) > SHOWN:
        line(f"and {len(found.lost) - SHOWN} more")


def _restored(found: Restored) -> dict[str, Any]:
    return {
        "farm": found.farm,
        "operations": found.operations,
        "last_at": found.last_at,
        "schema_of_backup": found.schema,
        "upgraded": found.upgraded,
        "store_was_readable": found.readable,
        "lost": [{"at": one.at, "by": one.by, "name": one.name, "operation": one.operation} for one in found.lost],
        "replaced_is_kept_in": str(found.kept) if found.kept else None,
        "files_missing": list(found.lacking),
    }
