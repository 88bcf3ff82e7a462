"""`farmops people`: who works here."""

from __future__ import annotations

import click

from farmops.cli.contacts import contacts
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import emptied
from farmops.cli.options import answer_options, json_option, note_option
from farmops.cli.output import emit, line, say, table
from farmops.cli.presence import here
from farmops.model.farm import NewPerson, Person, PersonChange
from farmops.model.journal import Removal
from farmops.reports import lists, names


@click.group()
def people() -> None:
    """Who works here, and whom to call."""


people.add_command(contacts)
people.add_command(here)


@people.command("list")
@answer_options
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
        table(["name", "", "note"], [[one.name, age_word(one), one.note or ""] for one in found])


@people.command("show")
@click.argument("name")
@answer_options
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
    line(f"{one.name}, {age_word(one)}" if one.minor else one.name)
    if one.note:
        line(one.note)


@people.command("add")
@click.argument("name")
@click.option("--minor", is_flag=True, help="Not of age: gets no chores that are for adults only.")
@note_option
@json_option
@pass_desk
def add_person(desk: Desk, name: str, minor: bool, note: str | None, as_json: bool) -> None:
    """Somebody begins to work here.

    \b
    Examples: farmops people add Ada --note "mornings"
              farmops people add Bo --minor
    """
    from farmops.farm.farm import add_person as add

    lists.farm(desk.store)
    _told(add(desk.store, NewPerson(name, note, minor), **desk.hand), "added", as_json)


@people.command("edit")
@click.argument("name")
@click.option("--name", "new_name", metavar="NAME", help="A new name.")
@click.option("--minor/--adult", default=None, help="Not of age, or of age.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_person(
    desk: Desk, name: str, new_name: str | None, minor: bool | None, note: str | None, as_json: bool
) -> None:
    """Correct a name, a note, or whether somebody is of age.

    \b
    Example: farmops people edit Ada --note "mornings and Sundays"
    """
    from farmops.farm.farm import change_person

    lists.farm(desk.store)
    given = emptied(changes(name=new_name, minor=minor, note=note), "note")
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


def age_word(one: Person) -> str:
    """`minor`, or nothing for an adult."""
    return "minor" if one.minor else ""


def plain_person(one: Person) -> dict[str, object]:
    """A person in JSON's words."""
    return {"id": one.id, "name": one.name, "minor": one.minor, "note": one.note}


def _told(one: Person, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_person(one))
    else:
        say(f"{one.name} {done}.")
