"""Forms for the weather to come: what is forecast for a day."""

from __future__ import annotations

from typing import Any

from farmops.model.forecasts import Degrees, Forecast, NewForecast
from farmops.quantities import TEMPERATURE
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand


def read_degrees(text: str, setting: Setting) -> Degrees:
    """A temperature in the farm's scale unless it names another. Raises NotUnderstood or OutOfRange."""
    return Degrees(TEMPERATURE.parse(text, setting.measures), text.strip())


def degrees_told(degrees: Degrees, setting: Setting) -> str:
    """The temperature with its scale."""
    return TEMPERATURE.show(degrees.c, setting.measures)


def new(context: Context) -> FormSpec:
    """What is forecast for a day, in place of what was said before; what is left empty stays."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        named = {name: value for name, value in values.items() if value is not None}
        return _booked(store, NewForecast(**named), hand, operation, context)

    fields = (making.day("day", "Day", "tomorrow"), *_fields(None))
    return FormSpec("Forecast", fields, save, context.setting)


def edit(record: Forecast, context: Context) -> FormSpec:
    """Another forecast for the day."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return _booked(store, NewForecast(record.day, **values), hand, operation, context)

    title = f"Forecast for {record.day:%a} {record.day}"
    return FormSpec(title, _fields(record), save, context.setting, edits=True, verb="Change")


def _fields(record: Forecast | None) -> tuple[Field, ...]:
    def degrees(name: str, label: str, value: str | None, blamed: str) -> Field:
        return Field(
            name,
            label,
            Kind.TEXT,
            value or "",
            hint="28, or -2 C",
            read=read_degrees,
            told=degrees_told,
            blamed=(blamed,),
        )

    return (
        degrees("low", "Low", record.low_typed if record else None, "names the low"),
        degrees("high", "High", record.high_typed if record else None, "above the high"),
        making.note(record.note if record else None),
    )


def _booked(store: Store, entry: NewForecast, hand: Hand, operation: str, context: Context) -> str:
    from farmops.farm.forecasts import set_forecast

    told = set_forecast(store, entry, **making.hand_of(hand, operation))
    measures = context.setting.measures
    said = [
        f"{name} {TEMPERATURE.show(degrees, measures)}"
        for name, degrees in (("low", told.low_c), ("high", told.high_c))
        if degrees is not None
    ]
    return f"{told.day:%a} {told.day}: {', '.join(said)}."
