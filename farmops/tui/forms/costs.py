"""Forms for costs: money paid, for a unit or shared by all, used up at once or over the life of a thing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from farmops.model.costs import Category, Cost, CostChange, CostKind, NewCost
from farmops.model.errors import NotUnderstood
from farmops.model.values import KEEP
from farmops.quantities import parse_life, parse_money, show_life, show_money, show_money_exact
from farmops.quantities.measures import Measures
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

AFRESH = ("day", "amount", "note", "receipt")
"""What the same cost has of its own each time."""
SALVAGE = ("worth at the end", "at the end of its life", "a worth at its end")


def life_words(months: int | None, setting: Setting | None = None) -> str:
    """A length of life as it is read; nothing for what is used up."""
    return show_life(months) if months else ""


def _fields(context: Context, values: dict[str, str], *, amount_last: bool = False) -> tuple[Field, ...]:
    what = making.unique(cost.what for cost in reversed(context.costs))
    payees = making.unique(cost.payee for cost in reversed(context.costs))
    categories = making.words_of(Category)
    amount = Field("amount", "Amount", Kind.MONEY, values.get("amount", ""), required=True, blamed=("paid twice",))
    others = (
        Field("what", "What for", Kind.NAME, values.get("what", ""), what, required=True),
        Field(
            "category",
            "Kind of thing",
            Kind.NAME,
            values.get("category", Category.OTHER.value),
            categories,
            required=True,
            strict=True,
            follows=("what",),
            guess=_as_last_time(
                context, values.get("category", Category.OTHER.value), lambda cost: cost.category.value
            ),
        ),
        _where(context, values.get("where")),
        making.day("day", "Day", values.get("day", "today"), keep=True),
        Field(
            "payee",
            "From whom",
            Kind.NAME,
            values.get("payee", ""),
            payees,
            keep=True,
            follows=("what",),
            guess=_as_last_time(context, values.get("payee", ""), lambda cost: cost.payee or ""),
        ),
        Field(
            "life",
            "Lasts",
            Kind.TEXT,
            values.get("life", ""),
            hint="such as 8 years; empty: used up",
            read=lambda text, setting: parse_life(text),
            told=life_words,
            blamed=("no life of a thing", "how long it lasts"),
        ),
        Field("salvage", "Worth then", Kind.MONEY, values.get("salvage", ""), zero_ok=True, blamed=SALVAGE),
        making.note(values.get("note", "")),
        *_label(context, values.get("label", "")),
        Field(
            "receipt",
            "Receipt",
            Kind.TEXT,
            values.get("receipt", ""),
            hint="a file; a copy is kept",
            blamed=("no file", "plain file", "bytes", "cannot be read"),
        ),
    )
    return (*others, amount) if amount_last else (amount, *others)


def _label(context: Context, value: str) -> tuple[Field, ...]:
    """A field for the label, on a farm that has loaded some."""
    labels = making.unique((*context.cost_labels, value))
    hint = "empty: as its kind of thing says"
    return (Field("label", "Label", Kind.NAME, value, labels, strict=True, keep=True, hint=hint),) if labels else ()


def _where(context: Context, value: str | None) -> Field:
    """A field for the unit, bed or fish lot that bears the cost; where one stands unless told otherwise."""
    return Field(
        "where",
        "For",
        Kind.NAME,
        context.unit_code if value is None else value,
        tuple(_places(context)),
        strict=True,
        keep=True,
        hint="empty: shared by all",
        otherwise="A unit, a bed, a fish lot, or nothing for all.",
    )


def _places(context: Context) -> dict[str, tuple[str, int]]:
    """Where a cost can belong, by the word for it: the field of an entry, and the id."""
    lots = {one.code: ("fish_lot_id", one.id) for one in reversed(context.lots)}
    beds = {line.bed.code: ("bed_id", line.bed.id) for line in context.beds}
    units = {line.unit.code: ("unit_id", line.unit.id) for line in context.units}
    return {**units, **beds, **{code: place for code, place in lots.items() if code not in units}}


def _as_last_time(context: Context, otherwise: str, told: Callable[[Cost], str]) -> Callable[[dict[str, str]], str]:
    """What was booked the last time the same was paid for."""
    last = {cost.what.casefold(): told(cost) for cost in context.costs}
    return lambda typed: last.get(typed.get("what", "").casefold(), otherwise)


def new(context: Context) -> FormSpec:
    """Money paid."""
    return FormSpec("New cost", _fields(context, {}), _saves(context), context.setting, again=True)


def like(record: Cost, context: Context) -> FormSpec:
    """The same paid again, today: only the amount is asked for."""
    values = {name: text for name, text in _texts(record, context).items() if name not in AFRESH}
    fields = _fields(context, values, amount_last=True)
    return FormSpec(f"New cost like {record.what}", fields, _saves(context), context.setting, start="amount")


def _texts(record: Cost, context: Context) -> dict[str, str]:
    measures = context.farm.measures
    return {
        "amount": _typed_money(record.amount_minor, record.amount_typed, measures),
        "what": record.what,
        "category": record.category.value,
        "where": record.where or "",
        "day": str(record.day),
        "payee": record.payee or "",
        "life": life_words(record.life_months),
        "salvage": show_money_exact(record.salvage_minor, measures) if record.salvage_minor else "",
        "note": record.note or "",
        "label": record.label or "",
        "receipt": record.receipt_name or "",
    }


def _typed_money(minor: int, typed: str, measures: Measures) -> str:
    try:
        return typed if parse_money(typed, measures, zero_ok=True) == minor else show_money_exact(minor, measures)
    except NotUnderstood:
        return show_money_exact(minor, measures)


def _saves(context: Context) -> Any:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.costs import record_cost

        entry = NewCost(**_entry(store, context, values), again=hand.sure)
        cost = record_cost(store, entry, **making.hand_of(hand, operation))
        return f"{_told(cost, context)} booked."

    return save


def _entry(store: Store, context: Context, values: dict[str, Any]) -> dict[str, Any]:
    """The values as fields of an entry: a thing that lasts is capital; of a receipt a copy is kept."""
    from farmops.exchange.kept_files import keep

    known = making.mapped(values, category=Category, receipt=lambda file: keep(store, file))
    where, life, salvage = known.pop("where"), known.pop("life"), known.pop("salvage")
    if where is not KEEP:
        column, id = _places(context)[where] if where else ("unit_id", None)
        known[column] = id
    known["life_months"] = life
    known["salvage_minor"] = salvage.exact if salvage is not None and salvage is not KEEP else salvage
    if life is not KEEP:
        known["kind"] = CostKind.OPERATING if life is None else CostKind.CAPITAL
    return known


def _told(cost: Cost, context: Context) -> str:
    amount = show_money(cost.amount_minor, context.farm.measures)
    return f"{amount} for {cost.what}, {cost.where or 'shared'}, {cost.day}"


def edit(record: Cost, context: Context) -> FormSpec:
    """Correct a cost."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.costs import change_cost

        entry = CostChange(record.id, **_entry(store, context, values))
        return f"{_told(change_cost(store, entry, **making.hand_of(hand, operation)), context)} changed."

    title = f"Cost {record.id}: {record.what}"
    fields = _fields(context, _texts(record, context))
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")
