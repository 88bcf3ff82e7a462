"""The form that corrects a weighing."""

from __future__ import annotations

from typing import Any

from farmops.model.harvests import Harvest, HarvestChange, Use
from farmops.model.values import KEEP, Measured
from farmops.quantities import MASS, Measures, weigh
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

DAYS = ("started on", "was cleared on", "was stocked on", "was closed on", "in no unit on")


def origins(context: Context) -> dict[str, tuple[int | None, int | None]]:
    """What a weighing can come from, in words: the planting and the fish lot it stands for, newest first."""
    plantings = sorted(context.plantings, key=lambda one: one.started_day, reverse=True)
    grown: dict[str, tuple[int | None, int | None]] = {
        f"{one.bed} {one.crop} since {one.started_day}": (one.id, None) for one in plantings
    }
    return grown | {f"{lot.unit} {lot.code}": (None, lot.id) for lot in context.lots}


def edit(record: Harvest, context: Context) -> FormSpec:
    """Correct a weighing."""
    measures, known = context.farm.measures, origins(context)
    came_from = (record.planting_id, record.fish_lot_id)
    source = next((words for words, ids in known.items() if ids == came_from), "")
    gross = making.typed_mass(record.mass_mg + record.tare_mg, record.mass_typed, measures)
    tare = making.typed_mass(record.tare_mg or None, record.tare_typed, measures)
    fields = (
        Field("mass", "On the scale", Kind.MASS, gross, required=True, blamed=("one weighing is",)),
        Field("tare", "Empty bowl", Kind.MASS, tare, zero_ok=True, blamed=("as tare",)),
        Field("use", "For", Kind.CHOICE, record.use.value, making.words_of(Use)),
        Field("source", "From", Kind.NAME, source, tuple(known), required=True, strict=True),
        making.day("day", "Day", record.day, blamed=DAYS),
        Field("number", "Pieces", Kind.COUNT, str(record.number or ""), blamed=("no count", "more than the")),
        *_dressed(record, measures),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.harvests import change_harvest

        entry = HarvestChange(record.id, **changed(values, gross, tare, known, measures))
        booked = change_harvest(store, entry, **making.hand_of(hand, operation))
        return f"{MASS.show(booked.mass_mg, measures)} {booked.what} from {booked.bed or booked.unit}, {booked.use}."

    title = f"Weighing {record.id}: {record.what} from {record.bed or record.unit}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def _dressed(record: Harvest, measures: Measures) -> tuple[Field, ...]:
    """What fish weighed gutted; produce has no such weight."""
    if record.fish_lot_id is None:
        return ()
    dressed = making.typed_mass(record.dressed_mg, record.dressed_typed, measures)
    return (Field("dressed", "Dressed", Kind.MASS, dressed, hint="gutted, if weighed", blamed=("dressed",)),)


def changed(
    values: dict[str, Any],
    gross: str,
    tare: str,
    known: dict[str, tuple[int | None, int | None]],
    measures: Measures,
) -> dict[str, Any]:
    """The fields of the change; scale and bowl are weighed together. Raises NotUnderstood for too heavy a bowl."""
    names = ("day", "use", "number", "note", "dressed")
    given = making.mapped({name: values[name] for name in names if name in values}, use=Use)
    if values["source"] is not KEEP:
        given["planting_id"], given["fish_lot_id"] = known[values["source"]]
    if values["mass"] is not KEEP or values["tare"] is not KEEP:
        scale, bowl = _text(values["mass"], gross), _text(values["tare"], tare)
        weighed = weigh(scale, bowl, measures)
        given["mass"] = Measured(weighed.net_mg, scale)
        given["tare"] = Measured(weighed.tare_mg, bowl) if weighed.tare_mg else None
    return given


def _text(value: Any, before: str) -> str:
    if value is None:
        return ""
    return before if value is KEEP else str(value.typed)
