"""`farmops people contacts`: whom to call, and for what."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option
from farmops.cli.output import emit, say, table
from farmops.model.contacts import Contact, ContactChange, NewContact
from farmops.model.journal import Removal
from farmops.reports import lists

LISTED = "farmops people contacts list"


@click.group()
def contacts() -> None:
    """Whom to call: a vet, an electrician, a neighbour. They stand on care sheets and wall cards."""


@contacts.command("list")
@answer_options
@pass_desk
def list_contacts(desk: Desk, as_json: bool) -> None:
    """List whom to call.

    \b
    Example: farmops people contacts list
    """
    lists.farm(desk.store)
    found = lists.contacts(desk.store)
    if as_json:
        emit({"contacts": [plain_contact(one) for one in found]})
    elif not found:
        say('Nobody to call yet. Write somebody down: farmops people contacts add "Dr Reed" "555 0100" --for vet')
    else:
        rows = [[str(one.id), one.calls_for, one.name, one.phone, one.note or ""] for one in found]
        table(["", "for", "name", "phone", "note"], rows, right=[0])


@contacts.command("add")
@click.argument("name")
@click.argument("phone")
@click.option("--for", "calls_for", metavar="WHAT", required=True, help="What they are called for: vet, electrician.")
@note_option
@json_option
@pass_desk
def add_contact(desk: Desk, name: str, phone: str, calls_for: str, note: str | None, as_json: bool) -> None:
    """Write down whom to call.

    \b
    Example: farmops people contacts add "Dr Reed" "555 0100" --for vet
    """
    from farmops.farm.contacts import add_contact as add

    lists.farm(desk.store)
    _told(add(desk.store, NewContact(name, phone, calls_for, note), **desk.hand), "written down", as_json)


@contacts.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--name", metavar="NAME", help="A new name.")
@click.option("--phone", metavar="NUMBER", help="A new number.")
@click.option("--for", "calls_for", metavar="WHAT", help="What they are called for.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_contact(
    desk: Desk,
    number: int,
    name: str | None,
    phone: str | None,
    calls_for: str | None,
    note: str | None,
    as_json: bool,
) -> None:
    """Correct a contact, by its number in the list.

    \b
    Example: farmops people contacts edit 1 --phone "555 0199"
    """
    from farmops.farm.contacts import change_contact

    one = _numbered(desk, number)
    given = emptied(changes(name=name, phone=phone, calls_for=calls_for, note=note), "note")
    _told(change_contact(desk.store, ContactChange(one.id, **given), **desk.hand), "changed", as_json)


@contacts.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_contact(desk: Desk, number: int) -> None:
    """Take a contact off the list, by its number.

    \b
    Example: farmops people contacts remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("contacts", one.id), **desk.hand)
    say(f"{one.name} removed. farmops undo brings them back.")


def plain_contact(one: Contact) -> dict[str, object]:
    """A contact in JSON's words."""
    return {"id": one.id, "name": one.name, "for": one.calls_for, "phone": one.phone, "note": one.note}


def _numbered(desk: Desk, number: int) -> Contact:
    lists.farm(desk.store)
    return numbered(lists.contacts(desk.store), number, "contact", LISTED)


def _told(one: Contact, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_contact(one))
    else:
        say(f"{one.name}, {one.phone}, for {one.calls_for}: {done}.")
