"""Forms for fish lots: stocked, corrected, and closed when none are left."""

from __future__ import annotations

from typing import Any

from farmops.model.errors import Refused
from farmops.model.fish import Disposal, FishLot, FishLotChange, LossCause, NewFishLot
from farmops.model.fish_events import NewLoss
from farmops.model.text import name_of
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

LAW = "Check state and local fish law and permits before buying or moving fish. Never release them."
NO_FACTS = " No packaged facts: no ration, no limits of its own. What it bears is set in Water, own limits."
CODE_TAKEN = ("already a fish lot",)
UNKNOWN = ("no packaged facts go with",)
NUMBER = ("number of fish", "fish would have gone from")
STOCKED = ("before stocking", "there are weighings from")
RETIRED = ("is retired",)


def new(context: Context) -> FormSpec:
    """Fish go into a unit."""
    return _new(context, "Stock fish", None, "")


def like(record: FishLot, context: Context) -> FormSpec:
    """More fish of the same species go into the same unit."""
    return _new(context, f"Stock fish like {record.code}", record.unit, record.species)


def _new(context: Context, title: str, unit: str | None, species: str) -> FormSpec:
    known = _species(context)
    fields = (
        making.code("code", "Lot", what="code of a fish lot", blamed=CODE_TAKEN, hint="short, such as PERCH-26"),
        Field("species", "Species", Kind.NAME, species, known, required=True, blamed=UNKNOWN),
        making.unit(context, unit, blamed=RETIRED),
        Field("number", "Number", Kind.COUNT, required=True, blamed=NUMBER),
        Field("mean", "One weighs", Kind.MASS, required=True),
        making.day("stocked_day", "Stocked"),
        _source(),
        _paper(),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops import library
        from farmops.farm.fish import stock

        facts = library.species(values["species"])
        if facts is not None:
            values |= {"species": facts.name, "library_key": facts.key}
        entry = NewFishLot(unit_id=context.unit_called(values.pop("unit")).id, **values, sure=hand.sure)
        lot = stock(store, entry, **making.hand_of(hand, operation))
        unknown = "" if facts else NO_FACTS
        return f"{lot.code} stocked: {lot.number} {lot.species} in {lot.unit}.{unknown}"

    return FormSpec(title, fields, save, context.setting, about=LAW, verb="Stock")


def _source(value: str | None = None) -> Field:
    return making.note(value, name="source", label="From", hint="a hatchery, a farm, waters")


def _paper(number: int | None = None) -> Field:
    hint = "its number in Records, Papers"
    return Field("paper_id", "Paper", Kind.COUNT, str(number or ""), hint=hint, blamed=("There is no paper",))


def _species(context: Context) -> tuple[str, ...]:
    kept = (lot.species for lot in context.lots)
    return making.unique((*kept, *(name.lower() for name in context.species_facts)))


def edit(record: FishLot, context: Context) -> FormSpec:
    """Correct a lot."""
    mean = making.typed_mass(record.mean_mg, record.mean_typed, context.farm.measures)
    known = _species(context)

    def same_species(text: str, setting: Setting) -> str:
        from farmops import library

        facts = library.species(text)
        if record.library_key is not None and (facts is None or facts.key != record.library_key):
            raise Refused(
                f"The packaged facts on {record.species} go with {record.code}. "
                "Remove the lot and stock it again under the right species."
            )
        return facts.name if facts else name_of(text, "species")

    fields = (
        making.code("code", "Lot", record.code, what="code of a fish lot", blamed=CODE_TAKEN),
        Field("species", "Species", Kind.NAME, record.species, known, required=True, read=same_species, blamed=UNKNOWN),
        Field("number", "Number", Kind.COUNT, str(record.number), required=True, blamed=NUMBER),
        Field("mean", "One weighed", Kind.MASS, mean, required=True),
        making.day("stocked_day", "Stocked", record.stocked_day, blamed=STOCKED),
        making.day("closed_day", "Closed", record.closed_day or "", required=False, blamed=("would be closed",)),
        _source(record.source),
        _paper(record.paper_id),
        making.note(record.note),
    )
    return FormSpec(f"Fish lot {record.code}", fields, _change(record), context.setting, edits=True, verb="Change")


def _change(record: FishLot) -> Any:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish import change_lot

        entry = FishLotChange(record.id, **values, sure=hand.sure)
        lot = change_lot(store, entry, **making.hand_of(hand, operation))
        return f"{lot.code} closed on {lot.closed_day}." if values.keys() == {"closed_day"} else f"{lot.code} changed."

    return save


def close(record: FishLot, context: Context) -> FormSpec:
    """Close a lot: none of its fish are left."""
    fields = (making.day("closed_day", "Last day", record.closed_day or "today", blamed=(*STOCKED, "would be closed")),)
    about = f"{record.number} {record.species} since {record.stocked_day}. The day is the last with fish."
    return FormSpec(f"Close {record.code}", fields, _change(record), context.setting, about=about, verb="Close")


def deaths(record: FishLot, context: Context) -> FormSpec:
    """Fish of a lot died or went."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.fish_events import record_loss

        words = making.mapped(values, cause=LossCause, disposal=Disposal)
        booked = record_loss(store, NewLoss(record.id, **words), **making.hand_of(hand, operation))
        steps = f" Now: {'; '.join(booked.steps)}." if booked.steps else ""
        call = f" Call: {booked.call}" if booked.call else ""
        return f"{booked.loss.number} of {booked.loss.lot} lost.{steps}{call}"

    fields = (
        Field("number", "How many", Kind.COUNT, "", required=True, blamed=NUMBER),
        Field(
            "cause", "Cause", Kind.NAME, LossCause.UNKNOWN.value, making.words_of(LossCause), required=True, strict=True
        ),
        Field("disposal", "Disposal", Kind.NAME, "", making.words_of(Disposal), strict=True, hint="by local rule"),
        Field("mass", "Together", Kind.MASS, "", hint="if weighed"),
        making.day("day", "Day", blamed=STOCKED),
        making.note(),
    )
    about = "Gloves and a bag for dead fish; disposal by local rule. Two in a day bring their own steps."
    return FormSpec(f"Deaths in {record.code}", fields, save, context.setting, about=about, verb="Book")
