"""`farmops people here`: who is here on a day."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option
from farmops.cli.output import emit, say, table
from farmops.model.errors import NotUnderstood
from farmops.model.presence import Crew, Member, NewPresence
from farmops.reports import lists, names
from farmops.reports.crew import crew_of


@click.command()
@click.argument("names_here", metavar="[NAME]...", nargs=-1)
@click.option("--on", metavar="DAY", help="The day; stands in for today. [today]")
@click.option("--as-planned", is_flag=True, help="Take back what was said: everybody who is not away is here.")
@json_option
@pass_desk
def here(desk: Desk, names_here: tuple[str, ...], on: str | None, as_planned: bool, as_json: bool) -> None:
    """Say who is here on a day; without a name, show who is.

    Nothing said, everybody who is not away is here. Chores of somebody who is not here fall to whoever is.

    \b
    Examples: farmops people here
              farmops people here Ada Bo --on tomorrow
              farmops people here --as-planned
    """
    if names_here and as_planned:
        raise click.UsageError("Either name who is here, or take back what was said with --as-planned.")
    lists.farm(desk.store)
    day = desk.day_or_none(on, ahead=True) or desk.today
    if names_here or as_planned:
        from farmops.farm.presence import say_who_is_here

        people = tuple(names.person(desk.store, name).id for name in names_here)
        crew = say_who_is_here(desk.store, NewPresence(day, people), **desk.hand)
    else:
        crew = crew_of(desk.store, day)
    if as_json:
        emit(crew_object(crew))
    else:
        _told(crew)


def _told(crew: Crew) -> None:
    if not crew.members:
        raise NotUnderstood("Nobody is listed yet. Add somebody: farmops people add Ada")
    say(f"{crew.day:%a} {crew.day}, {'as was said' if crew.said else 'nothing else was said'}:")
    table(["name", "here"], [[one.person.name, where_words(one, crew)] for one in crew.members])


def where_words(member: Member, crew: Crew) -> str:
    """Whether somebody is here, or away until when and who stands in."""
    if member.here:
        return "here, a minor" if member.person.minor else "here"
    if member.away_until is None:
        return "not here"
    stand_in = crew.member(member.stand_in_id) if member.stand_in_id is not None else None
    return f"away until {member.away_until}" + (f", {stand_in.person.name} stands in" if stand_in else "")


def crew_object(crew: Crew) -> dict[str, object]:
    """Who is here in JSON's words."""
    names_by_id = {one.person.id: one.person.name for one in crew.members}
    return {
        "on": crew.day,
        "said": crew.said,
        "people": [
            {
                "id": one.person.id,
                "name": one.person.name,
                "minor": one.person.minor,
                "here": one.here,
                "away_until": one.away_until,
                "stand_in": names_by_id.get(one.stand_in_id or 0),
            }
            for one in crew.members
        ],
    }
