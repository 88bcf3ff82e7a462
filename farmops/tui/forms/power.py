"""Forms for power: devices, what a meter shows, and what a kilowatt-hour costs."""

from __future__ import annotations

from typing import Any

from farmops.model.power import (
    Device,
    DeviceChange,
    MeterReading,
    NewDevice,
    NewMeterReading,
    NewPowerPrice,
    PowerPrice,
)
from farmops.model.values import Measured
from farmops.quantities.power import (
    A_DAY,
    ENERGY,
    POWER,
    PowerRate,
    parse_power_price,
    power_price_examples,
    show_power_price,
)
from farmops.reports.power_used import PlaceUse
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

CARE = "Power near water kills: work on it is for a licensed electrician, behind a ground-fault device."
ALL = "empty: shared by all"
RUNS = ("for the last time",)
SHOWN = ("runs backwards", "once a day", "a meter shows")


def _device_fields(context: Context, values: dict[str, str]) -> tuple[Field, ...]:
    return (
        Field("name", "Device", Kind.NAME, values.get("name", ""), required=True),
        Field(
            "rated",
            "Rated",
            Kind.TEXT,
            values.get("rated", ""),
            required=True,
            hint="watts on its plate, such as 40",
            read=lambda text, setting: Measured(POWER.parse(text, setting.measures), text.strip()),
            told=lambda rated, setting: POWER.show(rated.exact, setting.measures),
        ),
        Field(
            "minutes_a_day",
            "A day",
            Kind.TEXT,
            values.get("minutes_a_day", "24 h"),
            required=True,
            hint="hours it runs",
            read=lambda text, setting: A_DAY.parse(text, setting.measures, zero_ok=True),
            told=lambda minutes, setting: A_DAY.show(minutes, setting.measures),
        ),
        making.unit(context, values.get("unit"), required=False, hint=ALL, keep=True),
        making.day("from_day", "From", values.get("from_day", "today"), keep=True),
        making.day("until_day", "Until", values.get("until_day", ""), required=False, blamed=RUNS),
        making.note(values.get("note", "")),
    )


def new(context: Context) -> FormSpec:
    """Something that runs on power."""
    return _new_device(context, "New device", {})


def like(record: Device, context: Context) -> FormSpec:
    """Another device like one, from today on."""
    values = _device_texts(record, context)
    kept = {name: values[name] for name in ("name", "rated", "minutes_a_day", "unit")}
    return _new_device(context, f"New device like {record.name}", kept)


def _new_device(context: Context, title: str, values: dict[str, str]) -> FormSpec:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.power import add_device

        entry = NewDevice(**_with_unit(context, values))
        return f"{_told(add_device(store, entry, **making.hand_of(hand, operation)), context)} entered."

    return FormSpec(title, _device_fields(context, values), save, context.setting, about=CARE, again=True)


def edit(record: Device, context: Context) -> FormSpec:
    """Correct a device, or say when it runs for the last time."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.power import change_device

        entry = DeviceChange(record.id, **_with_unit(context, values))
        return f"{_told(change_device(store, entry, **making.hand_of(hand, operation)), context)} changed."

    fields = _device_fields(context, _device_texts(record, context))
    title = f"Device {record.id}: {record.name}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def _device_texts(record: Device, context: Context) -> dict[str, str]:
    measures = context.farm.measures
    return {
        "name": record.name,
        "rated": making.typed(POWER, record.rated_mw, record.rated_typed, measures),
        "minutes_a_day": A_DAY.show_exact(record.minutes_a_day, measures),
        "unit": record.unit or "",
        "from_day": str(record.from_day),
        "until_day": str(record.until_day or ""),
        "note": record.note or "",
    }


def _with_unit(context: Context, values: dict[str, Any]) -> dict[str, Any]:
    known = making.mapped(values, unit=lambda code: context.unit_called(code).id)
    known["unit_id"] = known.pop("unit")
    return known


def _told(one: Device, context: Context) -> str:
    return f"{one.name}, {POWER.show(one.rated_mw, context.farm.measures)}, for {one.unit or 'all'},"


def _shown(value: str = "") -> Field:
    return Field(
        "shown",
        "Shows",
        Kind.TEXT,
        value,
        required=True,
        hint="kilowatt-hours, such as 1234.5",
        read=lambda text, setting: Measured(ENERGY.parse(text, setting.measures, zero_ok=True), text.strip()),
        told=lambda shown, setting: ENERGY.show(shown.exact, setting.measures),
        blamed=SHOWN,
    )


def new_reading(context: Context) -> FormSpec:
    """What a meter shows."""
    return _new_reading(context, "Meter of power", None)


def like_reading(record: MeterReading, context: Context) -> FormSpec:
    """The same meter read again, today."""
    return _new_reading(context, f"Meter of power of {record.unit or 'the farm'}", record.unit or "")


def of_place(record: PlaceUse, context: Context) -> FormSpec:
    """The meter of a place whose power was looked at, read today."""
    return _new_reading(context, f"Meter of power of {record.unit or 'the farm'}", record.unit or "")


def _new_reading(context: Context, title: str, unit: str | None) -> FormSpec:
    fields = (
        making.unit(context, unit, required=False, hint="empty: the farm's own meter"),
        _shown(),
        making.day("day", "Day"),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return _read(store, NewMeterReading(**_with_unit(context, values)), context, hand, operation)

    return FormSpec(title, fields, save, context.setting)


def edit_reading(record: MeterReading, context: Context) -> FormSpec:
    """Correct what a meter showed on a day."""
    shown = making.typed(ENERGY, record.shown_wh, record.shown_typed, context.farm.measures)

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        entry = NewMeterReading(record.day, unit_id=record.unit_id, **values)
        return _read(store, entry, context, hand, operation)

    title = f"Meter of {record.unit or 'the farm'} on {record.day}"
    return FormSpec(title, (_shown(shown), making.note(record.note)), save, context.setting, verb="Change")


def _read(store: Store, entry: NewMeterReading, context: Context, hand: Hand, operation: str) -> str:
    from farmops.farm.power import read_meter

    one = read_meter(store, entry, **making.hand_of(hand, operation))
    said = ENERGY.show(one.shown_wh, context.farm.measures)
    return f"The meter of {one.unit or 'the farm'} shows {said} on {one.day}."


def _price(context: Context, value: str = "") -> Field:
    def read(text: str, setting: Setting) -> NewPowerPrice:
        rate = parse_power_price(text, setting.measures)
        return NewPowerPrice(setting.today, rate.minor, rate.per_wh, text.strip())

    return Field(
        "price",
        "Price",
        Kind.TEXT,
        value,
        required=True,
        hint=f"such as {power_price_examples(context.farm.measures)[0]}",
        read=read,
        told=lambda price, setting: _price_words(price, setting),
        blamed=("more digits",),
    )


def _price_words(one: NewPowerPrice | PowerPrice, setting: Setting) -> str:
    return show_power_price(PowerRate(one.price_minor, one.per_wh), setting.measures)


def new_price(context: Context) -> FormSpec:
    """What a kilowatt-hour costs from a day on; the days before keep theirs."""
    fields = (_price(context), making.day("from_day", "From"))

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return _set_price(store, values["price"], values["from_day"], context, hand, operation)

    return FormSpec("New price of power", fields, save, context.setting)


def edit_price(record: PowerPrice, context: Context) -> FormSpec:
    """Correct a price of power."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return _set_price(store, values["price"], record.from_day, context, hand, operation)

    title = f"Price of power from {record.from_day}"
    return FormSpec(title, (_price(context, record.typed),), save, context.setting, verb="Change")


def _set_price(store: Store, price: NewPowerPrice, day: Any, context: Context, hand: Hand, operation: str) -> str:
    from farmops.farm.power import set_power_price

    entry = NewPowerPrice(day, price.price_minor, price.per_wh, price.typed)
    booked = set_power_price(store, entry, **making.hand_of(hand, operation))
    return f"Power costs {_price_words(booked, context.setting)} from {booked.from_day}."
