"""Forms for what is added to the water, with how much would bring a reading where it is wanted."""

from __future__ import annotations

from functools import partial
from typing import Any

from farmops.library.dose_cautions import dose_cautions
from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.supplies import HeldBy
from farmops.model.text import plain
from farmops.model.water import Amount, Dose, DoseChange, NewDose
from farmops.quantities import MASS, VOLUME
from farmops.quantities.doses import parse_amount, show_dose
from farmops.reports.dosing import PRODUCTS, suggested
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.completing import folded
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

OTHERS = ("sodium chloride", "calcium chloride dihydrate", "sodium thiosulfate", "phosphoric acid", "seaweed extract")


def new(context: Context) -> FormSpec:
    """Book what was added; the amount begins with what would bring the reading where it is wanted."""
    return _new(context, context.unit_code, "")


def like(record: Dose, context: Context) -> FormSpec:
    """Book the same again, with the amount left to say."""
    return _new(context, record.unit, record.what)


def _new(context: Context, unit: str, what: str) -> FormSpec:
    held = {one.name: one.id for one in context.supplies if one.held_by is not HeldBy.COUNT}

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.doses import record_dose

        for name in ("wanted", "strength"):
            values.pop(name)
        supply = held.get(values.pop("supply"))
        entry = NewDose(context.unit_called(values.pop("unit")).id, **values, supply_id=supply)
        done = record_dose(store, entry, **making.hand_of(hand, operation))
        return f"{show_dose(done, context.farm.measures)} of {done.what} into {done.unit} booked."

    fields = (
        making.unit(context, unit),
        _what(what),
        Field("wanted", "To reach", Kind.TEXT, hint="mg/L, to work out how much; or empty", read=_number),
        Field("strength", "Strength", Kind.TEXT, hint="% on the label, where it is not pure", read=_number),
        _amount("", guess=partial(_suggestion, context=context), follows=("unit", "what", "wanted", "strength")),
        _supply(tuple(held)),
        Field("why", "Why", Kind.TEXT, hint="pH falls, pale leaves"),
        making.day("day", "Day"),
        making.note(),
    )
    about = "Labels, data sheets and local rules come first. Small steps, then measure again."
    return FormSpec("Added to the water", fields, save, context.setting, about=about)


def edit(record: Dose, context: Context) -> FormSpec:
    """Correct a dose."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.doses import change_dose

        done = change_dose(store, DoseChange(record.id, **values), **making.hand_of(hand, operation))
        return f"{done.what} of {done.day} changed."

    fields = (
        _what(record.what),
        _amount(record.amount_typed),
        Field("why", "Why", Kind.TEXT, record.why or ""),
        making.day("day", "Day", record.day),
        making.note(record.note),
    )
    return FormSpec(f"{record.what} in {record.unit}", fields, save, context.setting, edits=True, verb="Change")


def _what(value: str) -> Field:
    return Field("what", "What", Kind.NAME, value, (*PRODUCTS, *OTHERS), required=True, heeds=_cautions)


def _supply(names: tuple[str, ...]) -> Field:
    """What it is drawn from: the supply of the same name, unless a person says another or none."""
    return Field(
        "supply",
        "Taken from",
        Kind.NAME,
        options=names,
        strict=True,
        hint="a supply; empty: from none",
        guess=lambda typed: next((one for one in names if folded(one) == folded(typed.get("what", ""))), ""),
        follows=("what",),
        blamed=("is counted by",),
        otherwise="A supply is entered in Money: S.",
    )


def _cautions(what: str, setting: Setting) -> str:
    return dose_cautions(what)[0]


def _amount(value: str, **more: Any) -> Field:
    return Field(
        "amount",
        "Amount",
        Kind.TEXT,
        value,
        required=True,
        hint="65 g, 2 oz, 500 ml",
        read=lambda text, setting: parse_amount(text, setting.measures),
        told=_told,
        blamed=("a dose is",),
        **more,
    )


def _told(amount: Amount, setting: Setting) -> str:

    return (MASS if amount.held_by == "mass" else VOLUME).show(amount.measured.exact, setting.measures)


def _number(text: str, setting: Setting) -> float:
    try:
        return float(text.strip().removesuffix("%").removesuffix("mg/L").strip().replace(",", "."))
    except ValueError:
        raise NotUnderstood(f"{plain(text)!r} is no number. Understood: 80, 2.5.") from None


def _suggestion(typed: dict[str, str], *, context: Context) -> str:
    """What the sum says, as an amount; nothing where something it needs is not known."""
    unit = next((line.unit.id for line in context.units if line.unit.code == typed.get("unit", "").upper()), None)
    wanted, strength = typed.get("wanted", ""), typed.get("strength", "")
    if unit is None or not wanted.strip():
        return ""
    try:
        of_label = _number(strength, context.setting) if strength.strip() else None
        what, aim = typed.get("what", ""), _number(wanted, context.setting)
        found = suggested(context.waters, unit, what, aim, strength_percent=of_label)
    except FarmopsError:
        return ""
    return f"{found.dose.grams:.0f} g" if found.dose.grams >= 10 else f"{found.dose.grams:.1f} g"
