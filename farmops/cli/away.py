"""`farmops away`: who is away, who stands in, what moves out of the time."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option
from farmops.cli.output import emit, line, say, table
from farmops.cli.printing import give_paper, paper_options
from farmops.model.absences import Absence, AbsenceChange, Away, Moved, NewAbsence
from farmops.model.journal import Removal
from farmops.reports import lists, names

dry_run_option = click.option("--dry-run", is_flag=True, help="Only say what would move; book nothing.")


@click.group()
def away() -> None:
    """Who is away, who stands in, and the care sheet for them.

    When nobody else is here, upkeep, paperwork and crop work that can wait move out of the time: nothing becomes late.
    What fish need never moves.
    """


@away.command("list")
@answer_options
@pass_desk
def list_absences(desk: Desk, as_json: bool) -> None:
    """List who is away, the latest first.

    \b
    Example: farmops away list
    """
    lists.farm(desk.store)
    found = lists.absences(desk.store)
    if as_json:
        emit({"absences": [plain_absence(one) for one in found]})
    elif not found:
        say("Nobody is away. Going away: farmops away add Ada --from sat --to +14 --stand-in Bo")
    else:
        rows = [_row(one) for one in found]
        table(["", "who", "from", "to", "stands in", "note"], rows, right=[0])


def _row(one: Absence) -> list[str]:
    return [str(one.id), one.person, str(one.from_day), str(one.until_day), one.stand_in or "", one.note or ""]


@away.command("add")
@click.argument("name")
@click.option("--from", "first", metavar="DAY", required=True, help="The first day away.")
@click.option("--to", "last", metavar="DAY", required=True, help="The last day away.")
@click.option("--stand-in", metavar="NAME", help="Who does what is on the care sheet.")
@note_option
@dry_run_option
@json_option
@pass_desk
def add_absence(
    desk: Desk,
    name: str,
    first: str,
    last: str,
    stand_in: str | None,
    note: str | None,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Somebody goes away; say what is to be done before, and move what can wait.

    \b
    Examples: farmops away add Ada --from sat --to +14 --stand-in Bo --dry-run
              farmops away add Ada --from "20 oct" --to "26 oct" --stand-in Bo
    """
    from farmops.farm.absences import go_away

    lists.farm(desk.store)
    entry = NewAbsence(
        names.person(desk.store, name).id,
        desk.day_or_none(first, ahead=True) or desk.today,
        desk.day_or_none(last, ahead=True) or desk.today,
        names.person(desk.store, stand_in).id if stand_in else None,
        note,
    )
    if dry_run:
        _told(go_away.rehearse(desk.store, entry, by=desk.by), as_json, booked=False)
    else:
        _told(go_away(desk.store, entry, **desk.hand), as_json, booked=True)


@away.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--who", metavar="NAME", help="Somebody else is away.")
@click.option("--from", "first", metavar="DAY", help="The first day away.")
@click.option("--to", "last", metavar="DAY", help="The last day away.")
@click.option("--stand-in", metavar="NAME", help="Who stands in; - is nobody.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@dry_run_option
@json_option
@pass_desk
def edit_absence(
    desk: Desk,
    number: int,
    who: str | None,
    first: str | None,
    last: str | None,
    stand_in: str | None,
    note: str | None,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Correct an absence, or come home early: what was moved for it moves anew.

    \b
    Example: farmops away edit 1 --to yesterday
    """
    from farmops.farm.absences import change_absence

    one = _numbered(desk, number)
    given = emptied(changes(person_id=who, from_day=first, until_day=last, stand_in_id=stand_in, note=note), "note")
    for field in ("person_id", "stand_in_id"):
        if field in given:
            given[field] = None if given[field] == "-" else names.person(desk.store, given[field]).id
    for field in ("from_day", "until_day"):
        if field in given:
            given[field] = desk.day_or_none(given[field], ahead=True)
    entry = AbsenceChange(one.id, **given)
    if dry_run:
        _told(change_absence.rehearse(desk.store, entry, by=desk.by), as_json, booked=False)
    else:
        _told(change_absence(desk.store, entry, **desk.hand), as_json, booked=True)


@away.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_absence(desk: Desk, number: int) -> None:
    """Not away at all: what was moved stands where it stood.

    \b
    Example: farmops away remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("absences", one.id), **desk.hand)
    say(f"{one.person} is not away. farmops undo brings it back.")


@away.command("sheet")
@click.option("--on", metavar="DAY", help="One day.")
@click.option("--from", "first", metavar="DAY", help="The first day. [of the absence that lasts or comes next]")
@click.option("--to", "last", metavar="DAY", help="The last day. [of that absence]")
@paper_options
@pass_desk
def sheet(desk: Desk, /, on: str | None, first: str | None, last: str | None, **how: Any) -> None:
    """The care sheet for the stand-in: a page a day or a week.

    What to do when, bags of feed, when not to feed, what never to do, breakers, valves, whom to call.

    \b
    Examples: farmops away sheet --out care.pdf
              farmops away sheet --from sat --to +9 --out care.pdf --paper a4
              farmops away sheet --on tomorrow --text
    """
    from farmops.exchange.care import written
    from farmops.exchange.care_text import text_of
    from farmops.reports.care import care_sheet

    if on is not None and (first is not None or last is not None):
        raise click.UsageError("Say --on for one day, or --from and --to for several.")
    if last is not None and first is None:
        raise click.UsageError("Say the first day too: --from DAY.")
    begin = desk.day_or_none(on or first, ahead=True)
    found = care_sheet(desk.store, begin, desk.day_or_none(last, ahead=True))
    give_paper(lambda: text_of(found), lambda how: written(found, how), lambda: {"lacking": found.lacking}, **how)
    if not how["as_json"]:
        for words in found.lacking:
            say(f"Missing on it: {words}.")


def plain_absence(one: Absence) -> dict[str, object]:
    """An absence in JSON's words."""
    return {
        "id": one.id,
        "person": one.person,
        "from": one.from_day,
        "to": one.until_day,
        "stand_in": one.stand_in,
        "note": one.note,
    }


def _plain_moved(one: Moved) -> dict[str, object]:
    return {"chore": one.chore_id, "title": one.title, "where": one.where, "due": one.due, "until": one.until}


def _numbered(desk: Desk, number: int) -> Absence:
    lists.farm(desk.store)
    return numbered(lists.absences(desk.store), number, "absence", "farmops away list")


def _told(found: Away, as_json: bool, *, booked: bool) -> None:
    if as_json:
        emit(_plain_away(found, booked=booked))
        return
    one, moves = found.absence, found.moves
    standing_in = f"; {one.stand_in} stands in" if one.stand_in else ""
    say(f"{one.person} {'is' if booked else 'would be'} away from {one.from_day} to {one.until_day}{standing_in}.")
    for words in moves.warnings:
        say(words)
    if not moves.moved:
        say(moves.staying or "Nothing has to move.")
    _listed("Do before you go", [(one, f"due {one.due}") for one in moves.before])
    _listed("Put off", [(one, f"from {one.due} until {one.until}") for one in moves.put_off])
    if not booked:
        say("Nothing is booked yet.")


def _plain_away(found: Away, *, booked: bool) -> dict[str, object]:
    return {
        **plain_absence(found.absence),
        "id": found.absence.id if booked else None,
        "booked": booked,
        "here": found.moves.here,
        "warnings": found.moves.warnings,
        "do_before": [_plain_moved(one) for one in found.moves.before],
        "put_off": [_plain_moved(one) for one in found.moves.put_off],
    }


def _listed(head: str, rows: list[tuple[Moved, str]]) -> None:
    if rows:
        line(head)
        table(["", "where", "chore", ""], [[str(one.chore_id), one.where, one.title, words] for one, words in rows])
