"""Forms for standing orders: who wants what again and again, and the sale that fills one."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops.model.sales import NewOrder, OrderChange, StandingOrder
from farmops.model.values import KEEP
from farmops.quantities import show_money
from farmops.quantities.sales import TypedLine, parse_order, show_amount, show_terms, typed_line
from farmops.reports import ordering
from farmops.reports.ordering import Filling, Wanted
from farmops.reports.products import product
from farmops.reports.store import Store
from farmops.schedule.words import parse_words
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

LONGEST_LINE = 160
ABOUT = "What: the crop or species, how much, and at or for what, such as KALE 6 bunches at 2.50."


def new(context: Context) -> FormSpec:
    """A standing order."""
    return _booking(context, "New standing order", {"from": "today"})


def like(record: StandingOrder, context: Context) -> FormSpec:
    """Another order of the same buyer."""
    return _booking(context, f"New order like number {record.id}", _texts(record, context) | {"from": "today"})


def _booking(context: Context, title: str, texts: dict[str, str]) -> FormSpec:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.orders import record_order

        line = parse_order(values["what"], context.farm.measures)
        crop_id, species = product(store, line.what)
        days = {"start_day": values["from"], "until_day": values["until"]}
        entry = NewOrder(
            values["buyer"], line.terms, values["rule"], crop_id=crop_id, species=species, note=values["note"], **days
        )
        return f"{_told(record_order(store, entry, **making.hand_of(hand, operation)), context)} booked."

    return FormSpec(title, _fields(context, texts), save, context.setting, about=ABOUT)


def edit(record: StandingOrder, context: Context) -> FormSpec:
    """Correct a standing order, or end it."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.orders import change_order

        given = {"buyer": values["buyer"], "rule": values["rule"], "note": values["note"]}
        given |= {"start_day": values["from"], "until_day": values["until"]}
        if values["what"] is not KEEP:
            line = parse_order(values["what"], context.farm.measures)
            given["terms"] = ordering.same_product(store, record, line)
        entry = OrderChange(record.id, **given)
        return f"{_told(change_order(store, entry, **making.hand_of(hand, operation)), context)} changed."

    title = f"Order {record.id} of {record.buyer}"
    fields = _fields(context, _texts(record, context))
    return FormSpec(title, fields, save, context.setting, edits=True, about=ABOUT, verb="Change")


def _texts(record: StandingOrder, context: Context) -> dict[str, str]:
    line = TypedLine(record.what, ordering.terms_of(record))
    return {
        "buyer": record.buyer,
        "what": typed_line(line, context.farm.measures),
        "rule": record.rule_words,
        "from": str(record.start_day),
        "until": str(record.until_day or ""),
        "note": record.note or "",
    }


def _fields(context: Context, texts: dict[str, str]) -> tuple[Field, ...]:
    return (
        Field("buyer", "Buyer", Kind.NAME, texts.get("buyer", ""), context.buyers, required=True),
        Field(
            "what",
            "What",
            Kind.TEXT,
            texts.get("what", ""),
            required=True,
            longest=LONGEST_LINE,
            read=_understood,
            told=_amount_told,
            blamed=("There is no crop", "is of"),
        ),
        Field(
            "rule",
            "Every",
            Kind.TEXT,
            texts.get("rule", ""),
            required=True,
            hint="Tue Fri, week, 2 weeks on Sat",
            read=_rule,
            blamed=("an order comes on days",),
        ),
        making.day("from", "From", texts.get("from", "today"), blamed=("before it begins",)),
        making.day("until", "Until", texts.get("until", ""), required=False, hint="empty: for good"),
        making.note(texts.get("note", "")),
    )


def _understood(text: str, setting: Setting) -> str:
    parse_order(text, setting.measures)
    return text.strip()


def _amount_told(text: str, setting: Setting) -> str:
    terms = parse_order(text, setting.measures).terms
    return show_amount(terms.sold_by, terms.amount.exact, setting.measures)


def _rule(text: str, setting: Setting) -> str:
    """The words themselves, once they are understood; which day a week begins with follows from the first day."""
    parse_words(text, setting.today, setting.measures)
    return text.strip()


def _told(order: StandingOrder, context: Context) -> str:
    measures = context.farm.measures
    amount = show_amount(order.sold_by, order.amount, measures)
    return (
        f"{order.buyer}: {amount} of {order.what} {show_terms(ordering.terms_of(order), measures)}, {order.rule_words}"
    )


def fill(record: tuple[Wanted, date, tuple[str, ...]], context: Context) -> FormSpec:
    """Fill an order on a day it is wanted, from one of the places of it: it makes a sale."""
    wanted, day, places = record
    order, measures = wanted.order, context.farm.measures

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sales import record_sale

        line = parse_order(f"{order.what}: {values['what']}", measures)
        entry = ordering.filling_sale(store, [Filling(order.id, values["source"], line.terms)], day)
        sale = record_sale(store, entry, **making.hand_of(hand, operation))
        return f"{show_money(sale.paid_minor, measures)} from {sale.buyer}, {sale.day}, booked: sale {sale.id}."

    terms = ordering.terms_left(wanted, measures)
    left = f"{terms.amount.typed} {terms.price_typed}"
    fields = (
        Field("what", "Handed over", Kind.TEXT, left, required=True, longest=LONGEST_LINE),
        Field(
            "source",
            "From",
            Kind.NAME,
            places[0] if len(places) == 1 else "",
            places,
            required=True,
            strict=True,
            numbered=True,
            otherwise="What was planted or stocked by that day is listed.",
        ),
    )
    return FormSpec(f"{order.what} for {order.buyer}, {day}", fields, save, context.setting, verb="Book the sale")
