"""What the forms of many kinds of record have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date
from enum import StrEnum
from functools import partial
from typing import Any, TypeVar

from farmops import clock
from farmops.model.errors import FarmopsError
from farmops.model.journal import Through
from farmops.model.text import LONGEST_CODE, LONGEST_NOTE, code_of
from farmops.model.values import KEEP, Keep
from farmops.quantities import AREA, LENGTH, MASS, VOLUME, Dimension, Measures
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import Hand

E = TypeVar("E", bound=StrEnum)
BOOK_DAYS = ("not a day to book on", "is still to come")


def hand_of(hand: Hand, operation: str) -> dict[str, Any]:
    """The keywords of every change made on the screen."""
    return {"by": hand.by, "operation": operation, "through": Through.SCREEN}


def words_of(kind: type[StrEnum]) -> tuple[str, ...]:
    """The words of an enum, to choose from."""
    return tuple(one.value for one in kind)


def word(kind: type[E], value: str | Keep) -> E | Keep:
    """The member of an enum that was chosen; KEEP stays KEEP."""
    return KEEP if isinstance(value, Keep) else kind(value)


def mapped(values: dict[str, Any], **functions: Callable[[Any], Any]) -> dict[str, Any]:
    """The values, some passed through a function of their name unless they are KEEP or None."""
    return {
        name: functions[name](value) if name in functions and value is not None and value is not KEEP else value
        for name, value in values.items()
    }


def unique(words: Iterable[str | None]) -> tuple[str, ...]:
    """The words without those that come again, in their order."""
    return tuple(dict.fromkeys(one for one in words if one))


def note(value: str | None = None, *, name: str = "note", label: str = "Note", hint: str = "") -> Field:
    """A field for a remark."""
    return Field(name, label, Kind.TEXT, value or "", longest=LONGEST_NOTE, hint=hint)


def day(name: str, label: str, value: str | date = "today", *, required: bool = True, **more: Any) -> Field:
    """A field for a day."""
    blamed = (*BOOK_DAYS, *more.pop("blamed", ()))
    return Field(name, label, Kind.DAY, str(value), required=required, blamed=blamed, **more)


def last_day(name: str, label: str, value: date | None, **more: Any) -> Field:
    """A field for a last day, which may be still to come; empty for no end."""
    text, hint = str(value or ""), "empty: no end"
    return day(name, label, text, required=False, hint=hint, read=_day_ahead, **more)


def _day_ahead(text: str, setting: Setting) -> date:
    return clock.parse_day(text, setting.today, ahead=True)


def unit(context: Context, value: str | None = None, *, required: bool = True, **more: Any) -> Field:
    """A field for a unit of the row; where one stands unless told otherwise."""
    options = tuple(line.unit.code for line in context.units)
    here = context.unit_code if value is None else value
    first = options[0] if required and not here and len(options) == 1 else here
    return Field(
        "unit",
        "Unit",
        Kind.NAME,
        first,
        options,
        required=required,
        strict=True,
        otherwise="A new unit joins the row in Records.",
        **more,
    )


def code(name: str, label: str, value: str = "", *, what: str, **more: Any) -> Field:
    """A field for a short code in capitals."""
    return Field(
        name, label, Kind.TEXT, value, required=True, longest=LONGEST_CODE, read=partial(_code, what=what), **more
    )


def _code(text: str, setting: Setting, *, what: str) -> str:
    return code_of(text, what)


def typed(dimension: Dimension, exact: int | None, text: str | None, measures: Measures) -> str:
    """What was typed for a measure if it still means the same, else the exact measure as the farm writes it."""
    if exact is None:
        return ""
    try:
        if text and dimension.parse(text, measures, zero_ok=True) == exact:
            return text
    except FarmopsError:
        pass
    return dimension.show_exact(exact, measures)


typed_mass, typed_area = partial(typed, MASS), partial(typed, AREA)
typed_volume, typed_length = partial(typed, VOLUME), partial(typed, LENGTH)


def afresh(field: Field, value: str) -> Field:
    """The same field, opening with another text."""
    return replace(field, value=value)


def bed(context: Context, value: str = "", **more: Any) -> Field:
    """A field for a bed; those where one stands come first."""
    codes = sorted((line.bed.code for line in context.beds), key=lambda code: not code.startswith(context.unit_code))
    return Field(
        "bed",
        "Bed",
        Kind.NAME,
        value,
        tuple(codes),
        required=True,
        strict=True,
        otherwise="A new bed is added in Beds.",
        **more,
    )
