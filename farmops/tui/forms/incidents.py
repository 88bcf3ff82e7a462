"""Form for a power cut: when it began and ended, and a note."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from farmops import clock
from farmops.model.incidents import Incident, IncidentChange
from farmops.model.values import KEEP
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

HOURS = "6:10, 18:30 or 1830"


def edit(record: Incident, context: Context) -> FormSpec:
    """Correct when it began, when it ended, or the note."""
    zone = context.farm.time_zone
    fields = [_hour("began_at", "Began", record.began_at, zone, ("lies ahead", "before it began"))]
    if record.ended_at is not None:
        fields.append(_hour("ended_at", "Ended", record.ended_at, zone, ("it would end",)))

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.incidents import change_incident

        change_incident(store, _change(record, values, zone), **making.hand_of(hand, operation))
        return "The power cut is changed."

    title = f"Power cut of {record.began_at.astimezone(clock.time_zone(zone)):%Y-%m-%d %H:%M}"
    spec = (*fields, making.note(record.note))
    return FormSpec(title, spec, save, context.setting, edits=True, verb="Change")


def _hour(name: str, label: str, at: datetime, zone: str, blamed: tuple[str, ...]) -> Field:
    return Field(
        name,
        label,
        Kind.TEXT,
        clock.hour_of(at, zone),
        required=True,
        hint=HOURS,
        read=_minute,
        told=_told,
        blamed=blamed,
    )


def _minute(text: str, setting: Setting) -> str:
    return clock.show_minute(clock.parse_minute(text))


def _told(hour: str, setting: Setting) -> str:
    return hour


def _change(record: Incident, values: dict[str, Any], zone: str) -> IncidentChange:
    """The hours on their days: the end is the first such hour after the beginning."""
    changed = dict(values)
    began = values["began_at"]
    if began is not KEEP:
        changed["began_at"] = clock.same_day(began, record.began_at, zone)
    if values.get("ended_at", KEEP) is not KEEP:
        start = record.began_at if began is KEEP else changed["began_at"]
        changed["ended_at"] = clock.next_time(values["ended_at"], start, zone)
    return IncidentChange(record.id, **changed)
