"""Forms for costs that come again: described, corrected, and one time booked."""

from __future__ import annotations

from typing import Any

from farmops.model.costs import Category
from farmops.model.errors import Refused
from farmops.model.recurring import NewRecurring, NewTime, RecurringChange
from farmops.model.values import Measured
from farmops.quantities import show_money, show_money_exact
from farmops.reports.recurring import Recurrence
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.chores import read_rule
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, day_words
from farmops.tui.widgets.forms import FormSpec, Hand

RULES = "month on the 1st; year on 3 may"


def new(context: Context) -> FormSpec:
    """Describe a cost that comes again."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.recurring import add_recurring

        known = making.mapped(values, category=Category, unit=lambda code: context.unit_called(code).id)
        entry = NewRecurring(unit_id=known.pop("unit"), rule=known.pop("rule").text, **known)
        added = add_recurring(store, entry, **making.hand_of(hand, operation))
        return f"{added.what} comes {added.rule_words}. Book it here when it is paid."

    fields = (
        *_described(context, {}),
        making.unit(context, None, required=False, hint="empty: shared by all"),
        Field(
            "rule",
            "Comes",
            Kind.TEXT,
            required=True,
            hint=RULES,
            read=read_rule,
            told=lambda rule, setting: "; ".join([rule.words, *(day_words(day) for day in rule.days[:2])]),
            follows=("start_day",),
            blamed=("on the calendar",),
        ),
        making.day("start_day", "From"),
        making.last_day("until_day", "Until", None, blamed=("would end",)),
    )
    return FormSpec("A cost that comes again", fields, save, context.setting)


def _described(context: Context, values: dict[str, str]) -> tuple[Field, ...]:
    payees = making.unique(cost.payee for cost in reversed(context.costs))
    return (
        Field("what", "What for", Kind.NAME, values.get("what", ""), required=True),
        Field("amount", "Amount", Kind.MONEY, values.get("amount", ""), required=True),
        Field(
            "category",
            "Kind of thing",
            Kind.NAME,
            values.get("category", Category.OTHER.value),
            making.words_of(Category),
            required=True,
            strict=True,
        ),
        Field("payee", "From whom", Kind.NAME, values.get("payee", ""), payees),
        making.note(values.get("note", "")),
    )


def edit(record: Recurrence, context: Context) -> FormSpec:
    """Correct what comes again, or end it."""
    one = record.cost

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.recurring import change_recurring

        entry = RecurringChange(one.id, **making.mapped(values, category=Category))
        return f"{change_recurring(store, entry, **making.hand_of(hand, operation)).what} changed."

    values = {
        "what": one.what,
        "amount": show_money_exact(one.amount_minor, context.farm.measures),
        "category": one.category.value,
        "payee": one.payee or "",
        "note": one.note or "",
    }
    last = making.last_day("until_day", "Until", one.until_day, blamed=("would end",))
    about = f"Comes {one.rule_words}, from {one.start_day}. What is booked stays as it is."
    fields = (*_described(context, values), last)
    title = f"Comes again: {one.what}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change", about=about)


def book(record: Recurrence, context: Context) -> FormSpec:
    """Book the time that is open first, at its amount or another."""
    one, due = record.cost, record.next
    if due is None:
        raise Refused(f"{one.what} is over.")

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.recurring import book_time

        paid: Measured = values["amount"]
        entry = NewTime(one.id, due, values["day"], paid, again=hand.sure)
        booked = book_time(store, entry, **making.hand_of(hand, operation))
        return f"{show_money(booked.amount_minor, context.farm.measures)} for {booked.what}, {booked.day} booked."

    amount = show_money_exact(one.amount_minor, context.farm.measures)
    fields = (
        making.day("day", "Day", due),
        Field("amount", "Amount", Kind.MONEY, amount, required=True, blamed=("not open",)),
    )
    about = f"Of {day_words(due)}{'' if record.due else ', which is still to come'}."
    return FormSpec(f"{one.what} paid", fields, save, context.setting, about=about, start="amount")
