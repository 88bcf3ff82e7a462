"""The form that says who is here on a day."""

from __future__ import annotations

from typing import Any

from farmops.model.errors import Refused
from farmops.model.presence import Crew, NewPresence
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.forms.settling import coming_day
from farmops.tui.widgets.fields import Field, Kind, day_words
from farmops.tui.widgets.forms import FormSpec, Hand

PLANNED = "planned"


def edit(record: Crew, context: Context) -> FormSpec:
    """Who is here on a day: one field for each person, and one to take back what was said."""
    if not record.members:
        raise Refused("Nobody is listed yet. F7 Records, then n among the people: say who works here.")

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.presence import say_who_is_here

        people = tuple(one.person.id for one in record.members if values[_name(one.person.id)])
        if not values[PLANNED] and not people:
            raise Refused("Not booked: nobody would be here. Say who is.")
        entry = NewPresence(values["day"], () if values[PLANNED] else people)
        crew = say_who_is_here(store, entry, **making.hand_of(hand, operation))
        return f"Here on {day_words(crew.day)}: {', '.join(one.name for one in crew.here) or 'nobody'}."

    planned = Field(PLANNED, "As planned", Kind.YES, "no", hint="yes: everybody who is not away")
    day = making.day("day", "On", record.day, read=coming_day, told=lambda day, setting: day_words(day))
    return FormSpec("Who is here", (*_fields(record), planned, day), save, context.setting)


def _fields(crew: Crew) -> tuple[Field, ...]:
    return tuple(
        Field(_name(one.person.id), one.person.name, Kind.YES, "yes" if one.here else "no") for one in crew.members
    )


def _name(id: int) -> str:
    return f"person_{id}"
