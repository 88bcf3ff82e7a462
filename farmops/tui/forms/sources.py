"""Forms for water sources, what they are like, and top-ups from them."""

from __future__ import annotations

from functools import partial
from typing import Any

from farmops.model.readings import NewReading
from farmops.model.values import Keep
from farmops.model.water import (
    NewSource,
    NewSourceValues,
    NewTopUp,
    SourceChange,
    SourceKind,
    TopUp,
    TopUpChange,
    WaterSource,
)
from farmops.quantities.readings import typed_reading
from farmops.reports.store import Store
from farmops.reports.top_ups import cautions, chlorine_of
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

LIKE = ("pH", "alkalinity", "hardness", "chlorine", "nitrate")


def new(context: Context) -> FormSpec:
    """Name a source."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sources import add_source

        entry = NewSource(**making.mapped(values, kind=SourceKind))
        return f"{add_source(store, entry, **making.hand_of(hand, operation)).name} named."

    return FormSpec("A water source", _fields("", SourceKind.RAIN, None), save, context.setting)


def edit(record: WaterSource, context: Context) -> FormSpec:
    """Correct a source."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sources import change_source

        entry = SourceChange(record.id, **making.mapped(values, kind=SourceKind))
        return f"{change_source(store, entry, **making.hand_of(hand, operation)).name} changed."

    fields = _fields(record.name, record.kind, record.note)
    return FormSpec(record.name, fields, save, context.setting, edits=True, verb="Change")


def _fields(name: str, kind: SourceKind, note: str | None) -> tuple[Field, ...]:
    return (
        Field("name", "Name", Kind.TEXT, name, required=True, hint="Mains, rain butt", blamed=("there is a source",)),
        Field("kind", "Kind", Kind.NAME, kind.value, making.words_of(SourceKind), required=True, strict=True),
        making.note(note),
    )


def values(record: WaterSource, context: Context) -> FormSpec:
    """Say what the water of a source is like from a day on."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sources import set_source_values

        day = values.pop("from_day")
        read = tuple(one for one in values.values() if one is not None)
        done = set_source_values(store, NewSourceValues(record.id, day, read), **making.hand_of(hand, operation))
        return f"{record.name} from {day}: {', '.join(f'{one.measure} {one.typed}' for one in done.values)}."

    fields = (
        making.day("from_day", "From"),
        *(Field(one, one, Kind.TEXT, read=partial(_read, measure=one), blamed=(one,)) for one in LIKE),
    )
    about = "From this day on; it stands beside the readings. Leave empty what is not known."
    return FormSpec(f"What {record.name} is like", fields, save, context.setting, about=about, start=LIKE[0])


def _read(text: str, setting: Setting, *, measure: str) -> NewReading:
    return typed_reading(measure, text, setting.measures, sure=setting.is_sure(measure, text))


def new_top_up(context: Context) -> FormSpec:
    """Book water that is put into a unit."""
    return _new_top_up(context, context.unit_code, context.sources[0].name if len(context.sources) == 1 else "")


def like_top_up(record: TopUp, context: Context) -> FormSpec:
    """The same again, with the volume left to say."""
    return _new_top_up(context, record.unit, record.source or "")


def _new_top_up(context: Context, unit: str, source: str) -> FormSpec:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sources import record_top_up

        place, named = context.unit_called(values.pop("unit")), values.pop("source")
        entry = NewTopUp(place.id, **values, source_id=_id(named, context))
        done = record_top_up(store, entry, **making.hand_of(hand, operation))
        return f"{done.volume_typed} into {done.unit} booked."

    fields = (
        making.unit(context, unit),
        Field("volume", "Volume", Kind.VOLUME, required=True, blamed=("a top-up is",)),
        _source(source, context),
        making.day("day", "Day"),
        making.note(),
    )
    return FormSpec("Topped up", fields, save, context.setting, start="volume" if unit else "unit")


def edit_top_up(record: TopUp, context: Context) -> FormSpec:
    """Correct a top-up."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sources import change_top_up

        named = values.pop("source")
        values["source_id"] = named if isinstance(named, Keep) else _id(named, context)
        done = change_top_up(store, TopUpChange(record.id, **values), **making.hand_of(hand, operation))
        return f"Top-up of {done.unit} changed."

    volume = making.typed_volume(record.volume_ml, record.volume_typed, context.farm.measures)
    fields = (
        Field("volume", "Volume", Kind.VOLUME, volume, required=True, blamed=("a top-up is",)),
        _source(record.source or "", context),
        making.day("day", "Day", record.day),
        making.note(record.note),
    )
    return FormSpec(f"Topped up in {record.unit}", fields, save, context.setting, edits=True, verb="Change")


def _source(value: str, context: Context) -> Field:
    return Field(
        "source",
        "From",
        Kind.NAME,
        value,
        tuple(one.name for one in context.sources),
        strict=True,
        hint="a source, or empty",
        heeds=partial(_heeds, context=context),
        follows=("unit",),
        otherwise="A new source is named in Records, Water sources.",
    )


def _heeds(name: str, setting: Setting, *, context: Context) -> str:
    """What to mind before water of this source meets the fish of the unit."""
    code = setting.typed.get("unit", "").strip().upper()
    source = next((one for one in context.sources if one.name == name), None)
    fish = any(lot.unit == code and lot.closed_day is None for lot in context.lots)
    if source is None:
        return ""
    chlorine = chlorine_of(context.source_values, source.id, setting.today)
    found = cautions(source.kind, fish=fish, volume_ml=0, tank_ml=None, chlorine_mg_per_l=chlorine)
    return found[0] if found else ""


def _id(name: str | None, context: Context) -> int | None:
    return next((one.id for one in context.sources if one.name == name), None)
