"""Forms for what happens to a fish lot: weighed, fed, moved, split; and for what was booked of it."""

from __future__ import annotations

from typing import Any

from farmops.model.errors import NotUnderstood, Refused
from farmops.model.fish import Ate, Disposal, FishLot, LossCause
from farmops.model.fish_events import (
    Feeding,
    FeedingChange,
    Loss,
    LossChange,
    NewFeeding,
    NewPlace,
    NewSample,
    NewSplit,
    NewTransfer,
    Sample,
    SampleChange,
    Transfer,
    TransferChange,
)
from farmops.model.text import LONGEST_NOTE, plain
from farmops.model.values import KEEP, Measured
from farmops.quantities import MASS
from farmops.reports.fish_book import words_of
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

DAYS = ("was stocked on", "was closed on")
NUMBER = ("number of fish", "fish would have gone from", "but", "Weigh a sample")
NOT_SAID = "not noted"
BACK = "u takes it back."


def weigh(record: FishLot, context: Context) -> FormSpec:
    """Some fish of a lot are weighed: one by one, or some together."""
    fields = (
        _each("", required=False),
        Field("number", "Together", Kind.COUNT, hint="how many, if weighed together", blamed=NUMBER),
        Field("mass", "All weigh", Kind.MASS, hint="what these weigh together", blamed=("say how many", "not both")),
        making.day("day", "Day", blamed=DAYS),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_events import weigh_sample

        entry = NewSample(record.id, **{**values, "each": values["each"] or ()})
        booked = weigh_sample(store, entry, **making.hand_of(hand, operation))
        return f"{booked.lot}: {words_of(booked, context.farm.measures)}. {BACK}"

    about = "Wet hands, wet net, no feed the day before. One weight per fish tells how sure the mean is."
    return FormSpec(f"Weigh some of {record.code}", fields, save, context.setting, about=about, verb="Book")


def _each(value: str, *, required: bool) -> Field:
    return Field(
        "each",
        "One by one",
        Kind.TEXT,
        value,
        required=required,
        longest=LONGEST_NOTE,
        hint="41 g, 48 g, 55 g",
        read=_weights,
        told=lambda found, setting: f"{len(found)} fish, {_mean(found, setting)} each",
    )


def _weights(text: str, setting: Setting) -> tuple[Measured, ...]:
    parts = [part.strip() for part in text.replace(";", ",").split(",") if part.strip()]
    if not parts:
        raise NotUnderstood(f"{plain(text.strip())!r} is no weight. Understood: 41 g, 48 g, 55 g.")
    return tuple(Measured(MASS.parse(part, setting.measures), part) for part in parts)


def _mean(found: tuple[Measured, ...], setting: Setting) -> str:
    return MASS.show(round(sum(one.exact for one in found) / len(found)), setting.measures)


def fed(record: FishLot, context: Context) -> FormSpec:
    """A lot was fed, and how it ate."""
    feeds = {one.name: one.id for one in context.feeds}
    fields = (
        Field("mass", "Fed", Kind.MASS, required=True),
        _ate(Ate.ALL.value),
        Field("feed", "Of", Kind.NAME, "", tuple(feeds), strict=True, hint="empty: the feed of the last time"),
        making.day("day", "Day", blamed=DAYS),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_events import record_feeding

        feed = values.pop("feed")
        words = {**values, "ate": _ate_of(values["ate"]), "supply_id": feeds[feed] if feed else None}
        booked = record_feeding(
            store, NewFeeding(record.id, **words, sure=hand.sure), **making.hand_of(hand, operation)
        )
        return f"{booked.lot} {words_of(booked, context.farm.measures)}. {BACK}"

    about = "The ration is a ceiling. What is left after half an hour comes out."
    return FormSpec(f"Feed {record.code}", fields, save, context.setting, about=about, verb="Book")


def _ate(value: str) -> Field:
    return Field("ate", "They ate", Kind.CHOICE, value, (*making.words_of(Ate), NOT_SAID))


def _ate_of(value: Any) -> Any:
    return value if value is KEEP else None if value == NOT_SAID else Ate(value)


def move(record: FishLot, context: Context) -> FormSpec:
    """A whole lot goes to another unit, or some of its fish to another lot."""
    homes = [line.unit.code for line in context.units if line.unit.code != record.unit]
    alike = [lot.code for lot in context.lots if lot.species == record.species and lot.id != record.id]
    options = making.unique((*homes, *(code for code in alike if code not in homes)))
    fields = (
        Field("where", "To", Kind.NAME, "", options, required=True, strict=True, hint="a unit, or another lot"),
        Field("number", "How many", Kind.COUNT, hint="to a lot; empty: all, to a unit", blamed=NUMBER),
        Field("mean", "One weighs", Kind.MASS, hint="if weighed"),
        making.day("day", "Day", blamed=(*DAYS, "is retired")),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.transfers import move_lot, transfer

        where, day, done = values["where"], values["day"], making.hand_of(hand, operation)
        if values["number"] is None:
            if where not in homes:
                raise Refused(f"Say how many go to {where}: it is a lot. A whole lot moves to a unit.")
            moved = move_lot(store, NewPlace(record.id, context.unit_called(where).id, day), **done)
            return f"{moved.code} lives in {moved.unit} now. {BACK}"
        if where not in alike:
            raise Refused(f"{where} is a unit: leave the number empty, or split a lot off with s.")
        to = context.lot_called(where).id
        entry = NewTransfer(record.id, to, day, values["number"], values["mean"], values["note"])
        return f"{transfer(store, entry, **done).number} of {record.code} moved to {where}. {BACK}"

    about = "Between waters only as state and local fish law allows; never release them."
    return FormSpec(f"Move {record.code}", fields, save, context.setting, about=about, verb="Move")


def split(record: FishLot, context: Context) -> FormSpec:
    """Some fish of a lot become a lot of their own."""
    taken = ("already a fish lot",)
    fields = (
        Field("number", "How many", Kind.COUNT, required=True, blamed=NUMBER),
        making.code("code", "New lot", what="code of a fish lot", blamed=taken, hint=f"such as {record.code}-S"),
        making.unit(context, record.unit, blamed=("is retired",)),
        Field("mean", "One weighs", Kind.MASS, hint="empty: as last weighed"),
        making.day("day", "Day", blamed=DAYS),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.transfers import split as split_lot

        entry = NewSplit(record.id, context.unit_called(values.pop("unit")).id, **values)
        made = split_lot(store, entry, **making.hand_of(hand, operation))
        return f"{entry.number} of {record.code} are {made.code} in {made.unit} now. {BACK}"

    about = "Graded out, or kept apart in a holding unit. Hands and nets clean between the two, the sick last."
    return FormSpec(f"Split {record.code}", fields, save, context.setting, about=about, verb="Split")


def sample(record: Sample, context: Context) -> FormSpec:
    """Correct a sample weighing."""
    measures = context.farm.measures
    if record.each_mg:
        weights: tuple[Field, ...] = (_each(record.mass_typed, required=True),)
    else:
        mass = making.typed_mass(record.mass_mg, record.mass_typed, measures)
        weights = (
            Field("number", "Fish", Kind.COUNT, str(record.number), required=True, blamed=NUMBER),
            Field("mass", "All weigh", Kind.MASS, mass, required=True),
        )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_corrections import change_sample

        change_sample(store, SampleChange(record.id, **values), **making.hand_of(hand, operation))
        return f"Weighing of {record.lot} changed."

    return _correction(f"Weighing of {record.lot}", (*weights, *_noted(record)), save, context)


def loss(record: Loss, context: Context) -> FormSpec:
    """Correct a loss."""
    mass = making.typed_mass(record.mass_mg, record.mass_typed, context.farm.measures)
    fields = (
        Field("number", "How many", Kind.COUNT, str(record.number), required=True, blamed=NUMBER),
        Field("cause", "Cause", Kind.NAME, record.cause, making.words_of(LossCause), required=True, strict=True),
        Field("disposal", "Disposal", Kind.NAME, record.disposal or "", making.words_of(Disposal), strict=True),
        Field("mass", "Together", Kind.MASS, mass, hint="if weighed"),
        *_noted(record),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_corrections import change_loss

        words = making.mapped(values, cause=LossCause, disposal=Disposal)
        change_loss(store, LossChange(record.id, **words), **making.hand_of(hand, operation))
        return f"Loss of {record.lot} changed."

    return _correction(f"Loss of {record.lot}", fields, save, context)


def transfer(record: Transfer, context: Context) -> FormSpec:
    """Correct a transfer."""
    mean = making.typed_mass(record.mean_mg, record.mean_typed, context.farm.measures)
    fields = (
        Field("number", "How many", Kind.COUNT, str(record.number), required=True, blamed=NUMBER),
        Field("mean", "One weighed", Kind.MASS, mean, hint="if weighed"),
        *_noted(record),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_corrections import change_transfer

        change_transfer(store, TransferChange(record.id, **values), **making.hand_of(hand, operation))
        return f"Transfer from {record.from_lot} to {record.to_lot} changed."

    return _correction(f"From {record.from_lot} to {record.to_lot}", fields, save, context)


def feeding(record: Feeding, context: Context) -> FormSpec:
    """Correct a feeding, or say how they ate."""
    mass = making.typed_mass(record.mass_mg, record.mass_typed, context.farm.measures)
    fields = (
        Field("mass", "Fed", Kind.MASS, mass, required=True),
        _ate(record.ate or NOT_SAID),
        *_noted(record),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_corrections import change_feeding

        words = {**values, "ate": _ate_of(values["ate"])}
        change_feeding(store, FeedingChange(record.id, **words), **making.hand_of(hand, operation))
        return f"Feeding of {record.lot} changed."

    return _correction(f"Feeding of {record.lot}", fields, save, context)


def _noted(record: Sample | Loss | Transfer | Feeding) -> tuple[Field, ...]:
    return making.day("day", "Day", record.day, blamed=DAYS), making.note(record.note)


def _correction(title: str, fields: tuple[Field, ...], save: Any, context: Context) -> FormSpec:
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")
