"""`farmops incident`: a power cut from the first minute to everything running again."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import click

from farmops import clock
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied, numbered
from farmops.cli.incident_output import incident_object, print_standing, standing_object, ticked_object
from farmops.cli.options import answer_options, json_option, note_option, one_of, word
from farmops.cli.output import emit, say, table
from farmops.cli.printing import give_paper, paper_options
from farmops.model.incidents import Ending, Incident, IncidentChange, IncidentKind, NewIncident, Tick
from farmops.model.journal import Removal
from farmops.reports import lists, names
from farmops.reports.power_cut import standing_now, standing_of
from farmops.reports.power_cut_words import hour_words

at_option = click.option("--at", "hour", metavar="HH:MM", help="The time of day, the last one that has passed. [now]")
LISTED = "farmops incident list"


@click.group()
def incident() -> None:
    """A power cut: how long each unit has, what first, and everything running again.

    \b
    Begin:  farmops incident begin power-cut
    Then:   farmops incident tick air --unit WREN
            farmops incident show
    Over:   farmops incident end --all-running
    """


@incident.command()
@click.argument("kind", type=one_of(IncidentKind), default=IncidentKind.POWER_CUT.value.replace(" ", "-"))
@at_option
@note_option
@json_option
@pass_desk
def begin(desk: Desk, kind: str, hour: str | None, note: str | None, as_json: bool) -> None:
    """The power is out: say how long each unit has, and what to do first.

    \b
    Examples: farmops incident begin power-cut
              farmops incident begin power-cut --at 6:10
    """
    from farmops.farm.incidents import begin_incident

    entry = NewIncident(word(IncidentKind, kind), _instant(desk, hour), note)
    begin_incident(desk.store, entry, **desk.hand)
    _show(desk, None, as_json)


@incident.command()
@click.argument("number", type=NUMBER, required=False)
@answer_options
@pass_desk
def show(desk: Desk, number: int | None, as_json: bool) -> None:
    """Minutes left in each unit, the steps, and what is to be seen running again.

    Without a power cut it says what would come of one that begins now.

    \b
    Examples: farmops incident show
              farmops incident show 1
    """
    _show(desk, number, as_json)


def _show(desk: Desk, number: int | None, as_json: bool) -> None:
    found = standing_now(desk.store) if number is None else standing_of(desk.store, number)
    if as_json:
        emit(standing_object(found))
    else:
        print_standing(found)


@incident.command()
@click.argument("steps", nargs=-1, required=True)
@click.option("--unit", "code", metavar="CODE", help="The unit, for steps that are taken in each.")
@at_option
@note_option
@json_option
@pass_desk
def tick(
    desk: Desk, steps: tuple[str, ...], code: str | None, hour: str | None, note: str | None, as_json: bool
) -> None:
    """Steps were taken: air in a unit, feeding off; pump, siphon and others seen running again.

    \b
    Examples: farmops incident tick air --unit WREN
              farmops incident tick feed-off covers
              farmops incident tick ground-fault pump bubbles siphon heater --unit WREN
    """
    from farmops.farm.incidents import tick_steps

    unit = names.unit(desk.store, code).id if code else None
    done = tick_steps(desk.store, Tick(steps, unit, _instant(desk, hour), note), **desk.hand).ticked
    if as_json:
        emit({"ticked": [ticked_object(one) for one in done]})
    else:
        at = clock.hour_of(done[0].at, desk.farm.time_zone)
        say(f"Ticked at {at}{f' in {done[0].unit}' if done[0].unit else ''}: {', '.join(one.step for one in done)}.")


@incident.command()
@click.option("--all-running", is_flag=True, help="You saw everything running again that is not ticked yet.")
@at_option
@note_option
@json_option
@pass_desk
def end(desk: Desk, all_running: bool, hour: str | None, note: str | None, as_json: bool) -> None:
    """The power is back and everything runs again: no feed today, ammonia daily for a week.

    \b
    Examples: farmops incident end
              farmops incident end --all-running --at 9:40
    """
    from farmops.farm.incidents import end_incident

    entry = Ending(_instant(desk, hour), all_running, note)
    ended = end_incident(desk.store, entry, **desk.hand)
    if as_json:
        more = {"feeds_left_out": ended.feeds_left_out, "chores_given": ended.chores_given}
        emit({**incident_object(ended.incident), **more})
        return
    say("The power cut is over.")
    if ended.feeds_left_out:
        say(f"Left out today: {'; '.join(ended.feeds_left_out)}.")
    if ended.chores_given:
        say(f"To do: {'; '.join(ended.chores_given)}.")


@incident.command("list")
@answer_options
@pass_desk
def list_incidents(desk: Desk, as_json: bool) -> None:
    """List what went wrong, the latest first.

    \b
    Example: farmops incident list
    """
    lists.farm(desk.store)
    found = lists.incidents(desk.store)
    if as_json:
        emit({"incidents": [incident_object(one) for one in found]})
    elif not found:
        say("Nothing went wrong yet. If the power goes: farmops incident begin power-cut")
    else:
        table(["", "what", "began", "ended", "note"], [_row(desk, one) for one in found], right=[0])


def _row(desk: Desk, one: Incident) -> list[str]:
    zone = clock.time_zone(desk.farm.time_zone)
    began = f"{one.began_at.astimezone(zone):%Y-%m-%d %H:%M}"
    ended = hour_words(one.ended_at, desk.farm, one.began_at) if one.ended_at else "lasts"
    return [str(one.id), one.kind, began, ended, one.note or ""]


@incident.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--began", metavar="HH:MM", help="When it began, on the day on which it did.")
@click.option("--ended", metavar="HH:MM", help="When it ended, the first such time after it began.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_incident(
    desk: Desk, number: int, began: str | None, ended: str | None, note: str | None, as_json: bool
) -> None:
    """Correct when it began or ended, or the note.

    \b
    Example: farmops incident edit 1 --began 5:50
    """
    from farmops.farm.incidents import change_incident

    one = _numbered(desk, number)
    given = emptied(changes(began_at=began, ended_at=ended, note=note), "note")
    zone = desk.farm.time_zone
    if began:
        given["began_at"] = clock.same_day(began, one.began_at, zone)
    if ended:
        given["ended_at"] = clock.next_time(ended, given.get("began_at", one.began_at), zone)
    changed = change_incident(desk.store, IncidentChange(one.id, **given), **desk.hand)
    if as_json:
        emit(incident_object(changed))
    else:
        say(f"Power cut {changed.id} changed.")


@incident.command()
@click.argument("code", metavar="UNIT")
@paper_options
@pass_desk
def card(desk: Desk, /, code: str, **how: Any) -> None:
    """The card on the wall of a unit, for when the screen is dark.

    Minutes left at three temperatures, the steps, breaker and valve, whom to call.

    \b
    Examples: farmops incident card WREN --out wren.pdf
              farmops incident card WREN --text
    """
    from farmops.exchange.card_text import text_of
    from farmops.exchange.cards import written
    from farmops.reports.wall_card import wall_card

    found = wall_card(desk.store, names.unit(desk.store, code))
    give_paper(lambda: text_of(found), lambda how: written(found, how), **how)


@incident.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_incident(desk: Desk, number: int) -> None:
    """It never was: remove it with its steps.

    \b
    Example: farmops incident remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("incidents", one.id), **desk.hand)
    say("Removed. farmops undo brings it back.")


def _numbered(desk: Desk, number: int) -> Incident:
    lists.farm(desk.store)
    return numbered(lists.incidents(desk.store), number, "incident", LISTED)


def _instant(desk: Desk, hour: str | None) -> datetime | None:
    """The last time at which it was that hour on the farm; None is now."""
    return clock.last_time(hour, desk.farm.now(), desk.farm.time_zone) if hour is not None else None
