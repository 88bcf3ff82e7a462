"""`farmops notes`: what was seen and done, with photos, and what was changed on units."""

from __future__ import annotations

from datetime import date
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied, numbered
from farmops.cli.options import answer_options, json_option, on_option, one_of, span_options, word
from farmops.cli.output import emit, line, say, table
from farmops.exchange.kept_files import keep, place_of
from farmops.model.journal import Removal
from farmops.model.notes import Changed, NewNote, Note, NoteChange
from farmops.reports import lists, names


@click.group()
def notes() -> None:
    """Notes and photos on the farm, a unit, a bed or a chore; and what was changed there."""


@notes.command("list")
@span_options
@click.option("--unit", metavar="CODE", help="Only of one unit, its beds and its chores.")
@click.option("--changed", is_flag=True, help="Only what was changed on units.")
@answer_options
@pass_desk
def list_notes(desk: Desk, first: str | None, last: str | None, unit: str | None, changed: bool, as_json: bool) -> None:
    """List notes, the latest first.

    \b
    Example: farmops notes list --unit WREN --changed
    """
    lists.farm(desk.store)
    span = (desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    id = names.unit(desk.store, unit).id if unit is not None else None
    every = lists.notes(desk.store, *span)
    found = [one for one in every if (id is None or one.unit_id == id) and (one.changed is not None or not changed)]
    if as_json:
        emit({"notes": [plain_note(desk, one) for one in found]})
    elif not found:
        say('No note here. Write one: farmops notes add "pale new leaves" --at WREN   or: --changed pump')
    else:
        rows = [
            [str(one.id), str(one.day), one.where or "farm", _changed(one), one.text or "", one.file_name or ""]
            for one in found
        ]
        table(["no.", "day", "where", "changed", "note", "file"], rows, right=[0])


@notes.command("add")
@click.argument("text", required=False)
@click.option("--at", "where", metavar="PLACE", help="A unit (WREN) or a bed (WREN-N). [the farm]")
@click.option("--chore", type=NUMBER, help="The number of a chore it is about.")
@click.option("--changed", type=one_of(Changed), help="What was changed on the unit.")
@click.option("--file", "file", metavar="FILE", help="A photo or another file; a copy is kept beside the store.")
@on_option
@json_option
@pass_desk
def add_note(
    desk: Desk,
    text: str | None,
    where: str | None,
    chore: int | None,
    changed: str | None,
    file: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Write something down.

    \b
    Examples: farmops notes add "pale new leaves" --at WREN-N --file leaf.jpg
              farmops notes add "the smaller one" --at WREN --changed pump
    """
    from farmops.farm.notes import add_note as add

    lists.farm(desk.store)
    place = _place(desk, where)
    if chore is not None:
        place["chore_id"] = names.chore(desk.store, chore).id
    kept = keep(desk.store, file) if file is not None else None
    entry = NewNote(desk.day(on), text, changed=word(Changed, changed), file=kept, **place)
    _told(desk, add(desk.store, entry, **desk.hand), "Noted", as_json)


def _place(desk: Desk, where: str | None) -> dict[str, int]:
    if where is None:
        return {}
    if "-" in where:
        return {"bed_id": names.bed(desk.store, where).id}
    return {"unit_id": names.unit(desk.store, where).id}


@notes.command("show")
@click.argument("number", type=NUMBER)
@answer_options
@pass_desk
def show_note(desk: Desk, number: int, as_json: bool) -> None:
    """Show one note by its number, and where its file is kept.

    \b
    Example: farmops notes show 1
    """
    one = _numbered(desk, number)
    if as_json:
        emit(plain_note(desk, one))
        return
    line(f"{one.day}  {one.where or 'farm'}")
    for said in (one.changed and f"changed: {one.changed}", one.text, one.file_name, one.file and _path(desk, one)):
        if said:
            line(said)


@notes.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--text", metavar="TEXT", help="What it says; - clears it.")
@click.option("--changed", metavar="WHAT", help=f"What was changed: {', '.join(Changed)}; - for nothing.")
@on_option
@json_option
@pass_desk
def edit_note(desk: Desk, number: int, text: str | None, changed: str | None, on: str | None, as_json: bool) -> None:
    """Correct a note by its number.

    \b
    Example: farmops notes edit 1 --text "pale old leaves"
    """
    from farmops.farm.notes import change_note

    one = _numbered(desk, number)
    given: dict[str, Any] = emptied(changes(text=text, day=desk.day_or_none(on)), "text")
    if changed is not None:
        given["changed"] = None if changed == NOTHING else click.Choice([*Changed]).convert(changed, None, None)
        given["changed"] = given["changed"] and Changed(given["changed"])
    _told(desk, change_note(desk.store, NoteChange(one.id, **given), **desk.hand), "Changed", as_json)


@notes.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_note(desk: Desk, number: int) -> None:
    """Remove a note by its number; its file stays where it is kept.

    \b
    Example: farmops notes remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("notes", one.id), **desk.hand)
    say(f"Note {one.id} of {one.day} removed. farmops undo brings it back.")


def plain_note(desk: Desk, one: Note) -> dict[str, object]:
    """A note in JSON's words."""
    return {
        "id": one.id,
        "day": one.day,
        "where": one.where,
        "chore": one.chore_id,
        "text": one.text,
        "changed": one.changed,
        "file": _path(desk, one) if one.file else None,
        "file_name": one.file_name,
        "sha256": one.file_sha256,
    }


def _path(desk: Desk, one: Note) -> str:
    return str(place_of(desk.store, one.file or ""))


def _changed(one: Note) -> str:
    return one.changed.value if one.changed else ""


def _numbered(desk: Desk, number: int) -> Note:
    lists.farm(desk.store)
    return numbered(lists.notes(desk.store, date.min, date.max), number, "note", "farmops notes list")


def _told(desk: Desk, one: Note, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_note(desk, one))
        return
    said = [one.changed and f"{one.changed} changed", one.text, one.file_name and f"with {one.file_name}"]
    say(f"{done}: {one.where or 'farm'}, {one.day}: {', '.join(word for word in said if word)}; number {one.id}.")
