"""Fields of a form: what kind of thing each takes, how typed text is understood, and what is said about it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from datetime import date
from enum import StrEnum
from typing import Any

from farmops import clock
from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.text import LONGEST_NAME, name_of, plain
from farmops.model.values import Measured
from farmops.quantities import (
    AREA,
    LENGTH,
    MASS,
    VOLUME,
    Dimension,
    Measures,
    Price,
    parse_money,
    parse_price,
    show_money,
    show_price,
)
from farmops.quantities.money import money_examples
from farmops.quantities.prices import price_examples
from farmops.tui.widgets.completing import resolved

LARGEST_COUNT = 10**9


class Kind(StrEnum):
    """What a field takes."""

    TEXT = "text"
    NAME = "name"
    CHOICE = "choice"
    DAY = "day"
    MASS = "mass"
    VOLUME = "volume"
    AREA = "area"
    LENGTH = "length"
    MONEY = "money"
    PRICE = "price"
    COUNT = "count"
    YES = "yes"

    @property
    def picked(self) -> bool:
        """Whether its words stand side by side instead of being typed."""
        return self in (Kind.CHOICE, Kind.YES)


@dataclass(frozen=True, slots=True)
class Setting:
    """What typed text is understood by: the measures and the day of the farm, and what the other fields hold.

    `sure` holds, by field, the unlikely text that was asked about.
    """

    measures: Measures
    today: date
    typed: dict[str, str] = field(default_factory=dict)
    sure: dict[str, str] = field(default_factory=dict)

    def is_sure(self, name: str, text: str) -> bool:
        """Whether a person was asked about this very text of a field, and left it as it was."""
        return self.sure.get(name, "").strip() == text.strip() != ""


@dataclass(frozen=True, slots=True)
class TypedPrice:
    """A price by weight beside the text a person typed for it."""

    price: Price
    typed: str


Read = Callable[[str, Setting], Any]


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a form. `value` is the text it opens with; an empty one that is not `required` means None.

    A NAME that is `strict` is one of its options; `numbered` options are picked by a digit, too, and where the
    `nearest` stand first, the first that fits is meant. `read` understands the text in a way of its own, `told` says
    what was understood, and both are asked again when a field that this one `follows` changes. So is `guess`, the text
    to begin with by what the other fields hold, until a person types here. `heeds` is what to look out for in what was
    understood; it does not keep it from being booked. `blamed` are words in a refusal that point
    here; `keep` lets the next record begin with the same text; `otherwise` is what to do about a name that is missing;
    `lists` are all the texts that help tells of, by example.
    """

    name: str
    label: str
    kind: Kind
    value: str = ""
    options: tuple[str, ...] = ()
    required: bool = False
    hint: str = ""
    strict: bool = False
    numbered: bool = False
    nearest: bool = False
    zero_ok: bool = False
    longest: int = LONGEST_NAME
    keep: bool = False
    read: Read | None = None
    told: Callable[[Any, Setting], str] | None = None
    heeds: Callable[[Any, Setting], str] | None = None
    follows: tuple[str, ...] = ()
    guess: Callable[[dict[str, str]], str] | None = None
    blamed: tuple[str, ...] = ()
    otherwise: str = ""
    lists: Callable[[], Sequence[str]] | None = None

    @property
    def words(self) -> tuple[str, ...]:
        """The words that stand side by side, none where something is typed."""
        return ("no", "yes") if self.kind is Kind.YES else self.options if self.kind is Kind.CHOICE else ()


def understood(field: Field, text: str, setting: Setting) -> Any:
    """What the text in a field means; None for an empty one. Raises a FarmopsError in words."""
    if not text.strip():
        if field.required:
            raise NotUnderstood(f"This is needed. {hint_of(field, setting)}".strip())
        return None
    if field.kind is Kind.NAME:
        text = resolved(field, text)
    return field.read(text, setting) if field.read else READERS[field.kind](field, text, setting)


def echo_of(field: Field, text: str, setting: Setting) -> str:
    """What was understood, to stand beside the text; nothing where the text says it all or is not understood yet."""
    try:
        value = understood(field, text, setting)
    except FarmopsError:
        return ""
    if value is None:
        return ""
    if field.told is not None:
        return f"= {plain(field.told(value, setting))}"
    said = ECHOES[field.kind](value, setting) if field.kind in ECHOES else ""
    return f"= {said}" if said and said != text.strip() else ""


def heed_of(field: Field, text: str, setting: Setting) -> str:
    """What to look out for in what was understood; nothing where there is nothing, or it is not understood."""
    if field.heeds is None:
        return ""
    try:
        value = understood(field, text, setting)
    except FarmopsError:
        return ""
    return "" if value is None else field.heeds(value, setting)


def hint_of(field: Field, setting: Setting) -> str:
    """What would be understood: the field's own words, or examples in the measures of the farm."""
    if field.hint or field.kind not in EXAMPLES:
        return field.hint
    return " or ".join(EXAMPLES[field.kind](setting.measures))


def same_text(one: str, other: str) -> bool:
    """Whether nothing was changed between two texts of a field."""
    return one.strip() == other.strip()


def _text(field: Field, text: str, setting: Setting) -> str:
    return name_of(text, field.label.lower(), longest=field.longest)


def _choice(field: Field, text: str, setting: Setting) -> str:
    if text not in field.options:
        raise NotUnderstood(f"{plain(text)!r} is no choice. Understood: {', '.join(field.options)}.")
    return text


def _yes(field: Field, text: str, setting: Setting) -> bool:
    if text not in field.words:
        raise NotUnderstood(f"{plain(text)!r} is neither yes nor no.")
    return text == "yes"


def _day(field: Field, text: str, setting: Setting) -> date:
    return clock.parse_day(text, setting.today)


def _count(field: Field, text: str, setting: Setting) -> int:
    digits = text.strip()
    if not (digits.isascii() and digits.isdigit()) or int(digits) > LARGEST_COUNT:
        raise NotUnderstood(f"{plain(digits)!r} is no count. Understood: a whole number, such as 30.")
    if int(digits) == 0 and not field.zero_ok:
        raise NotUnderstood("0 is no count. Understood: 1 or more, or nothing at all.")
    return int(digits)


def _measure(dimension: Dimension) -> Callable[[Field, str, Setting], Measured]:
    def read(field: Field, text: str, setting: Setting) -> Measured:
        return Measured(dimension.parse(text, setting.measures, zero_ok=field.zero_ok), text.strip())

    return read


def _money(field: Field, text: str, setting: Setting) -> Measured:
    return Measured(parse_money(text, setting.measures, zero_ok=field.zero_ok), text.strip())


def _price(field: Field, text: str, setting: Setting) -> TypedPrice:
    return TypedPrice(parse_price(text, setting.measures), text.strip())


def day_words(day: date) -> str:
    """A day as it is read: `Sun 3 May 2026`."""
    return f"{day:%a} {day.day} {day:%b} {day.year}"


READERS: Mapping[Kind, Callable[[Field, str, Setting], Any]] = {
    Kind.TEXT: _text,
    Kind.NAME: _text,
    Kind.CHOICE: _choice,
    Kind.YES: _yes,
    Kind.DAY: _day,
    Kind.MASS: _measure(MASS),
    Kind.VOLUME: _measure(VOLUME),
    Kind.AREA: _measure(AREA),
    Kind.LENGTH: _measure(LENGTH),
    Kind.MONEY: _money,
    Kind.PRICE: _price,
    Kind.COUNT: _count,
}
ECHOES: Mapping[Kind, Callable[[Any, Setting], str]] = {
    Kind.NAME: lambda value, setting: plain(str(value)),
    Kind.DAY: lambda value, setting: day_words(value),
    Kind.MASS: lambda value, setting: MASS.show(value.exact, setting.measures),
    Kind.VOLUME: lambda value, setting: VOLUME.show(value.exact, setting.measures),
    Kind.AREA: lambda value, setting: AREA.show(value.exact, setting.measures),
    Kind.LENGTH: lambda value, setting: LENGTH.show(value.exact, setting.measures),
    Kind.MONEY: lambda value, setting: show_money(value.exact, setting.measures),
    Kind.PRICE: lambda value, setting: show_price(value.price, setting.measures),
}
EXAMPLES: Mapping[Kind, Callable[[Measures], tuple[str, ...]]] = {
    Kind.DAY: lambda measures: ("mon", "-2", "3 may"),
    Kind.MASS: lambda measures: _spread(MASS.examples(measures)[1:]),
    Kind.VOLUME: lambda measures: _spread(VOLUME.examples(measures)),
    Kind.AREA: lambda measures: _spread(AREA.examples(measures)),
    Kind.LENGTH: lambda measures: _spread(LENGTH.examples(measures)),
    Kind.MONEY: lambda measures: money_examples(measures)[1:3],
    Kind.PRICE: lambda measures: price_examples(measures)[:1],
}


def _spread(examples: tuple[str, ...]) -> tuple[str, ...]:
    """The first and the last of the examples."""
    return (examples[0], examples[-1])
