"""`farmops papers`: permits, insurance, seals and other papers that run out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, word
from farmops.cli.output import emit, say, table
from farmops.exchange.kept_files import keep, place_of
from farmops.model.journal import Removal
from farmops.model.papers import NewPaper, Paper, PaperChange, PaperKind, Renewal
from farmops.reports import names
from farmops.reports.papers_held import PaperHeld, papers_held

LISTED = "farmops papers list"
FILE_HELP = "The paper itself; a copy is kept beside the store."


@click.group()
def papers() -> None:
    """Papers that run out: permits, insurance, the seal of a scale. What is needed, local law and the contract say.

    A chore "when a paper runs out" calls for the renewal 30 days ahead; new units bring one along.
    """


@papers.command("list")
@on_option
@answer_options
@pass_desk
def list_papers(desk: Desk, on: str | None, as_json: bool) -> None:
    """List the papers, those that end first on top.

    \b
    Example: farmops papers list
    """
    found = papers_held(desk.store, desk.day(on))
    if as_json:
        emit({"papers": [{**plain_paper(desk, one.paper), "stands": one.stands} for one in found]})
    elif not found:
        say('No paper here. File one: farmops papers add permit "fish permit" --until "31 dec"')
    else:
        table(
            ["no.", "paper", "name", "number", "by", "for", "until", "stands"], [_row(one) for one in found], right=[0]
        )


def _row(held: PaperHeld) -> list[str]:
    one = held.paper
    until = str(one.until_day or "no end")
    unit = one.unit or "farm"
    return [str(one.id), one.kind, one.name, one.number or "", one.issued_by or "", unit, until, held.stands]


@papers.command("add")
@click.argument("kind", type=one_of(PaperKind))
@click.argument("name")
@click.option("--until", metavar="DAY", help="The last day on which it is good. [no end]")
@click.option("--from", "first", metavar="DAY", help="The first day. [today]")
@click.option("--number", "of_paper", metavar="TEXT", help="The number on it.")
@click.option("--issued-by", metavar="NAME", help="Who issued it.")
@click.option("--unit", metavar="CODE", help="The unit it is for. [the farm]")
@click.option("--file", "file", metavar="FILE", help=FILE_HELP)
@note_option
@json_option
@pass_desk
def add(desk: Desk, /, kind: str, name: str, until: str | None, first: str | None, as_json: bool, **typed: Any) -> None:
    """File a paper of a KIND under a NAME.

    \b
    Examples: farmops papers add permit "fish permit" --until "31 dec" --number F-118
              farmops papers add scale-seal "stall scale" --until "30 jun" --file seal.jpg
    """
    from farmops.farm.papers import add_paper

    begins, file, unit = desk.day(first), typed["file"], typed["unit"]
    entry = NewPaper(
        word(PaperKind, kind),
        name,
        begins,
        desk.day_or_none(until, ahead=True),
        typed["of_paper"],
        typed["issued_by"],
        names.unit(desk.store, unit).id if unit is not None else None,
        keep(desk.store, file) if file is not None else None,
        typed["note"],
    )
    _told(desk, add_paper(desk.store, entry, **desk.hand), as_json)


@papers.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--name", metavar="NAME")
@click.option("--kind", type=one_of(PaperKind))
@click.option("--until", metavar="DAY", help="The last day on which it is good; - for no end.")
@click.option("--from", "first", metavar="DAY", help="The first day.")
@click.option("--number", "of_paper", metavar="TEXT", help="The number on it; - clears it.")
@click.option("--issued-by", metavar="NAME", help="Who issued it; - clears it.")
@click.option("--unit", metavar="CODE", help="The unit it is for; - for the farm.")
@click.option("--file", "file", metavar="FILE", help=f"{FILE_HELP} - takes it off.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit(desk: Desk, /, number: int, as_json: bool, **typed: Any) -> None:
    """Correct a paper by its number in the list.

    \b
    Example: farmops papers edit 1 --until "31 jan"
    """
    from farmops.farm.papers import change_paper

    one = _numbered(desk, number)
    given = emptied(changes(**typed), "until", "of_paper", "issued_by", "unit", "file", "note")
    renamed = {"until": "until_day", "first": "from_day", "of_paper": "number", "unit": "unit_id"}
    understand: dict[str, Callable[[str], Any]] = {
        "until": lambda text: desk.day_or_none(text, ahead=True),
        "first": desk.day,
        "kind": lambda text: word(PaperKind, text),
        "unit": lambda text: names.unit(desk.store, text).id,
        "file": lambda text: keep(desk.store, text),
    }
    values = {
        renamed.get(name, name): understand[name](value) if name in understand and value is not None else value
        for name, value in given.items()
    }
    _told(desk, change_paper(desk.store, PaperChange(one.id, **values), **desk.hand), as_json)


@papers.command("renew")
@click.argument("number", type=NUMBER)
@click.option("--until", metavar="DAY", required=True, help="The last day of the next one; - for no end.")
@click.option("--from", "first", metavar="DAY", help="Its first day. [the day after this one ends, else today]")
@click.option("--number", "of_paper", metavar="TEXT", help="The number on it. [as before]")
@click.option("--file", "file", metavar="FILE", help=FILE_HELP)
@json_option
@pass_desk
def renew(
    desk: Desk, number: int, until: str, first: str | None, of_paper: str | None, file: str | None, as_json: bool
) -> None:
    """File the paper that follows one; the one before stays in the list.

    \b
    Example: farmops papers renew 1 --until 2027-12-31
    """
    from farmops.farm.papers import renew_paper

    one = _numbered(desk, number)
    follows = one.until_day + timedelta(days=1) if one.until_day else desk.today
    last = None if until == NOTHING else desk.day_or_none(until, ahead=True)
    kept = keep(desk.store, file) if file is not None else None
    entry = Renewal(one.id, desk.day_or_none(first) or follows, last, of_paper, kept)
    _told(desk, renew_paper(desk.store, entry, **desk.hand), as_json)


@papers.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a paper by its number in the list; its file stays where it is kept.

    \b
    Example: farmops papers remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("papers", one.id), **desk.hand)
    say(f"{one.kind.capitalize()} {one.name} removed. farmops undo brings it back.")


def _numbered(desk: Desk, number: int) -> Paper:
    return numbered(papers_held(desk.store, desk.today), number, "paper", LISTED).paper


def plain_paper(desk: Desk, one: Paper) -> dict[str, object]:
    """A paper in JSON's words."""
    return {
        "id": one.id,
        "kind": one.kind,
        "name": one.name,
        "number": one.number,
        "issued_by": one.issued_by,
        "unit": one.unit,
        "from": one.from_day,
        "until": one.until_day,
        "renewed": one.renewed,
        "file": str(place_of(desk.store, one.file)) if one.file else None,
        "file_name": one.file_name,
        "sha256": one.file_sha256,
        "note": one.note,
    }


def _told(desk: Desk, one: Paper, as_json: bool) -> None:
    if as_json:
        emit(plain_paper(desk, one))
        return
    until = f"until {one.until_day}" if one.until_day else "without an end"
    kept = f", with {one.file_name}" if one.file_name else ""
    say(f"{one.kind.capitalize()} {one.name}: good from {one.from_day} {until}{kept}; number {one.id}.")
