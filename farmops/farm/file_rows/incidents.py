"""Rows about incidents: when the power went and when everything was seen running again."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from farmops.facts import incidents as incident_facts
from farmops.farm.file_rows.booking import Booking, agrees, named
from farmops.farm.incidents import begin_incident, end_incident
from farmops.farm.operation import Operation
from farmops.model.frozen import dataclass
from farmops.model.incidents import Ending, IncidentKind, NewIncident


@dataclass(frozen=True, slots=True)
class IncidentSaid:
    """What a row says of an incident; `ended_at` None where it lasts. `all_running` as when it is ended by hand."""

    began_at: datetime
    ended_at: datetime | None = None
    kind: IncidentKind = IncidentKind.POWER_CUT
    all_running: bool = False
    note: str | None = None


def _there(op: Operation, said: IncidentSaid) -> bool:
    return any(
        (one.kind, one.began_at) == (said.kind, said.began_at) and agrees(said.ended_at, one.ended_at)
        for one in incident_facts.incidents(op.reader)
    )


def _book(op: Operation, said: IncidentSaid) -> None:
    """Begin an incident, and end it, or the one that began then and lasts."""
    lasting = [one for one in incident_facts.open_incidents(op.reader) if one.began_at == said.began_at]
    if not lasting:
        begin_incident.body(op, NewIncident(said.kind, said.began_at, said.note))
    if said.ended_at is not None:
        end_incident.body(op, Ending(said.ended_at, said.all_running))


BOOKINGS: dict[str, Booking[Any]] = {"incidents": named(_there, _book)}
