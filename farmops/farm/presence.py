"""Who is here on a day."""

from __future__ import annotations

from farmops.facts import presence as presence_facts
from farmops.farm.operation import Operation, operation
from farmops.model.presence import Crew, NewPresence
from farmops.records.farm import PersonRow
from farmops.records.presence import PresenceRow


@operation("who is here")
def say_who_is_here(op: Operation, entry: NewPresence) -> Crew:
    """Say who is here on a day, in place of what was said of it before; nobody named takes that back."""
    day = op.sensible_day(entry.day)
    said = presence_facts.said_of(op.reader, day)
    for person_id, row_id in said.items():
        if person_id not in entry.people:
            op.remove(op.get(PresenceRow, row_id))
    for person_id in dict.fromkeys(entry.people):
        if person_id not in said:
            op.get(PersonRow, person_id)
            op.add(PresenceRow(day=day, person_id=person_id))
    return presence_facts.crew_on(op.reader, day)
