"""`farmops instruments`: what is read with, until when it is good, and how it stood against something known."""

from __future__ import annotations

from datetime import date
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, CountOrNothing, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option
from farmops.cli.output import emit, say, table
from farmops.model.instruments import (
    CheckChange,
    Checked,
    Instrument,
    InstrumentChange,
    InstrumentCheck,
    NewCheck,
    NewInstrument,
)
from farmops.model.journal import Removal
from farmops.model.readings import Form, Measure, measure_called
from farmops.reports import lists, names

NONE_YET = (
    'No instrument yet. Take one into service: farmops instruments add "drop kit" ammonia nitrite --expires 2027-06-30'
)
FORMS = {"n": Form.AS_N, "ion": Form.AS_ION}
reports_option = click.option(
    "--reports",
    type=click.Choice([*FORMS, NOTHING]),
    help="What a kit reports: the nitrogen (n) or the ion; - for neither.",
)


@click.group()
def instruments() -> None:
    """Kits, meters and thermometers: when they are past their date or due for a check, and what that makes doubtful.

    A reading is taken to come from what its measure was read with last; say another with farmops water add --with.
    """


@instruments.command("list")
@on_option
@answer_options
@pass_desk
def list_instruments(desk: Desk, on: str | None, as_json: bool) -> None:
    """List the instruments, with their last check.

    \b
    Example: farmops instruments list
    """
    day, found = desk.day(on), lists.instruments(desk.store)
    last = {one.instrument_id: one for one in lists.instrument_checks(desk.store) if one.day <= day}
    if as_json:
        emit({"on": day, "instruments": [plain_instrument(one, last.get(one.id), day) for one in found]})
    elif not found:
        say(NONE_YET)
    else:
        rows = [[one.name, ", ".join(one.reads), _stands(one, last.get(one.id), day), one.note or ""] for one in found]
        table(["name", "reads", "stands", "note"], rows)


def _stands(one: Instrument, last: InstrumentCheck | None, on: date) -> str:
    return "; ".join(one.stands(last, on)) or "in service"


@instruments.command("add")
@click.argument("name")
@click.argument("measures", nargs=-1, required=True)
@click.option("--expires", metavar="DAY", help="The date printed on it.")
@click.option(
    "--check-every", "check_days", type=click.IntRange(1, 3650), metavar="DAYS", help="How often to check it."
)
@reports_option
@note_option
@on_option
@json_option
@pass_desk
def add(
    desk: Desk,
    name: str,
    measures: tuple[str, ...],
    expires: str | None,
    check_days: int | None,
    reports: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Take an instrument into service, with the MEASURES it reads.

    \b
    Examples: farmops instruments add "drop kit" ammonia nitrite --expires 2027-06-30 --reports ion
              farmops instruments add "pH pen" pH --check-every 30
    """
    from farmops.farm.instruments import add_instrument

    day = desk.day(on)
    form = FORMS.get(reports or "")
    entry = NewInstrument(name, _measures(measures), day, form, desk.day_or_none(expires), check_days, note)
    _told(desk, add_instrument(desk.store, entry, **desk.hand), "in service", as_json)


def _measures(words: tuple[str, ...]) -> tuple[Measure, ...]:
    return tuple(measure_called(one) for word in words for one in word.split(",") if one.strip())


@instruments.command("edit")
@click.argument("name")
@click.option("--name", "new_name", metavar="NAME", help="Another name.")
@click.option("--reads", metavar="MEASURES", help="What it reads, parted by commas.")
@click.option("--expires", metavar="DAY", help="The date printed on it; - for none.")
@click.option("--check-every", "check_days", type=CountOrNothing(), help="Days between checks; - for none.")
@reports_option
@click.option("--from", "first", metavar="DAY", help="In service from this day.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit(
    desk: Desk, /, name: str, new_name: str | None, reads: str | None, first: str | None, as_json: bool, **typed: Any
) -> None:
    """Correct an instrument.

    \b
    Example: farmops instruments edit "drop kit" --expires 2027-12-31
    """
    from farmops.farm.instruments import change_instrument

    one = names.instrument(desk.store, name)
    expires, reports = typed["expires"], typed["reports"]
    given = changes(
        name=new_name,
        reads=_measures((reads,)) if reads is not None else None,
        from_day=desk.day_or_none(first),
        expires_day=expires if expires in (None, NOTHING) else desk.day(expires),
        check_days=typed["check_days"],
        form=FORMS.get(reports, reports),
        note=typed["note"],
    )
    entry = InstrumentChange(one.id, **emptied(given, "expires_day", "check_days", "form", "note"))
    _told(desk, change_instrument(desk.store, entry, **desk.hand), "changed", as_json)


@instruments.command("retire")
@click.argument("name")
@click.option("--back", is_flag=True, help="It is in service after all.")
@on_option
@json_option
@pass_desk
def retire(desk: Desk, name: str, back: bool, on: str | None, as_json: bool) -> None:
    """Take an instrument out of service; its last day is today, or the one named.

    \b
    Examples: farmops instruments retire "old kit" --on yesterday
              farmops instruments retire "old kit" --back
    """
    from farmops.farm.instruments import change_instrument

    one = names.instrument(desk.store, name)
    entry = InstrumentChange(one.id, until_day=None if back else desk.day(on))
    _told(desk, change_instrument(desk.store, entry, **desk.hand), "in service" if back else "retired", as_json)


@instruments.command("check")
@click.argument("name")
@click.argument("result", type=click.Choice(["passed", "failed"]))
@click.option("--against", metavar="TEXT", help="What it was held against: pH 7.00, ice water.")
@click.option("--showed", metavar="TEXT", help="What it showed.")
@note_option
@on_option
@json_option
@pass_desk
def check(
    desk: Desk,
    name: str,
    result: str,
    against: str | None,
    showed: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Book how an instrument stood against something known; its own paper says what passes.

    One that fails makes its readings doubtful, back to the last check it passed.

    \b
    Examples: farmops instruments check "pH pen" passed --against "pH 7.00" --showed 7.02
              farmops instruments check "drop kit" failed --against "1 mg/L" --showed 0.5
    """
    from farmops.farm.instruments import check_instrument

    one = names.instrument(desk.store, name)
    entry = NewCheck(one.id, desk.day(on), result == "passed", against, showed, note)
    done = check_instrument(desk.store, entry, **desk.hand)
    if as_json:
        emit({**plain_check(done.check), "doubtful_readings": done.doubtful})
        return
    say(f"{one.name} {result} on {done.check.day}.{_doubt_words(done)}")


@instruments.command("edit-check")
@click.argument("number", type=NUMBER)
@click.option("--result", type=click.Choice(["passed", "failed"]))
@click.option("--against", metavar="TEXT", help="What it was held against; - clears it.")
@click.option("--showed", metavar="TEXT", help="What it showed; - clears it.")
@click.option("--on", metavar="DAY", help="The day of the check.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_check(desk: Desk, /, number: int, result: str | None, on: str | None, as_json: bool, **typed: Any) -> None:
    """Correct a check by its number in the list of checks.

    \b
    Examples: farmops instruments edit-check 3 --result failed
              farmops instruments edit-check 3 --showed 7.4 --on yesterday
    """
    from farmops.farm.instruments import change_check

    one = _check_called(desk, number)
    passed = None if result is None else result == "passed"
    given = emptied(changes(passed=passed, day=desk.day_or_none(on), **typed), "against", "showed", "note")
    done = change_check(desk.store, CheckChange(one.id, **given), **desk.hand)
    if as_json:
        emit({**plain_check(done.check), "doubtful_readings": done.doubtful})
    else:
        held = "passed" if done.check.passed else "failed"
        say(f"Check {one.id} of {one.instrument} changed: {held} on {done.check.day}.{_doubt_words(done)}")


def _check_called(desk: Desk, number: int) -> InstrumentCheck:
    lists.farm(desk.store)
    return numbered(lists.instrument_checks(desk.store), number, "check", "farmops instruments checks")


def _doubt_words(done: Checked) -> str:
    return f" Doubtful now: {done.doubtful} readings (farmops water list)." if done.doubtful else ""


@instruments.command("checks")
@click.argument("name", required=False)
@answer_options
@pass_desk
def list_checks(desk: Desk, name: str | None, as_json: bool) -> None:
    """List the checks of one instrument, or of all.

    \b
    Example: farmops instruments checks "pH pen"
    """
    lists.farm(desk.store)
    id = names.instrument(desk.store, name).id if name is not None else None
    found = [one for one in lists.instrument_checks(desk.store) if id in (None, one.instrument_id)]
    if as_json:
        emit({"checks": [plain_check(one) for one in found]})
    elif not found:
        say('No check yet. Book one: farmops instruments check "pH pen" passed --against "pH 7.00" --showed 7.02')
    else:
        table(["no.", "day", "instrument", "", "against", "showed", "note"], [_row(one) for one in found], right=[0])


def _row(one: InstrumentCheck) -> list[str]:
    result = "passed" if one.passed else "failed"
    return [str(one.id), str(one.day), one.instrument, result, one.against or "", one.showed or "", one.note or ""]


@instruments.command("remove")
@click.argument("name", required=False)
@click.option("--check", "number", type=NUMBER, help="Remove this check of the list of checks instead.")
@pass_desk
def remove(desk: Desk, name: str | None, number: int | None) -> None:
    """Remove an instrument that nothing was read with, or a check by its number.

    \b
    Examples: farmops instruments remove "old kit"
              farmops instruments remove --check 3
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    if number is not None:
        one = _check_called(desk, number)
        removal, what = Removal("instrument checks", one.id), f"Check {one.id} of {one.instrument}"
    elif name is not None:
        held = names.instrument(desk.store, name)
        removal, what = Removal("instruments", held.id), held.name
    else:
        raise click.UsageError("Name an instrument, or a check by --check.")
    remove_record(desk.store, removal, **desk.hand)
    say(f"{what} removed. farmops undo brings it back.")


def plain_instrument(one: Instrument, last: InstrumentCheck | None, on: date) -> dict[str, object]:
    """An instrument in JSON's words; `stands` says what is wrong with it on a day."""
    return {
        "id": one.id,
        "name": one.name,
        "reads": list(one.reads),
        "form": one.form,
        "from": one.from_day,
        "expires": one.expires_day,
        "until": one.until_day,
        "check_days": one.check_days,
        "note": one.note,
        "stands": list(one.stands(last, on)),
        "last_check": plain_check(last) if last else None,
    }


def plain_check(one: InstrumentCheck) -> dict[str, object]:
    """A check in JSON's words."""
    return {
        "id": one.id,
        "date": one.day,
        "instrument": one.instrument,
        "passed": one.passed,
        "against": one.against,
        "showed": one.showed,
        "note": one.note,
    }


def _told(desk: Desk, one: Instrument, done: str, as_json: bool) -> None:
    if as_json:
        last = next((x for x in reversed(lists.instrument_checks(desk.store)) if x.instrument_id == one.id), None)
        emit(plain_instrument(one, last, desk.today))
    else:
        say(f"{one.name} {done}: reads {', '.join(one.reads)}.")
