"""Incidents, and the steps that were taken in them."""

from __future__ import annotations

from datetime import date

from farmops.facts import units as unit_facts
from farmops.facts.live_fish import live_on
from farmops.model.frozen import dataclass
from farmops.model.incidents import Incident, Ticked
from farmops.model.units import Unit
from farmops.records.reading import Reader

INCIDENTS = "SELECT id, kind, began_at, ended_at, note FROM incident"
TICKED = """
    SELECT incident_step.id, incident_step.incident_id, incident_step.unit_id, unit.code AS unit, incident_step.step,
        incident_step.at, incident_step.actor, incident_step.note
    FROM incident_step LEFT JOIN unit ON unit.id = incident_step.unit_id
    WHERE incident_step.incident_id = :incident ORDER BY incident_step.at, incident_step.id
"""


def incidents(reader: Reader) -> list[Incident]:
    """Every incident, the latest first."""
    return reader.all(Incident, f"{INCIDENTS} ORDER BY began_at DESC, id DESC")


def incident(reader: Reader, id: int) -> Incident | None:
    """The incident of that number."""
    return reader.one(Incident, f"{INCIDENTS} WHERE id = :id", id=id)


def open_incidents(reader: Reader) -> list[Incident]:
    """What lasts; there is no more than one, unless a rule is about to refuse it."""
    return reader.all(Incident, f"{INCIDENTS} WHERE ended_at IS NULL ORDER BY began_at, id")


def ticked(reader: Reader, incident: int) -> list[Ticked]:
    """The steps taken in an incident, in the order in which they were."""
    return reader.all(Ticked, TICKED, incident=incident)


@dataclass(frozen=True, slots=True)
class AtStake:
    """A unit whose water is kept alive, and whether live fish are in it."""

    unit: Unit
    with_fish: bool


def units_at_stake(reader: Reader, on: date) -> list[AtStake]:
    """The units that an incident on a day concerns, in walking order: those in an active state, or with live fish."""
    states = unit_facts.all_states(reader)
    fish = {one.unit_id for one in live_on(reader, on)}
    found = []
    for unit in unit_facts.units(reader):
        held = [one.state for one in states.get(unit.id, ()) if one.from_day <= on]
        if unit.id in fish or (held and held[-1].active):
            found.append(AtStake(unit, unit.id in fish))
    return found
