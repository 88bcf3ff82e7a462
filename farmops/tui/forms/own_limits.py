"""Forms for limits of the grower's own."""

from __future__ import annotations

from functools import partial
from typing import Any

from farmops.model.limits import NewOwnLimit, OwnLimit
from farmops.model.readings import TEMPERATURES, Form, Measure
from farmops.model.values import Keep
from farmops.quantities.readings import parse_reading, show_value
from farmops.reports.store import Store
from farmops.science.judging import as_nitrogen
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

LIMITED = tuple(one.value for one in Measure if one not in TEMPERATURES[1:])


def new(context: Context) -> FormSpec:
    """Set limits of a measure from a day on."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        unit = values.pop("unit")
        values["measure"] = Measure(values["measure"])
        entry = NewOwnLimit(**values, unit_id=context.unit_called(unit).id if unit else None)
        return _set(store, entry, hand, operation)

    fields = (
        Field("measure", "Of", Kind.NAME, "", LIMITED, required=True, strict=True, nearest=True),
        *_sides("", "", None),
        making.unit(context, required=False, hint="empty: all units"),
        making.day("from_day", "From"),
        making.note(),
    )
    about = "Held beside what fish, filter and plants bear; the stricter counts."
    return FormSpec("A limit of your own", fields, save, context.setting, about=about)


def edit(record: OwnLimit, context: Context) -> FormSpec:
    """Set the same limits of the same day anew."""
    measures = context.farm.measures

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        held: dict[str, Any] = {"low": record.low, "high": record.high, "note": record.note}
        new = {name: held[name] if isinstance(values[name], Keep) else values[name] for name in held}
        entry = NewOwnLimit(record.from_day, record.measure, unit_id=record.unit_id, **new)
        return _set(store, entry, hand, operation)

    low, high = (
        "" if value is None else show_value(value, record.measure, measures).replace("°", "")
        for value in (record.low, record.high)
    )
    fields = (*_sides(low, high, record.measure), making.note(record.note))
    title = f"{record.measure} from {record.from_day}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def _sides(low: str, high: str, measure: Measure | None) -> tuple[Field, ...]:
    return tuple(
        Field(
            name,
            label,
            Kind.TEXT,
            value,
            read=partial(_value, measure=measure),
            told=partial(_told, measure=measure),
            follows=() if measure else ("measure",),
            blamed=(blame,),
        )
        for name, label, value, blame in (
            ("low", "At least", low, "leave no room"),
            ("high", "At most", high, "say how"),
        )
    )


def _value(text: str, setting: Setting, *, measure: Measure | None) -> float:
    what = measure or _named(setting)
    read = parse_reading(text, what, setting.measures)
    return as_nitrogen(what, read.value, read.form or Form.AS_N)


def _told(value: float, setting: Setting, *, measure: Measure | None) -> str:
    return show_value(value, measure or _named(setting), setting.measures)


def _named(setting: Setting) -> Measure:
    word = setting.typed.get("measure", "")
    return next((one for one in Measure if one.value == word), Measure.PH)


def _set(store: Store, entry: NewOwnLimit, hand: Hand, operation: str) -> str:
    from farmops.farm.own_limits import set_own_limit

    one = set_own_limit(store, entry, **making.hand_of(hand, operation))
    return f"Limit of {one.measure} set from {one.from_day} for {one.unit or 'all units'}."
