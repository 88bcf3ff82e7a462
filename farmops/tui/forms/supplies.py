"""Forms for supplies: entered, bought, used, counted and corrected."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

from farmops import clock
from farmops.model.costs import Category
from farmops.model.supplies import (
    HeldBy,
    Movement,
    NewSupply,
    NewSupplyLot,
    NewSupplyUse,
    Supply,
    SupplyChange,
    SupplyLot,
    SupplyLotChange,
    SupplyUse,
    SupplyUseChange,
)
from farmops.model.values import Measured
from farmops.quantities import show_money_exact
from farmops.quantities.supplies import held_examples, held_of, read_held, show_held, show_held_exact
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

TAKEN = ("already a supply",)
LATER = ("before it came", "when it came", "supply runs out")


def _read(text: str, setting: Setting, held_by: HeldBy | None, *, zero_ok: bool = False) -> Measured:
    """An amount of what is counted as the supply is, or as the field beside it says."""
    kind = held_by or HeldBy(setting.typed.get("held_by") or HeldBy.MASS)
    return Measured(read_held(kind, text, setting.measures, zero_ok=zero_ok), text.strip())


def _said(amount: Measured, setting: Setting, held_by: HeldBy | None) -> str:
    kind = held_by or HeldBy(setting.typed.get("held_by") or HeldBy.MASS)
    return show_held(kind, amount.exact, setting.measures)


def _amount(
    context: Context,
    name: str,
    label: str,
    held_by: HeldBy | None,
    value: str = "",
    *,
    zero_ok: bool = False,
    **more: Any,
) -> Field:
    hint = more.pop("hint", "") or (held_examples(held_by, context.farm.measures) if held_by else "")
    return Field(
        name,
        label,
        Kind.TEXT,
        value,
        hint=hint,
        read=partial(_read, held_by=held_by, zero_ok=zero_ok),
        told=partial(_said, held_by=held_by),
        **more,
    )


def _typed(held_by: HeldBy, exact: int | None, text: str | None, context: Context) -> str:
    """What was typed if it still means the same, else the amount as the farm writes it."""
    from farmops.model.errors import FarmopsError

    measures = context.farm.measures
    if exact is None:
        return ""
    try:
        if text and read_held(held_by, text, measures, zero_ok=True) == exact:
            return text
    except FarmopsError:
        pass
    return show_held_exact(held_by, exact, measures)


def new(context: Context) -> FormSpec:
    """A thing that is bought, held and used up."""
    return _new(context, "New supply", HeldBy.MASS, Category.SUPPLIES)


def like(record: Supply, context: Context) -> FormSpec:
    """Another supply of the same kind of thing, counted alike."""
    return _new(context, f"New supply like {record.name}", record.held_by, record.category)


def _new(context: Context, title: str, held_by: HeldBy, category: Category) -> FormSpec:
    fields = (
        Field("name", "Supply", Kind.NAME, required=True, blamed=TAKEN),
        Field("held_by", "Counted by", Kind.CHOICE, held_by.value, making.words_of(HeldBy)),
        _category(category),
        _reorder(context, None, follows=("held_by",)),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.supplies import add_supply

        entry = NewSupply(**making.mapped(values, held_by=HeldBy, category=Category))
        booked = add_supply(store, entry, **making.hand_of(hand, operation))
        return f"{booked.name} entered. In Money, + on its line books what was bought."

    return FormSpec(title, fields, save, context.setting, again=True)


def _category(category: Category) -> Field:
    words = making.words_of(Category)
    return Field("category", "Kind of thing", Kind.NAME, category.value, words, required=True, strict=True)


def _reorder(context: Context, held_by: HeldBy | None, value: str = "", **more: Any) -> Field:
    return _amount(
        context, "reorder", "Reorder at", held_by, value, zero_ok=True, hint="what is left when more is bought", **more
    )


def edit(record: Supply, context: Context) -> FormSpec:
    """Correct a supply; what it is counted by stays."""
    reorder = _typed(record.held_by, record.reorder_at, record.reorder_typed, context)
    fields = (
        Field("name", "Supply", Kind.NAME, record.name, required=True, blamed=TAKEN),
        _category(record.category),
        _reorder(context, record.held_by, reorder),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.supplies import change_supply

        entry = SupplyChange(record.id, **making.mapped(values, category=Category))
        return f"{change_supply(store, entry, **making.hand_of(hand, operation)).name} changed."

    return FormSpec(f"Supply {record.name}", fields, save, context.setting, edits=True, verb="Change")


def buy(record: Supply, context: Context) -> FormSpec:
    """Book what was bought of a supply, today."""
    held_by = record.held_by
    fields = (
        _amount(context, "amount", "Amount", held_by, required=True),
        Field("paid", "Paid", Kind.MONEY, hint="for all of it; empty: was there"),
        Field("payee", "From whom", Kind.NAME, "", _payees(context), blamed=("say how much",)),
        making.day("day", "Day"),
        *_label("", "", ""),
        making.note(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.supplies import buy_supply

        entry = NewSupplyLot(record.id, **values, again=hand.sure)
        booked = buy_supply(store, entry, **making.hand_of(hand, operation))
        return f"{held_of(held_by, booked.amount, record.name, context.farm.measures)} bought."

    return FormSpec(f"{record.name} bought", fields, save, context.setting)


def _payees(context: Context) -> tuple[str, ...]:
    return making.unique(cost.payee for cost in reversed(context.costs))


def _label(code: str, opened: date | str, expires: date | str) -> tuple[Field, ...]:
    """What the bag says, and when it was opened."""
    return (
        Field("lot_code", "Lot", Kind.TEXT, code, hint="the number on the bag"),
        making.day("opened_day", "Opened", opened, required=False, blamed=LATER[:1]),
        making.day("expires_day", "Good until", expires, required=False, read=_ahead, blamed=LATER[1:]),
    )


def _ahead(text: str, setting: Setting) -> date:
    """A day as it is typed, the next of its kind where no year is named."""
    return clock.parse_day(text, setting.today, ahead=True)


def edit_bought(record: SupplyLot, context: Context) -> FormSpec:
    """Correct what was bought; its cost follows."""
    amount = _typed(record.held_by, record.amount, record.amount_typed, context)
    paid = "" if record.cost_minor is None else show_money_exact(record.cost_minor, context.farm.measures)
    fields = (
        _amount(context, "amount", "Amount", record.held_by, amount, required=True),
        Field("paid", "Paid", Kind.MONEY, paid, hint="for all of it; empty: was there"),
        Field("payee", "From whom", Kind.NAME, record.payee or "", _payees(context), blamed=("say how much",)),
        making.day("day", "Day", record.day),
        *_label(record.lot_code or "", record.opened_day or "", record.expires_day or ""),
        making.note(record.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.supplies import change_bought

        changed = change_bought(store, SupplyLotChange(record.id, **values), **making.hand_of(hand, operation))
        return f"{changed.supply} of {changed.day} changed."

    title = f"{record.supply} bought {record.day}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def use(record: Supply, context: Context) -> FormSpec:
    """Book what was used of a supply, or thrown away."""
    kinds = (Movement.USED.value, Movement.THROWN_AWAY.value)
    fields = (
        _amount(context, "amount", "Amount", record.held_by, required=True),
        making.unit(context, required=False, hint="empty: shared by all"),
        Field("kind", "It was", Kind.CHOICE, kinds[0], kinds),
        making.day("day", "Day"),
        making.note(),
    )
    return FormSpec(f"{record.name} used", fields, _taking(record, context), context.setting)


def count(record: Supply, context: Context) -> FormSpec:
    """Book what was found to be left; the difference is booked with it."""
    fields = (
        _amount(context, "amount", "Found", record.held_by, required=True, zero_ok=True),
        making.day("day", "Day"),
        making.note(),
    )
    about = "What is missing was used by all; what is more comes in at no cost."
    return FormSpec(f"Count {record.name}", fields, _taking(record, context), context.setting, about=about)


def _taking(record: Supply, context: Context) -> Callable[[Store, dict[str, Any], Hand, str], str]:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.supplies import use_supply

        known = _with_unit(context, {"unit": None, "kind": Movement.COUNTED.value, **values})
        entry = NewSupplyUse(record.id, **making.mapped(known, kind=Movement))
        booked = use_supply(store, entry, **making.hand_of(hand, operation))
        return f"{_told(booked, context)} booked."

    return save


def edit_used(record: SupplyUse, context: Context) -> FormSpec:
    """Correct what was used, thrown away or counted."""
    counted = record.kind is Movement.COUNTED
    typed = _typed(record.held_by, record.amount, record.amount_typed, context)
    amount = _amount(context, "amount", "Amount", record.held_by, typed, required=True, zero_ok=counted)
    unit = making.unit(context, record.unit or "", required=False, hint="empty: shared by all")
    day = making.day("day", "Day", record.day)
    fields = (amount, *(() if counted else (unit,)), day, making.note(record.note))

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.supplies import change_use

        known = values if counted else _with_unit(context, values)
        changed = change_use(store, SupplyUseChange(record.id, **known), **making.hand_of(hand, operation))
        return f"{_told(changed, context)} changed."

    title = f"{record.supply} {record.kind} {record.day}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def _with_unit(context: Context, values: dict[str, Any]) -> dict[str, Any]:
    known = making.mapped(values, unit=lambda code: context.unit_called(code).id)
    known["unit_id"] = known.pop("unit")
    return known


def _told(one: SupplyUse, context: Context) -> str:
    amount = held_of(one.held_by, one.amount, one.supply, context.farm.measures)
    return f"{amount} {one.kind}{f' for {one.unit}' if one.unit else ''}, {one.day},"
