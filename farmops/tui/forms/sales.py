"""Forms for sales: to whom, and what in the words of the command, a line for each thing sold."""

from __future__ import annotations

from typing import Any

from farmops.model.sales import ComingBack, NewSale, Sale, SaleChange
from farmops.model.values import KEEP
from farmops.quantities import show_money
from farmops.quantities.sales import parse_sale_line, part_of, show_amount, show_line
from farmops.reports import selling
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

LINES = 5
SPARE = 2
LONGEST_LINE = 160
ABOUT = "A line says what, how much, and at or for what: CHARD 2 lb at 3.50, or KALE 6 bunches for 12 unsold 1."


def new(context: Context) -> FormSpec:
    """A sale."""
    return _booking(context, "New sale", "", ())


def like(record: Sale, context: Context) -> FormSpec:
    """The same sold again to the same buyer, today."""
    texts = tuple(selling.as_typed(line, context.farm.measures) for line in record.lines)
    return _booking(context, f"New sale like number {record.id}", record.buyer, texts)


def _booking(context: Context, title: str, buyer: str, texts: tuple[str, ...]) -> FormSpec:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sales import record_sale

        entry = _new_sale(store, values)
        return f"{_told(record_sale(store, entry, **making.hand_of(hand, operation)), context)} booked."

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        from farmops.farm.sales import record_sale

        return _in_full(record_sale.rehearse(store, _new_sale(store, values), by=hand.by), context)

    fields = _fields(context, {"buyer": buyer}, texts, max(LINES, len(texts)))
    return FormSpec(title, fields, save, context.setting, about=ABOUT, preview=preview)


def _new_sale(store: Store, values: dict[str, Any]) -> NewSale:
    texts = [values[name] for name in _names(values) if values[name]]
    return NewSale(values["day"], values["buyer"], selling.sale_lines(store, texts, values["day"]), values.get("note"))


def edit(record: Sale, context: Context) -> FormSpec:
    """Correct a sale and its lines; an emptied line goes."""
    texts = tuple(selling.as_typed(line, context.farm.measures) for line in record.lines)

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sales import change_sale

        entry = _change(store, record, texts, values)
        return f"{_told(change_sale(store, entry, **making.hand_of(hand, operation)), context)} changed."

    known = {"buyer": record.buyer, "day": str(record.day), "note": record.note or ""}
    fields = _fields(context, known, texts, len(texts) + SPARE)
    title = f"Sale {record.id} to {record.buyer}"
    return FormSpec(title, fields, save, context.setting, edits=True, about=ABOUT, verb="Change")


def _change(store: Store, record: Sale, texts: tuple[str, ...], values: dict[str, Any]) -> SaleChange:
    names = _names(values)
    head = {name: value for name, value in values.items() if name not in names}
    if all(values[name] is KEEP for name in names):
        return SaleChange(record.id, **head)
    before = dict(zip(names, texts, strict=False))
    wanted = [before.get(name, "") if values[name] is KEEP else values[name] for name in names]
    day = record.day if values["day"] is KEEP else values["day"]
    return SaleChange(record.id, **head, lines=selling.sale_lines(store, [text for text in wanted if text], day))


def _fields(context: Context, values: dict[str, str], texts: tuple[str, ...], lines: int) -> tuple[Field, ...]:
    padded = (*texts, *[""] * (lines - len(texts)))
    return (
        Field("buyer", "Buyer", Kind.NAME, values.get("buyer", ""), context.buyers, required=True, keep=True),
        making.day("day", "Day", values.get("day", "today"), keep=True, blamed=("was sold on",)),
        *(_line(at, text) for at, text in enumerate(padded, start=1)),
        making.note(values.get("note", "")),
    )


def _line(at: int, text: str) -> Field:
    return Field(
        f"line{at}",
        f"Line {at}",
        Kind.TEXT,
        text,
        required=at == 1,
        longest=LONGEST_LINE,
        read=_understood,
        told=_line_told,
    )


def _understood(text: str, setting: Setting) -> str:
    """The text itself, once it is understood; which planting or lot is meant is worked out when it is booked."""
    parse_sale_line(text, setting.measures)
    return text.strip()


def _line_told(text: str, setting: Setting) -> str:
    terms = parse_sale_line(text, setting.measures).terms
    return show_amount(terms.sold_by, terms.amount.exact, setting.measures)


def _names(values: dict[str, Any]) -> list[str]:
    return [name for name in values if name.startswith("line")]


def _told(sale: Sale, context: Context) -> str:
    return f"{show_money(sale.paid_minor, context.farm.measures)} from {sale.buyer}, {sale.day}"


def _in_full(sale: Sale, context: Context) -> str:
    lines = "; ".join(show_line(line, context.farm.measures) for line in sale.lines)
    return f"{show_money(sale.paid_minor, context.farm.measures)} in all. {lines}"


def back(record: Sale, context: Context) -> FormSpec:
    """More of a sale came back, from the buyer or unsold."""
    names = making.unique(line.name for line in record.lines)
    fields = (
        Field("what", "What", Kind.NAME, names[0], names, required=True, strict=True, numbered=True),
        Field("amount", "How much", Kind.TEXT, "", required=True, hint="such as 2 bunches, or 8 oz"),
        Field("how", "It was", Kind.CHOICE, "returned", ("returned", "unsold"), required=True),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sales import take_in_return

        line = selling.line_called(record, values["what"])
        part = part_of(values["amount"], line.sold_by, context.farm.measures)
        entry = ComingBack(line.id, **{values["how"]: part})
        return (
            f"{_told(take_in_return(store, entry, **making.hand_of(hand, operation)), context)}, less what came back."
        )

    about = "What comes back is not paid for."
    return FormSpec(f"Back from {record.buyer}", fields, save, context.setting, about=about, start="amount")
