"""What should hold still and moves: cycle times against what was usual, and what rises or falls steadily."""

from __future__ import annotations

from datetime import date

from farmops.economics.drift import FEWEST_OF_BASELINE, Moving
from farmops.economics.trends import FEW, mann_kendall, median_slope
from farmops.facts import farm as farm_facts
from farmops.facts.drifting import Series, series
from farmops.facts.reading import Store
from farmops.model.frozen import dataclass
from farmops.model.notes import Changed
from farmops.model.readings import READ_IN, TEMPERATURES, Measure
from farmops.quantities import Measures
from farmops.quantities.drifting import NO_CYCLE_WORDS, drift_brief, drift_words
from farmops.quantities.readings import show_number
from farmops.reports.places import unit_named

FEWEST_FOR_A_TREND = 8
"""Fewer readings say nothing of a steady rise. Common practice: US EPA 530/R-09-007, 17.3.2, asks for 8 to 10."""
CHANCE = 0.05
"""How likely chance alone may make such a rise. Common practice."""
DAYS_A_WEEK = 7
NO_TREND = "No steady rise or fall."


@dataclass(frozen=True, slots=True)
class DriftLine:
    """One measure of one unit: its latest reading, how it stands against what is usual, and where it goes.

    `brief` says in a few words where it moves, nothing where it holds still.
    `usual` is the band of single readings, None where it is not told or not known yet; `side` 1 above, -1 below, 0
    within, None with `usual`; `running` counts readings in a row there. `per_week` is the slope of a steady rise or
    fall, None where there is none. Values are in the unit of the measure.
    """

    unit_id: int
    unit: str
    measure: Measure
    day: date
    value: float
    readings: int
    since: date | None
    changed: Changed | None
    usual: tuple[float, float] | None
    side: int | None
    running: int
    per_week: float | None
    words: str
    trend: str
    dribbling: bool = False
    brief: str = ""

    @property
    def told(self) -> str:
        """All that is said of it."""
        return " ".join(words for words in (self.words, self.trend) if words)

    @property
    def moves(self) -> bool:
        """Whether there is something to look after: away from what is usual, or steadily on the way."""
        return bool(self.side) or self.per_week is not None or self.dribbling


def drift_of(store: Store, on: date | None = None, unit: str | None = None) -> list[DriftLine]:
    """Every measure that was read, of one unit or of all, in walking order. Raises NotFound for an unknown unit."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        code = unit_named(reader, unit.strip().upper()).code if unit is not None else None
        found = series(reader, on or farm.today())
        return [line_of(one, farm.measures) for one in found if code in (None, one.unit)]


def line_of(one: Series, measures: Measures) -> DriftLine:
    """How one series moves, in words."""
    found = one.moving
    per_week = steady_per_week(one.timed)
    dribbling = one.dribbling is not None
    return DriftLine(
        unit_id=one.unit_id,
        unit=one.unit,
        measure=one.measure,
        day=one.days[-1],
        value=one.values[-1],
        readings=len(one.values),
        since=one.since,
        changed=one.changed,
        usual=(found.usual.low, found.usual.high) if found else None,
        side=found.side if found else None,
        running=found.running if found else 0,
        per_week=per_week,
        words=NO_CYCLE_WORDS if dribbling else _words(one, found, measures),
        trend=_trend_words(one, per_week, measures),
        dribbling=dribbling,
        brief="no cycle" if dribbling else _brief(one, found, per_week, measures),
    )


def _words(one: Series, found: Moving | None, measures: Measures) -> str:
    if not one.cycling:
        return ""
    if found is None:
        missing = FEWEST_OF_BASELINE - len(one.timed)
        return f"{missing} more {'reading tells' if missing == 1 else 'readings tell'} what is usual."
    usual = (found.usual.low, found.usual.high)
    return drift_words(one.measure, one.timed[-1][1], usual, found.side, found.running, measures)


def _brief(one: Series, found: Moving | None, per_week: float | None, measures: Measures) -> str:
    """The same in a few words: away from what is usual, else on the way."""
    if found is not None and found.side:
        usual = (found.usual.low, found.usual.high)
        return drift_brief(one.measure, usual, found.side, found.running, measures)
    if per_week is None:
        return ""
    return f"{'rises' if per_week > 0 else 'falls'} by {_a_week(abs(per_week), one.measure, measures)} a week"


def steady_per_week(timed: list[tuple[date, float]]) -> float | None:
    """The slope of the latest readings where they rise or fall steadily, in their unit per week; else None.

    What has read the same eight times in a row has come to rest, wherever it came from.
    """
    latest = timed[-FEW:]
    if len(latest) < FEWEST_FOR_A_TREND or len({day for day, _ in latest}) < FEWEST_FOR_A_TREND:
        return None
    if len({value for _, value in latest[-FEWEST_FOR_A_TREND:]}) == 1:
        return None
    if mann_kendall([value for _, value in latest]).probability >= CHANCE:
        return None
    return median_slope([day.toordinal() / DAYS_A_WEEK for day, _ in latest], [value for _, value in latest]) or None


def _trend_words(one: Series, per_week: float | None, measures: Measures) -> str:
    if per_week is None:
        return NO_TREND if len(one.timed) >= FEWEST_FOR_A_TREND else ""
    how = "rises" if per_week > 0 else "falls"
    return f"It {how} steadily, by about {_a_week(abs(per_week), one.measure, measures)} a week."


def _rough(step: float) -> float:
    """Two digits that mean something."""
    return float(f"{step:.2g}")


def _a_week(step: float, measure: Measure, measures: Measures) -> str:
    """A difference is no value: degrees have no zero in common, the rest is shown in the unit of storage."""
    if measure in TEMPERATURES and measures.temperature == "F":
        return f"{show_number(_rough(step * 9 / 5), measures)} °F"
    unit = "°C" if measure in TEMPERATURES else READ_IN[measure]
    return f"{show_number(_rough(step), measures)} {unit}".strip()
