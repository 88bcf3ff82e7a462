"""Lists of what belongs to the water: instruments, own limits, doses, sources, top-ups, and how cycling stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.instruments import Instrument, InstrumentCheck
from farmops.model.limits import OwnLimit
from farmops.model.water import Dose, SourceValue, TopUp, WaterSource
from farmops.quantities import VOLUME, Measures
from farmops.quantities.doses import show_dose
from farmops.quantities.readings import show_value
from farmops.reports import lists
from farmops.reports.cycling import CURVES, NEAR_NOTHING_MG_PER_L, Cycling
from farmops.reports.store import Store
from farmops.tui.widgets.listing_lines import Column, Line, Look
from farmops.tui.widgets.sparks import spark_text

LAW_FIRST = "Before fish come: local fish law and permits first, a few hardy fish, tempered slowly, and daily tests."
INSTRUMENT_COLUMNS = (
    Column("name", "name"),
    Column("reads", "reads", grow=True),
    Column("stands", "stands"),
    Column("note", "note", priority=1),
)
CHECK_COLUMNS = (
    Column("day", "day"),
    Column("instrument", "instrument", grow=True),
    Column("result", "result"),
    Column("against", "against"),
    Column("showed", "showed"),
    Column("note", "note", priority=1),
)
LIMIT_COLUMNS = (
    Column("from", "from"),
    Column("unit", "unit"),
    Column("measure", "of"),
    Column("wanted", "wanted", grow=True),
    Column("note", "note", priority=1),
)
DOSE_COLUMNS = (
    Column("day", "day"),
    Column("unit", "unit"),
    Column("what", "added", grow=True),
    Column("amount", "amount", align="right"),
    Column("why", "why"),
    Column("by", "by", priority=1),
    Column("note", "note", priority=2),
)
SOURCE_COLUMNS = (
    Column("name", "name"),
    Column("kind", "kind"),
    Column("like", "like", grow=True),
    Column("note", "note", priority=1),
)
TOP_UP_COLUMNS = (
    Column("day", "day"),
    Column("unit", "unit"),
    Column("volume", "volume", align="right"),
    Column("from", "from", grow=True),
    Column("note", "note", priority=1),
)


@dataclass(frozen=True, slots=True)
class Held:
    """An instrument with its last check, on a day."""

    instrument: Instrument
    last: InstrumentCheck | None
    on: date

    @property
    def stands(self) -> tuple[str, ...]:
        """What is to be known of it."""
        return self.instrument.stands(self.last, self.on)

    @property
    def bad(self) -> bool:
        """Whether somebody should see to it."""
        return any(word.startswith(("past", "failed", "due")) for word in self.stands)


@dataclass(frozen=True, slots=True)
class Source:
    """A source with what it is like now."""

    source: WaterSource
    values: tuple[SourceValue, ...]


def instruments(store: Store, today: date, unit: str | None) -> list[Held]:
    """Every instrument, those in service first."""
    last = {one.instrument_id: one for one in lists.instrument_checks(store)}
    found = [Held(one, last.get(one.id), today) for one in lists.instruments(store)]
    return sorted(found, key=lambda one: not one.instrument.serves(today))


def instrument_line(one: Held, measures: Measures) -> Line:
    """An instrument; one that somebody should see to stands out."""
    held = one.instrument
    cells = (held.name, ", ".join(held.reads), "; ".join(one.stands) or "in service", held.note or "")
    look: Look = "late" if one.bad else "normal" if held.serves(one.on) else "quiet"
    return Line(f"instruments {held.id}", cells, look=look, data=held)


def checks(store: Store, today: date, unit: str | None) -> list[InstrumentCheck]:
    """Every check, the latest first."""
    return lists.instrument_checks(store)[::-1]


def check_line(one: InstrumentCheck, measures: Measures) -> Line:
    """A check of an instrument."""
    result = "passed" if one.passed else "failed"
    cells = (str(one.day), one.instrument, result, one.against or "", one.showed or "", one.note or "")
    return Line(f"instrument checks {one.id}", cells, look="normal" if one.passed else "late", data=one)


def own_limits(store: Store, today: date, unit: str | None) -> list[OwnLimit]:
    """Own limits, the latest first."""
    return [one for one in lists.own_limits(store)[::-1] if unit is None or one.unit in (None, unit)]


def limit_line(one: OwnLimit, measures: Measures) -> Line:
    """A limit of the grower's own."""
    low, high = (None if value is None else show_value(value, one.measure, measures) for value in (one.low, one.high))
    wanted = f"{low} to {high}" if low and high else f"at least {low}" if low else f"at most {high}"
    cells = (str(one.from_day), one.unit or "all", one.measure.value, wanted, one.note or "")
    return Line(f"own limits {one.id}", cells, data=one)


def doses(store: Store, today: date, unit: str | None) -> list[Dose]:
    """What was added, the latest first."""
    return [one for one in lists.doses(store, date.min, date.max) if unit in (None, one.unit)]


def dose_line(one: Dose, measures: Measures) -> Line:
    """Something that was added."""
    amount = show_dose(one, measures)
    cells = (str(one.day), one.unit, one.what, amount, one.why or "", one.by or "", one.note or "")
    return Line(f"doses {one.id}", cells, data=one)


def sources(store: Store, today: date, unit: str | None) -> list[Source]:
    """Every source with what it is like today."""
    begun = [one for one in lists.source_values(store) if one.from_day <= today]
    return [Source(one, _now([x for x in begun if x.source_id == one.id])) for one in lists.sources(store)]


def _now(values: Iterable[SourceValue]) -> tuple[SourceValue, ...]:
    return tuple({one.measure: one for one in values}.values())


def source_line(one: Source, measures: Measures) -> Line:
    """A source."""
    like = ", ".join(f"{x.measure} {show_value(x.value, x.measure, measures)}" for x in one.values)
    held = one.source
    return Line(f"water sources {held.id}", (held.name, held.kind.value, like, held.note or ""), data=held)


def top_ups(store: Store, today: date, unit: str | None) -> list[TopUp]:
    """What was topped up, the latest first."""
    return [one for one in lists.top_ups(store, date.min, date.max) if unit in (None, one.unit)]


def top_up_line(one: TopUp, measures: Measures) -> Line:
    """Water that was put in."""
    volume = VOLUME.show(one.volume_ml, measures)
    source = f"{one.source}, {one.kind}" if one.source else ""
    return Line(f"top-ups {one.id}", (str(one.day), one.unit, volume, source, one.note or ""), data=one)


def cycling_words(one: Cycling) -> str:
    """How the cycling of a unit stands, in a line."""
    if one.ready:
        return "ready for fish, say the readings; local fish law first"
    rest = f" and {len(one.missing) - 1} more" if len(one.missing) > 1 else ""
    stall = "stands still: " if one.stalls else "not ready: "
    return f"{stall}{one.missing[0]}{rest}"


def cycling_lines(one: Cycling, measures: Measures, width: int) -> Iterator[str]:
    """The curves of a unit that cycles, what is missing, what stands still."""
    yield f"{one.unit}, day {one.day} of cycling, since {one.since}"
    yield ""
    for measure in CURVES:
        curve = one.curve(measure)
        if not curve:
            yield f"{measure:<8}  not read yet"
            continue
        drawn = spark_text([read.value for read in curve], max(10, min(60, width - 50)))
        last = curve[-1]
        value = f"{last.bound}{show_value(last.value, measure, measures)}"
        yield f"{measure:<8}  {drawn}  last {value} on {last.day}{', doubtful' if last.doubt else ''}"
    yield ""
    near = f"at most {NEAR_NOTHING_MG_PER_L} mg/L as N of ammonia and nitrite for {one.days_asked} days"
    yield from ([f"Ready for fish: {near}.", LAW_FIRST] if one.ready else ["Not ready for fish. Missing:"])
    yield from (f"  {words}" for words in one.missing)
    yield from (f"Stands still: {words}." for words in one.stalls)
    if not one.ready:
        yield f"Ready is {near}, and nitrate that climbs, read with an instrument that passed its check."


def wrapped(lines: Sequence[str], width: int) -> list[str]:
    """The lines, broken between words where they are too long."""
    from textwrap import wrap

    return [part for line in lines for part in (wrap(line, max(20, width), subsequent_indent="    ") or [""])]
