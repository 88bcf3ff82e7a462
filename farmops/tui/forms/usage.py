"""Forms for what pumps, feed and siphons used: booked as it is read off, and corrected."""

from __future__ import annotations

from functools import partial
from typing import Any

from farmops.model.errors import FarmopsError
from farmops.model.usage import Counter, NewUsage, Usage, UsageChange
from farmops.model.values import Measured
from farmops.quantities import Measures
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand


def read_used(text: str, setting: Setting, counter: Counter | None = None) -> Measured:
    """An amount of what is counted, which the other field says unless it is known. Raises a FarmopsError."""
    from farmops.schedule.use_words import read_amount

    return Measured(read_amount(counter or _counter(setting), text, setting.measures), text.strip())


def used_told(amount: Measured, setting: Setting, counter: Counter | None = None) -> str:
    """The amount with what is counted."""
    return _words(counter or _counter(setting), amount.exact, setting.measures)


def _counter(setting: Setting) -> Counter:
    return Counter(setting.typed.get("counter") or Counter.PUMP_HOURS)


def _words(counter: Counter, amount: int, measures: Measures) -> str:
    from farmops.schedule.use_words import amount_words

    return amount_words(counter, amount, measures)


def new(context: Context) -> FormSpec:
    """Book what was used in a unit since the record before."""
    return _new(context, "What was used", making.unit(context), Counter.PUMP_HOURS)


def like(record: Usage, context: Context) -> FormSpec:
    """Book the same counter of the same unit again, today, with the amount left to say."""
    return _new(context, "What was used", making.unit(context, record.unit), record.counter)


def _new(context: Context, title: str, unit: Field, counter: Counter) -> FormSpec:
    ids = {line.unit.code: line.unit.id for line in context.units}
    counted = Field("counter", "What", Kind.CHOICE, counter.value, making.words_of(Counter))

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.usage import record_usage

        entry = NewUsage(ids[values.pop("unit")], Counter(values.pop("counter")), **values)
        return _told(record_usage(store, entry, **making.hand_of(hand, operation)), "booked", context)

    return FormSpec(title, (unit, counted, *_fields("", "today", None, None)), save, context.setting)


def edit(record: Usage, context: Context) -> FormSpec:
    """Correct a record of use."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.usage import change_usage

        entry = UsageChange(record.id, **values)
        return _told(change_usage(store, entry, **making.hand_of(hand, operation)), "changed", context)

    fields = _fields(_typed(record, context), str(record.day), record.note, record.counter)
    title = f"{record.unit}, {record.counter}, {record.day}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


def _typed(record: Usage, context: Context) -> str:
    """What was typed if it still means the same, else the amount as the farm writes it."""
    from farmops.schedule.use_words import amount_words, read_amount

    measures = context.setting.measures
    try:
        if read_amount(record.counter, record.typed, measures) == record.amount:
            return record.typed
    except FarmopsError:
        pass
    return amount_words(record.counter, record.amount, measures).removesuffix(" fed")


def _fields(amount: str, day: str, note: str | None, counter: Counter | None) -> tuple[Field, ...]:
    return (
        Field(
            "amount",
            "Used",
            Kind.TEXT,
            amount,
            required=True,
            hint="since the record before",
            read=partial(read_used, counter=counter),
            told=partial(used_told, counter=counter),
            follows=() if counter else ("counter",),
            blamed=("pump can run", "amount of use"),
        ),
        making.day("day", "Up to", day),
        making.note(note),
    )


def _told(one: Usage, done: str, context: Context) -> str:
    return f"{_words(one.counter, one.amount, context.setting.measures)} in {one.unit} up to {one.day} {done}."
