"""Forms for readings: a row of them of one unit, and the correction of one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

from farmops import clock
from farmops.model.errors import FarmopsError
from farmops.model.readings import NITROGEN, Form, Measure, NewReadings, Reading, ReadingChange
from farmops.model.values import KEEP, Keep
from farmops.quantities.readings import examples, parse_reading, show_value
from farmops.reports.store import Store
from farmops.reports.water import Taken, Waters, taken
from farmops.science.judging import as_reported
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting, day_words
from farmops.tui.widgets.forms import FormSpec, Hand

UnitOf = Callable[[Setting], int | None]
USUAL = {Measure.PH, Measure.TEMPERATURE, *NITROGEN}
DECIDES_AMMONIA = (Measure.PH, Measure.TEMPERATURE)
NO_READING = "type at least one reading"
USUALLY, NOTHING = "the usual", "nothing named"
TIMES = ("between 00:00 and 23:59",)


def name_of(measure: Measure) -> str:
    """The name of the field that takes a measure."""
    return measure.name.lower()


def reading_field(measure: Measure, waters: Waters, unit_of: UnitOf, *, name: str = "", **more: Any) -> Field:
    """A field for a reading: understood, judged with what is typed beside it, asked about once where it is unlikely."""
    follows = tuple(name_of(one) for one in DECIDES_AMMONIA if measure is Measure.AMMONIA)
    called = name or name_of(measure)
    return Field(
        called,
        measure.value,
        Kind.TEXT,
        read=partial(_read, measure=measure, waters=waters, unit_of=unit_of, name=called),
        told=partial(_told, measure=measure),
        heeds=_heeds,
        follows=(*follows, "unit"),
        **more,
    )


def _read(text: str, setting: Setting, *, measure: Measure, waters: Waters, unit_of: UnitOf, name: str) -> Taken:
    beside = {one: setting.typed.get(name_of(one), "") for one in DECIDES_AMMONIA if one is not measure}
    return taken(text, measure, waters, unit_of(setting), beside, sure=setting.is_sure(name, text))


def _told(found: Taken, setting: Setting, *, measure: Measure) -> str:
    value = show_value(found.value, measure, setting.measures)
    return value if found.judged.bad or not found.judged.brief else f"{value}, {found.judged.brief}"


def _heeds(found: Taken, setting: Setting) -> str:
    return f"{found.judged.brief}. {found.judged.first}" if found.judged.bad else ""


def last_words(measure: Measure, waters: Waters, unit_id: int) -> str:
    """What was read last, and what the kit reports: the hint of a field."""
    form = f"{waters.forms.get(measure, Form.AS_N)}; " if measure in NITROGEN else ""
    water = waters.of(unit_id)
    last = next((one for one in water.latest if one.measure is measure), None) if water else None
    if last is None:
        return f"{form}{' or '.join(examples(measure, waters.farm.measures)[:2])}"
    return f"{form}last {last.typed}, {last.day.day} {last.day:%b}"


def new(context: Context) -> FormSpec:
    """A row of readings of one unit, taken at once."""
    return _new(context, "")


def like(record: Reading, context: Context) -> FormSpec:
    """Readings of the same unit."""
    return _new(context, record.unit)


def _new(context: Context, code: str) -> FormSpec:
    waters, here = context.waters, code or context.unit_code
    measures = _measures(waters, here)
    fields = (
        making.unit(context, here),
        *(reading_field(one, waters, partial(_unit_id, context=context)) for one in measures),
        making.day("day", "Day"),
        Field("minute", "Time", Kind.TEXT, hint="of the day, such as 7:30", read=_minute, told=_minute_words),
        instrument_field(context, USUALLY, "what each was read with last"),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.readings import record_readings

        unit = context.unit_called(values["unit"])
        read = [values[name_of(one)].reading for one in Measure if values.get(name_of(one)) is not None]
        held = instrument_called(values["instrument"], context)
        noted = tuple(replace(one, note=values["note"], instrument_id=held) for one in read)
        entry = NewReadings(unit.id, values["day"], noted, values["minute"])
        booked = record_readings(store, entry, **making.hand_of(hand, operation)).readings
        return f"Booked: {unit.code} {', '.join(f'{one.measure} {one.typed}' for one in booked)}. u takes it back."

    about = "One line a reading; leave empty what was not read. Kits: 0.25, <0.25, or 0.5 ion for NH4, NO2, NO3."
    title, start = f"Readings of {here}" if here else "Readings", name_of(measures[0])
    return FormSpec(title, fields, save, context.setting, about=about, start=start)


def instrument_field(context: Context, value: str, hint: str = "") -> Field:
    """A field for what was read with."""
    names = tuple(one.name for one in context.instruments if one.serves(context.today))
    return Field(
        "instrument",
        "Read with",
        Kind.NAME,
        value,
        (USUALLY, NOTHING, *names),
        strict=True,
        hint=hint,
        blamed=("does not read", "was not in service"),
        otherwise="A new instrument is taken into service in Records.",
    )


def instrument_called(name: str | Keep | None, context: Context) -> int | Keep | None:
    """The instrument that was named; KEEP where it is to be the usual one."""
    if name is None or isinstance(name, Keep) or name == USUALLY:
        return KEEP
    return next((one.id for one in context.instruments if one.name == name), None)


def _measures(waters: Waters, code: str) -> list[Measure]:
    """All measures, those first that every kit has or that were read in this unit, or anywhere, before."""
    read = {one.measure for water in waters.units if code in ("", water.unit.code) for one in water.latest}
    return sorted(Measure, key=lambda one: one not in read | USUAL)


def _unit_id(setting: Setting, *, context: Context) -> int | None:
    code = setting.typed.get("unit", "").strip().upper()
    return next((line.unit.id for line in context.units if line.unit.code == code), None)


def _minute(text: str, setting: Setting) -> int:
    return clock.parse_minute(text)


def _minute_words(minute: int, setting: Setting) -> str:
    return clock.show_minute(minute)


def edit(record: Reading, context: Context) -> FormSpec:
    """Correct one reading."""
    again = typed_again(record, context)
    field = reading_field(record.measure, context.waters, lambda _: None, name="read", value=again, required=True)
    fields = (
        field,
        making.day("day", "Day", record.day),
        Field(
            "minute",
            "Time",
            Kind.TEXT,
            "" if record.minute is None else clock.show_minute(record.minute),
            hint="of the day, such as 7:30",
            read=_minute,
            told=_minute_words,
        ),
        instrument_field(context, record.instrument or NOTHING),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.readings import change_reading

        read = values["read"]
        values["read"] = read if read is KEEP else read.reading
        values["instrument_id"] = instrument_called(values.pop("instrument"), context)
        changed = change_reading(store, ReadingChange(record.id, **values), **making.hand_of(hand, operation))
        return f"{changed.unit} {changed.measure} of {day_words(changed.day)} changed."

    title = f"{record.unit} {record.measure}, {day_words(record.day)}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def typed_again(record: Reading, context: Context) -> str:
    """What was typed with the form it was in, if it still means the same; else the value as the farm writes it."""
    measures, form = context.farm.measures, record.form
    text = record.typed
    try:
        read = parse_reading(text, record.measure, measures)
        if form is not None and read.form is None:
            text = f"{text} {'ion' if form is Form.AS_ION else 'N'}"
        if abs(read.value - as_reported(record.measure, record.value, form)) < 1e-9 * max(1.0, record.value):
            return text
    except FarmopsError:
        pass
    return show_value(record.value, record.measure, measures).replace("°", "")
