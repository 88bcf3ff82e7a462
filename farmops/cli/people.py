"""`farmops people`: who works here."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import emptied
from farmops.cli.options import json_option, note_option
from farmops.cli.output import emit, line, say, table
from farmops.model.farm import NewPerson, Person, PersonChange
from farmops.model.journal import Removal
from farmops.reports import lists, names


@click.group()
def people() -> None:
    """Who works here."""


@people.command("list")
@json_option
@pass_desk
def list_people(desk: Desk, as_json: bool) -> None:
    """List everybody by name.

    \b
    Example: farmops people list
    """
    lists.farm(desk.store)
    found = lists.people(desk.store)
    if as_json:
        emit({"people": [plain_person(one) for one in found]})
    elif not found:
        say("Nobody is listed yet. Add somebody: farmops people add Ada")
    else:
        table(["name", "note"], [[one.name, one.note or ""] for one in found])


@people.command("show")
@click.argument("name")
@json_option
@pass_desk
def show_person(desk: Desk, name: str, as_json: bool) -> None:
    """Show one person.

    \b
    Example: farmops people show Ada
    """
    lists.farm(desk.store)
    one = names.person(desk.store, name)
    if as_json:
        emit(plain_person(one))
        return
    line(one.name)
    if one.note:
        line(one.note)


@people.command("add")
@click.argument("name")
@note_option
@json_option
@pass_desk
def add_person(desk: Desk, name: str, note: str | None, as_json: bool) -> None:
    """Somebody begins to work here.

    \b
    Example: farmops people add Ada --note "mornings"
    """
    from farmops.farm.farm import add_person as add

    lists.farm(desk.store)
    _told(add(desk.store, NewPerson(name, note), **desk.hand), "added", as_json)


@people.command("edit")
@click.argument("name")
@click.option("--name", "new_name", metavar="NAME", help="A new name.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_person(desk: Desk, name: str, new_name: str | None, note: str | None, as_json: bool) -> None:
    """Correct a name or a note.

    \b
    Example: farmops people edit Ada --note "mornings and Sundays"
    """
    from farmops.farm.farm import change_person

    lists.farm(desk.store)
    given = emptied(changes(name=new_name, note=note), "note")
    entry = PersonChange(names.person(desk.store, name).id, **given)
    _told(change_person(desk.store, entry, **desk.hand), "changed", as_json)


@people.command("remove")
@click.argument("name")
@pass_desk
def remove_person(desk: Desk, name: str) -> None:
    """Take somebody off the list; what they booked keeps their name.

    \b
    Example: farmops people remove Ada
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    one = names.person(desk.store, name)
    remove_record(desk.store, Removal("people", one.id), **desk.hand)
    say(f"{one.name} removed. farmops undo brings them back.")


def plain_person(one: Person) -> dict[str, object]:
    """A person in JSON's words."""
    return {"id": one.id, "name": one.name, "note": one.note}


def _told(one: Person, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_person(one))
    else:
        say(f"{one.name} {done}.")
