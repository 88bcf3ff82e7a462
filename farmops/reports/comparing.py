"""Which of two is better: like crops against like, else value per area, with a plain verdict."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.economics.comparison import Comparison, Verdict, compare
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.model.errors import Refused
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.returns import Asked, UnitReturns, in_span
from farmops.reports.spans import Span, span_of
from farmops.reports.weeks import Plot, Series, Weeks

FEWEST_IN_COMMON = 8
YIELD, VALUE = "mg per mm2", "minor per mm2"
VALUE_PER_AREA = "value per area"


@dataclass(frozen=True, slots=True)
class Compared:
    """Two per area and week, over `weeks` weeks: of the same weeks where `paired`.

    `what` is a crop or `value per area`, `unit` the unit of all its numbers; `result` None goes with a reason.
    """

    what: str
    unit: str
    first: str
    second: str
    first_a_week: float
    second_a_week: float
    paired: bool
    result: Comparison | None
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
    ones, others = ([one.by_week[week] for week in common] if paired else list(one.weeks) for one in (first, second))
    missing = next((f"{one.name}: {one.reason}" for one in (first, second) if one.reason), None)
    reason = missing or _nothing(what, first, second)
    result = None if reason else compare(ones, others, paired=paired)
    return Compared(what, unit, first.name, second.name, _mean(ones), _mean(others), paired, result, reason)


def _few(first: Series, second: Series) -> bool:
    return min(len(first.by_week), len(second.by_week)) < FEWEST_IN_COMMON


def _nothing(what: str, first: Series, second: Series) -> str | None:
    for one in (first, second):
        if not any(one.weeks):
            return f"{one.name}: nothing that counts was weighed" + ("" if what == VALUE_PER_AREA else f" of {what}")
    return None


def _mean(values: list[float]) -> float:
    return sum(values) / len(values) if values else 0.0
