"""Numbers that explain themselves: value, unit of measure, formula in words, and the parts they came from."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from enum import StrEnum
from fractions import Fraction

from farmops.model.frozen import dataclass

Number = int | Fraction


class Made(StrEnum):
    """How a figure follows from its parts, so that every level can be added up again."""

    GIVEN = "given"
    RECORDS = "the sum of records"
    SUM = "the sum of its parts"
    DIFFERENCE = "the first part less the others"
    PRODUCT = "the product of its parts"
    QUOTIENT = "the first part divided by the second"
    SHARE = "a share of the first part"
    WORKED = "worked out from its parts by the formula"


@dataclass(frozen=True, slots=True)
class RecordLine:
    """One record under a figure: its kind and number, what it says, and the amount it adds."""

    kind: str
    id: int
    words: str
    amount: Number


@dataclass(frozen=True, slots=True)
class Records:
    """Records that a figure sums, fetched only when somebody looks."""

    kind: str
    count: int
    fetch: Callable[[], Sequence[RecordLine]] = field(repr=False, compare=False)

    def lines(self) -> Sequence[RecordLine]:
        """The records themselves."""
        return self.fetch()


@dataclass(frozen=True, slots=True)
class Figure:
    """A computed number, or the reason why there is none.

    `unit` names the unit of storage (`minor`, `mg`, `mm2`, `days`, `minor per mg`, ...); whoever shows it converts.
    `value` None goes with a `reason`. `note` says what a reader should know beside the number. `again` works one out
    from the values of its parts where no plain arithmetic does.
    """

    name: str
    value: Number | None
    unit: str
    made: Made
    formula: str
    parts: tuple[Figure, ...] = ()
    records: Records | None = None
    reason: str | None = None
    note: str | None = None
    source: str | None = None
    again: Callable[[Sequence[Number]], Number] | None = field(default=None, repr=False, compare=False)

    def walk(self) -> Iterator[Figure]:
        """This figure and all below it."""
        yield self
        for part in self.parts:
            yield from part.walk()

    def adds_up(self) -> bool:
        """Whether the value follows from the parts, or from the records, as `made` says."""
        if self.value is None:
            return self.reason is not None
        return CHECKS[self.made](self)


def given(name: str, value: Number, unit: str, formula: str, *, source: str | None = None) -> Figure:
    """A number that stands for itself."""
    return Figure(name, value, unit, Made.GIVEN, formula, source=source)


def missing(name: str, unit: str, reason: str, *parts: Figure) -> Figure:
    """No number, and why."""
    return Figure(name, None, unit, Made.GIVEN, reason, parts=parts, reason=reason)


def of_records(name: str, value: Number, unit: str, formula: str, records: Records, note: str | None = None) -> Figure:
    """The sum of records."""
    return Figure(name, value, unit, Made.RECORDS, formula, records=records, note=note)


def total(name: str, unit: str, parts: Sequence[Figure], formula: str, note: str | None = None) -> Figure:
    """The sum of parts; a part without a value makes the sum missing."""
    gap = next((part for part in parts if part.value is None), None)
    if gap is not None:
        return missing(name, unit, gap.reason or f"{gap.name} is missing", *parts)
    value = sum((part.value for part in parts if part.value is not None), start=0)
    return Figure(name, value, unit, Made.SUM, formula, parts=tuple(parts), note=note)


def difference(name: str, unit: str, whole: Figure, less: Figure, formula: str) -> Figure:
    """The first figure less the second."""
    if whole.value is None or less.value is None:
        gap = whole if whole.value is None else less
        return missing(name, unit, gap.reason or f"{gap.name} is missing", whole, less)
    return Figure(name, whole.value - less.value, unit, Made.DIFFERENCE, formula, parts=(whole, less))


def quotient(
    name: str, unit: str, above: Figure, below: Figure, formula: str, *, nothing: str, note: str | None = None
) -> Figure:
    """The first figure divided by the second; `nothing` says why when the second is zero."""
    if above.value is None or below.value is None:
        gap = above if above.value is None else below
        return missing(name, unit, gap.reason or f"{gap.name} is missing", above, below)
    if below.value == 0:
        return missing(name, unit, nothing, above, below)
    value = Fraction(above.value, below.value)
    return Figure(name, value, unit, Made.QUOTIENT, formula, parts=(above, below), note=note)


def worked(
    name: str,
    unit: str,
    parts: Sequence[Figure],
    formula: str,
    again: Callable[[Sequence[Number]], Number],
    *,
    note: str | None = None,
    source: str | None = None,
) -> Figure:
    """A number that a function works out from the values of the parts, such as a growth rate."""
    gap = next((part for part in parts if part.value is None), None)
    if gap is not None:
        return missing(name, unit, gap.reason or f"{gap.name} is missing", *parts)
    value = again([part.value for part in parts if part.value is not None])
    return Figure(name, value, unit, Made.WORKED, formula, tuple(parts), note=note, source=source, again=again)


def share(
    name: str, value: int, whole: Figure, parts: Sequence[Figure], formula: str, note: str | None = None
) -> Figure:
    """A part of a whole that was shared out; `parts` are what it was shared by (own weight, all weights)."""
    return Figure(name, value, whole.unit, Made.SHARE, formula, parts=(whole, *parts), note=note)


def _values(figure: Figure) -> list[Number]:
    return [part.value for part in figure.parts if part.value is not None]


def _records_add_up(figure: Figure) -> bool:
    if figure.records is None:
        return False
    lines = figure.records.lines()
    return len(lines) == figure.records.count and sum(line.amount for line in lines) == figure.value


def _share_adds_up(figure: Figure) -> bool:
    """Within one smallest unit of the exact share: shares are whole and sum to the whole."""
    whole, own, everyone = (Fraction(value) for value in _values(figure)[:3])
    return everyone != 0 and abs(Fraction(figure.value or 0) - whole * own / everyone) < 1


def _worked_again(figure: Figure) -> bool:
    return figure.again is not None and figure.again(_values(figure)) == figure.value


def _product(values: Sequence[Number]) -> Fraction:
    result = Fraction(1)
    for value in values:
        result *= value
    return result


CHECKS: dict[Made, Callable[[Figure], bool]] = {
    Made.GIVEN: lambda figure: not figure.parts,
    Made.RECORDS: _records_add_up,
    Made.SUM: lambda figure: sum(_values(figure)) == figure.value,
    Made.DIFFERENCE: lambda figure: _values(figure)[0] - sum(_values(figure)[1:]) == figure.value,
    Made.PRODUCT: lambda figure: _product(_values(figure)) == figure.value,
    Made.QUOTIENT: lambda figure: Fraction(_values(figure)[0]) / Fraction(_values(figure)[1]) == figure.value,
    Made.SHARE: _share_adds_up,
    Made.WORKED: _worked_again,
}
