"""Forms for how costs are shared: what they go by, how produce and fish split them, what an hour of work is worth."""

from __future__ import annotations

from typing import Any

from farmops.model.costs import (
    ALL_SHARED,
    Category,
    Driver,
    DriverFrom,
    JointMethod,
    JointSplit,
    LabourRate,
    NewDriver,
    NewJointSplit,
    NewLabourRate,
)
from farmops.model.errors import NotUnderstood
from farmops.model.text import plain
from farmops.quantities import show_money, show_money_exact
from farmops.quantities.shares import parse_parts, parse_produce_share
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

FROM_DAY = "The days before keep theirs; the same day again corrects it."


def driver(record: DriverFrom | None, context: Context) -> FormSpec:
    """What shared costs go to the units by from a day on."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sharing import set_driver

        category = None if values["category"] == ALL_SHARED else Category(values["category"])
        entry = NewDriver(values["from_day"], Driver(values["driver"]), category, values["shares"] or ())
        booked = set_driver(store, entry, **making.hand_of(hand, operation))
        return f"Shared costs of {booked.category} go by {booked.driver} from {booked.from_day}."

    codes = {line.unit.id: line.unit.code for line in context.units}
    shares = " ".join(f"{codes[id]}={parts}" for id, parts in record.shares) if record else ""
    fields = (
        _name("driver", "Go by", making.words_of(Driver), record.driver.value if record else ""),
        _name("category", "Costs", (ALL_SHARED, *making.words_of(Category)), record.category if record else ALL_SHARED),
        Field(
            "shares",
            "Fixed shares",
            Kind.TEXT,
            shares,
            hint="WREN=2 ROOK=1, for fixed shares",
            read=lambda text, setting: _shares(text, context),
            told=lambda found, setting: ", ".join(f"{codes[id]} {parts}" for id, parts in found),
            blamed=("shares",),
        ),
        making.day("from_day", "From", record.from_day if record else "today"),
    )
    return FormSpec("What shared costs go by", fields, save, context.setting, about=FROM_DAY)


def _name(name: str, label: str, options: tuple[str, ...], value: str) -> Field:
    return Field(name, label, Kind.NAME, value, options, required=True, strict=True)


def _shares(text: str, context: Context) -> tuple[tuple[int, int], ...]:
    ids = {line.unit.code: line.unit.id for line in context.units}
    found = []
    for word in text.split():
        code, parts = parse_parts(word)
        if code.upper() not in ids:
            raise NotUnderstood(f"There is no unit {plain(code)} for shares. Known: {', '.join(ids)}.")
        found.append((ids[code.upper()], parts))
    return tuple(found)


def split(record: JointSplit | None, context: Context) -> FormSpec:
    """How the cost of a unit is split between its produce and its fish from a day on."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sharing import set_joint_split

        entry = NewJointSplit(values["from_day"], JointMethod(values["method"]), values["produce"])
        booked = set_joint_split(store, entry, **making.hand_of(hand, operation))
        return f"Produce and fish split a unit's cost by {booked.method} from {booked.from_day}."

    produce = record.produce_thousandths if record else None
    fields = (
        _name("method", "Split by", making.words_of(JointMethod), record.method.value if record else ""),
        Field(
            "produce",
            "Produce bears",
            Kind.TEXT,
            "" if produce is None else f"{produce / 10:g} %",
            hint="70 %, for fixed shares",
            read=lambda text, setting: parse_produce_share(text),
            told=lambda found, setting: f"{found / 10:g} % produce, {100 - found / 10:g} % fish",
            blamed=("produce bears",),
        ),
        making.day("from_day", "From", record.from_day if record else "today"),
    )
    return FormSpec("How produce and fish split a cost", fields, save, context.setting, about=FROM_DAY)


def rate(record: LabourRate | None, context: Context) -> FormSpec:
    """What an hour of work is worth from a day on, of one person or of everybody."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sharing import set_labour_rate

        ids = {one.name: one.id for one in context.people}
        entry = NewLabourRate(values["from_day"], values["rate"], ids.get(values["person"] or ""))
        booked = set_labour_rate(store, entry, **making.hand_of(hand, operation))
        amount = show_money(booked.rate_minor, context.farm.measures)
        return f"An hour of {booked.person or 'everybody'} is worth {amount} from {booked.from_day}."

    amount = show_money_exact(record.rate_minor, context.farm.measures) if record else ""
    fields = (
        Field("rate", "An hour", Kind.MONEY, amount, required=True, zero_ok=True),
        Field(
            "person",
            "Of",
            Kind.NAME,
            (record.person or "") if record else "",
            tuple(one.name for one in context.people),
            strict=True,
            hint="empty: everybody",
        ),
        making.day("from_day", "From", record.from_day if record else "today"),
    )
    return FormSpec("What an hour is worth", fields, save, context.setting, about=FROM_DAY)
