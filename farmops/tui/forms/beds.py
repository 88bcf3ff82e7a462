"""Forms for beds: new, corrected, and their size from a day on."""

from __future__ import annotations

from typing import Any

from farmops.model.beds import Bed, BedChange, BedKind, NewBed, NewBedSize
from farmops.model.plantings import Planting
from farmops.quantities import AREA, LENGTH
from farmops.reports.lists import BedLine
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

NAME_TAKEN = ("already a bed",)
DEPTHS = "12 in or 30 cm"
DOUBTED_DEPTH = ("deep, is that right",)


def new(context: Context) -> FormSpec:
    """A unit gets a bed."""
    return _new(context, "New bed")


def _new(context: Context, title: str, unit: str | None = None, **values: str) -> FormSpec:
    fields = (
        making.unit(context, unit, keep=True),
        making.code("name", "Name", what="name of a bed", blamed=NAME_TAKEN, hint="short, such as N"),
        Field("area", "Planted area", Kind.AREA, values.get("area", ""), keep=True),
        Field("kind", "Filled with", Kind.CHOICE, values.get("kind", "media"), making.words_of(BedKind), keep=True),
        Field("depth", "Depth", Kind.LENGTH, values.get("depth", ""), hint=DEPTHS, keep=True, blamed=DOUBTED_DEPTH),
        making.day("from_day", "From", keep=True),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.beds import add_bed

        given = {**making.mapped(values, kind=BedKind), "unit_id": context.unit_called(values["unit"]).id}
        del given["unit"]
        added = add_bed(store, NewBed(**given, sure=hand.sure), **making.hand_of(hand, operation))
        return f"{added.code} added{_deep(added, context)}."

    return FormSpec(title, fields, save, context.setting)


def like(record: Bed | BedLine, context: Context) -> FormSpec:
    """Another bed built like one."""
    one, measures = _bed(record), context.farm.measures
    size = _last_size(one, context)
    return _new(
        context,
        f"New bed like {one.code}",
        one.unit,
        area=making.typed_area(size.area_mm2, size.area_typed, measures) if size else "",
        kind=one.kind.value,
        depth=making.typed_length(one.depth_um, one.depth_typed, measures),
    )


def edit(record: Bed | BedLine, context: Context) -> FormSpec:
    """Correct a bed; its size has a form of its own, because it holds from a day."""
    one = _bed(record)
    depth = making.typed_length(one.depth_um, one.depth_typed, context.farm.measures)
    fields = (
        making.code("name", "Name", one.name, what="name of a bed", blamed=NAME_TAKEN),
        Field("kind", "Filled with", Kind.CHOICE, one.kind.value, making.words_of(BedKind)),
        Field("depth", "Depth", Kind.LENGTH, depth, hint=DEPTHS, blamed=DOUBTED_DEPTH),
        making.note(one.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.beds import change_bed

        entry = BedChange(one.id, **making.mapped(values, kind=BedKind), sure=hand.sure)
        changed = change_bed(store, entry, **making.hand_of(hand, operation))
        return f"{changed.code} changed{_deep(changed, context)}."

    return FormSpec(f"Bed {one.code}", fields, save, context.setting, edits=True, verb="Change")


def size(record: Bed | BedLine | Planting | None, context: Context) -> FormSpec:
    """A bed, or the one that a planting stands in, is so large from a day on; the days before keep theirs."""
    one = context.bed_called(record.bed) if isinstance(record, Planting) else _bed(record) if record else None
    here = [line.bed.code for line in context.beds if context.unit_code in ("", line.bed.unit)]
    first = one.code if one else here[0] if len(here) == 1 else ""
    fields = (
        making.bed(context, first),
        Field("area", "Planted area", Kind.AREA, required=True, blamed=("which would have",)),
        making.day("from_day", "From"),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.beds import size_bed

        bed = context.bed_called(values["bed"])
        entry = NewBedSize(bed.id, values["from_day"], values["area"], hand.sure)
        booked = size_bed(store, entry, **making.hand_of(hand, operation))
        return f"{bed.code} has {AREA.show(booked.area_mm2, context.farm.measures)} from {booked.from_day}."

    last = _last_size(one, context) if one else None
    about = f"{AREA.show(last.area_mm2, context.farm.measures)} since {last.from_day}." if last else ""
    return FormSpec(f"Size of {one.code}" if one else "Size of a bed", fields, save, context.setting, about=about)


def _bed(record: Bed | BedLine) -> Bed:
    return record.bed if isinstance(record, BedLine) else record


def _deep(bed: Bed, context: Context) -> str:
    return f", {LENGTH.show(bed.depth_um, context.farm.measures)} deep" if bed.depth_um else ""


def _last_size(bed: Bed, context: Context) -> Any:
    sizes = next((line.sizes for line in context.beds if line.bed.id == bed.id), ())
    return sizes[-1] if sizes else None
