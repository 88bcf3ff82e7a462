"""`farmops crops`: what the farm grows, and what the packaged table says of it."""

from __future__ import annotations

import click

from farmops import library
from farmops.cli.about import print_crop
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, emptied
from farmops.cli.options import answer_options, json_option, note_option
from farmops.cli.output import emit, line, say, table
from farmops.library import CropFacts
from farmops.model.errors import NotFound
from farmops.model.journal import Removal
from farmops.model.plantings import Crop, CropChange, NewCrop
from farmops.model.text import plain
from farmops.reports import lists, names


@click.group()
def crops() -> None:
    """What the farm grows."""


@crops.command("list")
@answer_options
@pass_desk
def list_crops(desk: Desk, as_json: bool) -> None:
    """List the crops by name.

    \b
    Example: farmops crops list
    """
    lists.farm(desk.store)
    found = lists.crops(desk.store)
    if as_json:
        emit({"crops": [plain_crop(one) for one in found]})
    elif not found:
        say("No crop yet. Add the first: farmops crops add CHARD")
    else:
        table(["crop", "facts", "note"], [[one.name, one.library_key or "none", one.note or ""] for one in found])


@crops.command("show")
@click.argument("name")
@answer_options
@pass_desk
def show_crop(desk: Desk, name: str, as_json: bool) -> None:
    """Show a crop with the packaged facts about it, their source and how far they can be trusted.

    \b
    Example: farmops crops show CHARD
    """
    lists.farm(desk.store)
    one = names.crop(desk.store, name)
    facts = library.crop(one.library_key) if one.library_key else None
    if as_json:
        emit({**plain_crop(one), "facts": facts})
        return
    line(one.name)
    if one.note:
        line(one.note)
    if facts:
        print_crop(facts, desk.measures)
    else:
        say(f"No packaged facts go with {one.name}.")


@crops.command("add")
@click.argument("name")
@click.option("--facts", "about", metavar="CROP", help="Packaged facts to go by; - for none. [those of its name]")
@note_option
@json_option
@pass_desk
def add_crop(desk: Desk, name: str, about: str | None, note: str | None, as_json: bool) -> None:
    """The farm begins to grow a crop; packaged facts of that name go with it.

    \b
    Examples: farmops crops add CHARD
              farmops crops add "RUBY CHARD" --facts chard
    """
    from farmops.farm.plantings import add_crop as add

    lists.farm(desk.store)
    facts = _facts(name, about)
    added = add(desk.store, NewCrop(name, facts.key if facts else None, note), **desk.hand)
    _told(added, "added", as_json)
    if facts:
        say(
            f"Taken: the packaged facts on {facts.name} ({facts.latin_name}), {facts.standing}. "
            f"See: farmops crops show {_quoted(added.name)}"
        )
    else:
        say(f"No packaged facts go with {added.name}; nothing rests on them.")


def packaged(name: str) -> str | None:
    """The key of the packaged facts on a crop of that name, None where there are none."""
    facts = library.crop(name)
    return facts.key if facts else None


def _facts(name: str, about: str | None) -> CropFacts | None:
    if about == NOTHING:
        return None
    facts = library.crop(name if about is None else about)
    if facts is None and about is not None:
        known = ", ".join(one.key for one in library.crops())
        raise NotFound(f"There are no packaged facts on {plain(about)}. Known: {known}.")
    return facts


@crops.command("edit")
@click.argument("name")
@click.option("--name", "new_name", metavar="NAME", help="A new name.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_crop(desk: Desk, name: str, new_name: str | None, note: str | None, as_json: bool) -> None:
    """Correct the name or the note of a crop.

    \b
    Example: farmops crops edit CHARD --name "SWISS CHARD"
    """
    from farmops.farm.plantings import change_crop

    lists.farm(desk.store)
    given = emptied(changes(name=new_name, note=note), "note")
    entry = CropChange(names.crop(desk.store, name).id, **given)
    _told(change_crop(desk.store, entry, **desk.hand), "changed", as_json)


@crops.command("remove")
@click.argument("name")
@pass_desk
def remove_crop(desk: Desk, name: str) -> None:
    """Remove a crop that was never planted.

    \b
    Example: farmops crops remove CHARD
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    one = names.crop(desk.store, name)
    remove_record(desk.store, Removal("crops", one.id), **desk.hand)
    say(f"{one.name} removed. farmops undo brings it back.")


def plain_crop(one: Crop) -> dict[str, object]:
    """A crop in JSON's words; `facts_key` names the packaged facts."""
    return {"id": one.id, "crop": one.name, "facts_key": one.library_key, "note": one.note}


def _quoted(name: str) -> str:
    return f'"{name}"' if " " in name else name


def _told(one: Crop, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_crop(one))
    else:
        say(f"{one.name} {done}.")
