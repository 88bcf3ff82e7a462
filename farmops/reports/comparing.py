"""Which of two is better: like crops against like, else value per area, with a plain verdict."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from datetime import date, timedelta
from fractions import Fraction

from farmops.economics.comparison import Comparison, Verdict, compare
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.figures import Figure, given, missing, quotient, worked
from farmops.model.errors import Refused
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.returns import Asked, UnitReturns, in_span
from farmops.reports.spans import Span, span_of
from farmops.reports.weeks import WEEK, Plot, Series, Weeks

FEWEST_IN_COMMON = 8
YIELD, VALUE = "mg per mm2", "minor per mm2"
VALUE_PER_AREA = "value per area"


@dataclass(frozen=True, slots=True)
class Compared:
    """Two per area and week, over `weeks` weeks: of the same weeks where `paired`.

    `what` is a crop or `value per area`, `unit` the unit of all its numbers; `result` None goes with a reason. The
    `series` and the numbers of the `compared_weeks` in them are what both a week follow from.
    """

    what: str
    unit: str
    first: str
    second: str
    first_a_week: float
    second_a_week: float
    paired: bool
    result: Comparison | None
    series: tuple[Series, Series] = field(repr=False)
    compared_weeks: tuple[Sequence[int], Sequence[int]] = field(repr=False)
    reason: str | None = None

    @property
    def verdict(self) -> Verdict:
        """The plain answer."""
        return self.result.verdict if self.result else Verdict.TOO_LITTLE

    @property
    def weeks(self) -> int:
        """Weeks it rests on: those of the one with fewer."""
        return self.result.weeks if self.result else 0

    @property
    def better(self) -> str | None:
        """The name of the one that is clearly better."""
        if self.result is None or self.result.interval is None or not self.result.interval.excludes_zero:
            return None
        return self.first if self.result.interval.difference > 0 else self.second

    @property
    def more(self) -> tuple[float, float] | None:
        """By how much the one with more lies ahead over the weeks compared, from and to, per area."""
        if self.result is None or self.result.interval is None:
            return None
        ends = (self.result.interval.low * self.weeks, self.result.interval.high * self.weeks)
        return ends if self.result.interval.difference >= 0 else (-ends[1], -ends[0])

    def a_week(self, span: Span) -> tuple[Figure, Figure]:
        """What each of the two brought in a week of the span, as figures."""
        first, second = (
            _a_week(self, series, weeks, span) for series, weeks in zip(self.series, self.compared_weeks, strict=True)
        )
        return first, second


def _a_week(one: Compared, series: Series, weeks: Sequence[int], span: Span) -> Figure:
    """The mean of weeks, each what was weighed in it, or its worth, by the area that stood there."""
    name = f"{one.what} of {series.name} a week"
    if not weeks:
        return missing(name, one.unit, one.reason or "no week to compare")
    parts = [_week(span.first + timedelta(days=WEEK * week), *series.made_of[week], one.unit) for week in weeks]
    formula = f"the mean of {len(parts)} weeks"
    return worked(name, one.unit, parts, formula, lambda values: Fraction(sum(values)) / len(values))


def _week(first: date, amount: float, area: int, unit: str) -> Figure:
    of, words = ("mg", "produce that counts") if unit == YIELD else ("minor", "what it is worth at the list price")
    whole = given(words, Fraction(amount), of, f"weighed from {first} to {first + timedelta(days=WEEK - 1)}")
    stood = given("area", area, "mm2", "what stood, or the beds of an active unit")
    return quotient(f"week from {first}", unit, whole, stood, f"{words} ÷ area", nothing="no bed area")


@dataclass(frozen=True, slots=True)
class Comparisons:
    """Two compared in a span: crop by crop where both grew it, and by the value of all their produce.

    Of two units, `beside` is what each brought and cost.
    """

    settings: Farm
    span: Span
    first: str
    second: str
    lines: tuple[Compared, ...]
    beside: tuple[UnitReturns, UnitReturns] | None = None

    def figures(self) -> list[Figure]:
        """What both brought in a week, line by line, then what each brought and cost."""
        weeks = [figure for one in self.lines for figure in one.a_week(self.span)]
        return [*weeks, *(figure for one in self.beside or () for figure in one.figures().values())]


def compare_two(store: Store, asked: Asked, first: str, second: str, crop: str | None = None) -> Comparisons:
    """Two units, beds or crops by name. Raises NotFound, and Refused for one against itself."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        weeks = Weeks(reader, span_of(reader, asked.first, asked.last, asked.today))
        one, other = weeks.plot(first), weeks.plot(second)
        if one.name == other.name:
            raise Refused(f"{one.name} cannot be compared with itself. Name two units, beds or crops.")
        lines = tuple(_lines(weeks, one, other, crop))
        codes = {unit.code for unit in weeks.units}
        beside = None
        if {one.name, other.name} <= codes:
            found = {line.unit: line for line in in_span(store, reader, farm, weeks.span, asked.basis).units}
            beside = (found[one.name], found[other.name])
        return Comparisons(farm, weeks.span, one.name, other.name, lines, beside)


def _lines(weeks: Weeks, one: Plot, other: Plot, crop: str | None) -> Iterator[Compared]:
    if crop is not None:
        found = weeks.crop_called(crop)
        yield compared(found.name, YIELD, weeks.of_crop(one, found.id), weeks.of_crop(other, found.id))
        return
    both = weeks.grown_in(one) & weeks.grown_in(other)
    for like in weeks.crops:
        if like.id in both:
            yield compared(like.name, YIELD, weeks.of_crop(one, like.id), weeks.of_crop(other, like.id))
    yield compared(VALUE_PER_AREA, VALUE, weeks.value(one), weeks.value(other))


def compared(what: str, unit: str, first: Series, second: Series) -> Compared:
    """Week for week where both have enough weeks in common, else each by its own weeks."""
    common = [week for week in first.by_week if week in second.by_week]
    paired = len(common) >= FEWEST_IN_COMMON or (bool(common) and _few(first, second))
    chosen = (common, common) if paired else (tuple(first.by_week), tuple(second.by_week))
    ones, others = ([one.by_week[week] for week in weeks] for one, weeks in zip((first, second), chosen, strict=True))
    lacking = next((f"{one.name}: {one.reason}" for one in (first, second) if one.reason), None)
    reason = lacking or _nothing(what, first, second)
    result = None if reason else compare(ones, others, paired=paired)
    both = (first, second)
    means = (_mean(ones), _mean(others))
    return Compared(what, unit, first.name, second.name, *means, paired, result, both, chosen, reason)


def _few(first: Series, second: Series) -> bool:
    return min(len(first.by_week), len(second.by_week)) < FEWEST_IN_COMMON


def _nothing(what: str, first: Series, second: Series) -> str | None:
    for one in (first, second):
        if not any(one.weeks):
            return f"{one.name}: nothing that counts was weighed" + ("" if what == VALUE_PER_AREA else f" of {what}")
    return None


def _mean(values: list[float]) -> float:
    return sum(values) / len(values) if values else 0.0
