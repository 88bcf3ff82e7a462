"""The form that gives the set of chores of an occasion: dosing, treatment, bed cleaning, a power cut."""

from __future__ import annotations

from typing import Any

from farmops.model.chores import Occasion
from farmops.model.templates import GivenSet, NewSet
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

OCCASIONS = tuple(one.value for one in Occasion if one is not Occasion.STATE)
HOLD = ("how many days the label holds", "days until harvest", "no hold until harvest")


def new(context: Context) -> FormSpec:
    """The chores of an occasion, for where one stands unless told otherwise."""
    fields = (
        Field("occasion", "What happened", Kind.CHOICE, Occasion.DOSING.value, OCCASIONS),
        making.unit(context),
        Field(
            "bed",
            "Bed",
            Kind.NAME,
            "",
            tuple(line.bed.code for line in context.beds),
            strict=True,
            hint="empty: the whole unit",
            blamed=("does not belong",),
        ),
        making.day("day", "On"),
        Field(
            "hold_days",
            "Days of hold",
            Kind.COUNT,
            zero_ok=True,
            hint="of a treatment, by its label",
            blamed=HOLD,
        ),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.sets import give_set

        return given_words(give_set(store, _entry(values, context), **making.hand_of(hand, operation)))

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        from farmops.farm.sets import give_set

        return given_words(give_set.rehearse(store, _entry(values, context), by=hand.by))

    return FormSpec("Give a set of chores", fields, save, context.setting, verb="Give", preview=preview)


def _entry(values: dict[str, Any], context: Context) -> NewSet:
    bed = context.bed_called(values["bed"]).id if values["bed"] else None
    unit = context.unit_called(values["unit"]).id
    return NewSet(Occasion(values["occasion"]), unit, values["day"], bed, values["hold_days"])


def given_words(given: GivenSet) -> str:
    """What comes, what lasts longer, what is left out."""
    parts = (("Comes", given.given), ("Lasts longer", given.prolonged), ("Left out", given.skipped))
    return " ".join(f"{words}: {'; '.join(titles)}." for words, titles in parts if titles)
