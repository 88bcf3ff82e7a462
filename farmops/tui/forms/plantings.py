"""Forms for plantings: into a bed, corrected, and cleared out of it."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import replace
from functools import partial
from typing import Any

from farmops.model.errors import Unlikely
from farmops.model.nearness import near_names
from farmops.model.plantings import NewCrop, NewPlanting, Planting, PlantingChange, StartedBy
from farmops.model.text import name_of
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

STARTED = ("before it started", "before 20", "before 19")
CLEARED = ("it would be cleared", "after 20", "after 19")
WHOLE_BED = "the whole bed"
DOUBTED_AREA = ("The whole bed", "would stand in")


def new(context: Context) -> FormSpec:
    """A crop goes into a bed."""
    here = [line.bed.code for line in context.beds if context.unit_code in ("", line.bed.unit)]
    return _new(context, "New planting", {"bed": here[0] if len(here) == 1 else ""}, again=True)


def like(record: Planting, context: Context) -> FormSpec:
    """Plant the same again, today: the number of plants is asked for, then booked."""
    area = making.typed_area(record.area_mm2, record.area_typed, context.farm.measures)
    values = {
        "bed": record.bed,
        "crop": record.crop,
        "variety": record.variety or "",
        "started_by": record.started_by.value,
        "plants": str(record.plants or ""),
        "area": area,
    }
    spec = _new(context, f"New planting like {record.crop} in {record.bed}", values)
    number_last = tuple(sorted(spec.fields, key=lambda field: field.name == "plants"))
    return replace(spec, fields=number_last, start="plants")


def _new(context: Context, title: str, values: dict[str, str], *, again: bool = False) -> FormSpec:
    fields = (
        making.bed(context, values.get("bed", ""), keep=True),
        _crop(context, values.get("crop", "")),
        making.day("started_day", "Since", keep=True),
        *_rest(context, values),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.plantings import plant

        bed, crop = context.bed_called(values.pop("bed")), _planted(values.pop("crop"), context)
        entry = NewPlanting(bed.id, crop, **making.mapped(values, started_by=StartedBy), sure=hand.sure)
        planted = plant(store, entry, **making.hand_of(hand, operation))
        return f"{planted.crop} in {planted.bed} since {planted.started_day}."

    return FormSpec(title, fields, save, context.setting, again=again)


def _crop(context: Context, value: str) -> Field:
    """Any crop: one that is grown here, one with packaged facts, or one of another name, which is asked about once."""
    grown = tuple(crop.name for crop in context.crops)
    packaged = tuple(name.upper() for name in context.crop_facts if name.upper() not in grown)
    return Field(
        "crop",
        "Crop",
        Kind.NAME,
        value,
        (*grown, *packaged),
        required=True,
        hint="" if grown else "any crop, such as CHARD",
        read=partial(_named, known={*grown, *packaged}),
        told=lambda name, setting: _standing(name, set(grown), set(packaged)),
        blamed=("name of a crop",),
    )


def _named(text: str, setting: Setting, *, known: Set[str]) -> str:
    name = name_of(text, "name of a crop").upper()
    if name in known or setting.is_sure("crop", text):
        return name
    near = near_names(name, known)
    meant = f"Did you mean {' or '.join(near)}? " if near else ""
    raise Unlikely(f"{name} is new here, and no packaged facts go with it. {meant}".strip())


def _standing(name: str, grown: Set[str], packaged: Set[str]) -> str:
    if name in grown:
        return name
    return f"{name}, new here, {'with packaged facts' if name in packaged else 'without packaged facts'}"


def _planted(name: str, context: Context) -> int | NewCrop:
    from farmops import library

    grown = next((crop for crop in context.crops if crop.name == name), None)
    if grown is not None:
        return grown.id
    facts = library.crop(name)
    return NewCrop(name, facts.key if facts else None)


def _rest(context: Context, values: dict[str, str]) -> tuple[Field, ...]:
    by = values.get("started_by", StartedBy.TRANSPLANTING.value)
    varieties = making.unique(planting.variety for planting in context.plantings)
    return (
        Field("variety", "Variety", Kind.NAME, values.get("variety", ""), varieties),
        Field("started_by", "By", Kind.CHOICE, by, making.words_of(StartedBy), keep=True),
        Field("plants", "Plants", Kind.COUNT, values.get("plants", ""), blamed=("number of plants",)),
        Field("area", "Area", Kind.AREA, values.get("area", ""), hint=WHOLE_BED, blamed=DOUBTED_AREA),
    )


def edit(record: Planting, context: Context) -> FormSpec:
    """Correct a planting."""
    area = making.typed_area(record.area_mm2, record.area_typed, context.farm.measures)
    values = {
        "variety": record.variety or "",
        "started_by": record.started_by.value,
        "plants": str(record.plants or ""),
        "area": area,
    }
    fields = (
        making.day("started_day", "Since", record.started_day, blamed=STARTED),
        *_rest(context, values),
        making.day("cleared_day", "Cleared", record.cleared_day or "", required=False, blamed=CLEARED),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.plantings import change_planting

        entry = PlantingChange(record.id, **making.mapped(values, started_by=StartedBy), sure=hand.sure)
        changed = change_planting(store, entry, **making.hand_of(hand, operation))
        return f"{changed.crop} in {changed.bed} changed."

    title = f"{record.crop} in {record.bed} since {record.started_day}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def clear(record: Planting, context: Context) -> FormSpec:
    """Clear a planting out of its bed."""
    blamed = (*STARTED, *CLEARED)
    fields = (making.day("cleared_day", "Last day", record.cleared_day or "today", blamed=blamed),)

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.plantings import change_planting

        entry = PlantingChange(record.id, cleared_day=values["cleared_day"])
        cleared = change_planting(store, entry, **making.hand_of(hand, operation))
        return f"{cleared.crop} in {cleared.bed} cleared on {cleared.cleared_day}."

    title = f"Clear {record.crop} out of {record.bed}"
    about = f"It stands since {record.started_day}. The day is the last on which it stood."
    return FormSpec(title, fields, save, context.setting, about=about, verb="Clear")
