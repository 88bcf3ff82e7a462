"""Forms for treatments: what was done against a pest or a disease, and what its label says."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops import clock
from farmops.model.errors import Refused
from farmops.model.treatments import NewTreatment, Treatment, TreatmentChange
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

ABOUT = "The label is the law, and local rules come first. Most of what kills insects kills fish, too."
NO_DAYS = "0 if the label names none"


def new(context: Context) -> FormSpec:
    """Book a treatment of a unit, a bed or a fish lot."""
    return _new(context, "A treatment", context.unit_code)


def of_bed(record: Any, context: Context) -> FormSpec:
    """Book a treatment of the bed that a planting stands in, or of a free bed."""
    code = getattr(record, "bed", None) or record.code
    return _new(context, f"A treatment of {code}", code)


def like(record: Treatment, context: Context) -> FormSpec:
    """The same again, today."""
    return _new(context, f"A treatment like number {record.id}", record.where, record)


def _new(context: Context, title: str, where: str, past: Treatment | None = None) -> FormSpec:
    places = _places(context)
    fields = (
        Field("where", "Where", Kind.NAME, where, tuple(places), required=True, strict=True, hint="unit, bed or lot"),
        *_label_fields(past),
        making.day("day", "Day"),
        _hour("", hint="18:30; empty: now", blamed=("at what time",)),
        Field("actor", "Who", Kind.NAME, "", tuple(one.name for one in context.people), hint="empty: you"),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.treatments import book_treatment

        values |= dict([places[values.pop("where")]])
        if values["minute"] is None:
            values["minute"] = _now(context, values["day"])
        entry = NewTreatment(**values, sure=hand.sure)
        booked = book_treatment(store, entry, **making.hand_of(hand, operation))
        given = f" Chores: {'; '.join(booked.given)}." if booked.given else ""
        return f"Booked: {booked.treatment.product} on {booked.treatment.where}.{given}"

    return FormSpec(title, fields, save, context.setting, about=ABOUT)


def _places(context: Context) -> dict[str, tuple[str, int]]:
    return {
        **{line.unit.code: ("unit_id", line.unit.id) for line in context.units},
        **{line.bed.code: ("bed_id", line.bed.id) for line in context.beds},
        **{lot.code: ("fish_lot_id", lot.id) for lot in context.lots if lot.closed_day is None},
    }


def _now(context: Context, day: date) -> int:
    if day != context.today:
        raise Refused("Say at what time of day it was done, since people may go in again by it: 18:30.")
    local = context.farm.now().astimezone(clock.time_zone(context.farm.time_zone))
    return local.hour * 60 + local.minute


def edit(record: Treatment, context: Context) -> FormSpec:
    """Correct a treatment."""
    fields = (
        *_label_fields(record),
        making.day("day", "Day", record.day),
        _hour(clock.hour_of(record.at, context.farm.time_zone), required=True),
        Field("actor", "Who", Kind.NAME, record.actor, tuple(one.name for one in context.people), required=True),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.treatments import change_treatment

        entry = TreatmentChange(record.id, **values, sure=hand.sure)
        changed = change_treatment(store, entry, **making.hand_of(hand, operation))
        return f"Treatment {changed.treatment.id} changed."

    title = f"Treatment {record.id}, {record.where}"
    return FormSpec(title, fields, save, context.setting, about=ABOUT, edits=True, verb="Change")


def _label_fields(past: Treatment | None) -> tuple[Field, ...]:
    """What was used and what its label says."""
    return (
        Field("product", "Product", Kind.TEXT, past.product if past else "", required=True, blamed=("Fish live in",)),
        Field("amount_typed", "Amount", Kind.TEXT, past.amount_typed if past else "", required=True, hint="1 L, 2 g"),
        _count(
            "reentry_hours",
            "Re-entry",
            past.reentry_hours if past else None,
            "hours until people may go in",
            required=True,
        ),
        _count(
            "harvest_days",
            "Harvest",
            past.harvest_days if past else None,
            f"days until harvest, {NO_DAYS}",
            required=True,
        ),
        _count("fish_days", "Fish", past.fish_days if past else None, f"days until fish are taken, {NO_DAYS}"),
        *(
            Field(name, label, Kind.TEXT, getattr(past, name, None) or "", hint=hint)
            for name, label, hint in (
                ("active", "Active", "the active ingredient"),
                ("registration", "Registered", "the number on the label"),
                ("against", "Against", "the pest or the disease"),
            )
        ),
    )


def _count(name: str, label: str, value: int | None, hint: str, *, required: bool = False) -> Field:
    text = "" if value is None else str(value)
    blamed = (hint.split(",")[0],)
    return Field(name, label, Kind.COUNT, text, required=required, zero_ok=True, hint=hint, blamed=blamed)


def _hour(value: str, **more: Any) -> Field:
    return Field("minute", "Time", Kind.TEXT, value, read=_minute, told=_minute_words, **more)


def _minute(text: str, setting: Setting) -> int:
    return clock.parse_minute(text)


def _minute_words(minute: int, setting: Setting) -> str:
    return clock.show_minute(minute)
