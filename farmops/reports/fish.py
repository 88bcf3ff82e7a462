"""A fish lot on a day: number, weight, density, survival, feed conversion and growth, as figures down to the events."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from fractions import Fraction

from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import readings as reading_facts
from farmops.facts import units as unit_facts
from farmops.facts.live_fish import live_on
from farmops.facts.populations import Step, lives
from farmops.facts.reading import Reader, Store
from farmops.figures import (
    Figure,
    RecordLine,
    Records,
    difference,
    given,
    missing,
    of_records,
    quotient,
    total,
    worked,
)
from farmops.model.errors import NotFound, OutOfRange
from farmops.model.farm import Farm
from farmops.model.fish import FishLot
from farmops.model.fish_events import Feeding, Happened
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest
from farmops.model.readings import Measure
from farmops.reports.growth import (
    MG_PER_G,
    Ahead,
    Interval,
    Reached,
    Weighed,
    ahead,
    daily_temperatures,
    expected,
    last_interval,
    reached,
    weighings,
)
from farmops.science.fish import (
    MeanWeight,
    degree_days,
    project_by_sgr,
    specific_growth_rate,
    thermal_growth_coefficient,
)

IN = (Happened.STOCKED, Happened.MOVED_IN)
OUT_ALIVE = (Happened.HARVESTED, Happened.MOVED_OUT)
GONE = (*OUT_ALIVE, Happened.DIED)
TABLES = {
    Happened.STOCKED: "fish lot",
    Happened.SAMPLED: "sample",
    Happened.MOVED_IN: "transfer",
    Happened.MOVED_OUT: "transfer",
    Happened.DIED: "loss",
    Happened.HARVESTED: "weighing",
}
ONCE = "weighed on one day alone: weigh a sample on another"
SGR_SOURCE = "Marquez et al. (2024), Front. Mar. Sci. 11:1332912"
TGC_SOURCE = "Iwama, Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656"
FCR_SOURCE = "Somerville et al. (2014), FAO Fish. Aquac. Tech. Paper 589"


@dataclass(frozen=True, slots=True)
class LotOnDay:
    """What is known of a lot on a day. `figures` by the names that `farmops fish grow --why` takes."""

    farm: Farm
    lot: FishLot
    on: date
    unit: str | None
    figures: dict[str, Figure]
    weighed: tuple[Weighed, ...]
    ahead: tuple[Ahead, ...]
    reached: Reached | None = None

    def figure(self, name: str) -> Figure:
        """The figure of a name. Raises NotFound."""
        if name not in self.figures:
            raise NotFound(f"There is no figure {name}. Known: {', '.join(self.figures)}.")
        return self.figures[name]


def lot_on_day(store: Store, lot_id: int, on: date | None = None, target_mg: int | None = None) -> LotOnDay:
    """Everything about a lot at the end of a day, and when one fish weighs `target_mg`. Raises NotFound."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        lot = fish_facts.lot(reader, lot_id)
        if lot is None:
            raise NotFound(f"There is no fish lot {lot_id}.")
        day = on or farm.today()
        life = lives(reader, [lot_id]).get(lot_id)
        steps = life.until(day) if life else ()
        if not steps:
            raise NotFound(f"{lot.code} was stocked on {lot.stocked_day}: nothing is known of it on {day}.")
        unit_id = fish_facts.unit_on(reader, lot_id, day)
        unit = unit_facts.unit(reader, unit_id) if unit_id is not None else None
        interval = last_interval(steps)
        figures = _figures(reader, lot, steps, interval, day, unit_id)
    ends = tuple(ahead(interval))
    goal = reached(interval, target_mg) if target_mg is not None else None
    return LotOnDay(farm, lot, day, unit.code if unit else None, figures, tuple(weighings(steps)), ends, goal)


def _figures(
    reader: Reader, lot: FishLot, steps: Sequence[Step], interval: Interval | None, day: date, unit_id: int | None
) -> dict[str, Figure]:
    came = _summed("fish that came in", "fish", steps, IN, _number)
    died = _summed("fish that died", "fish", steps, (Happened.DIED,), _number)
    number = difference("fish alive", "fish", came, _gone(steps), "came in - gone")
    biomass = _biomass(steps)
    mean = quotient("weight of one", "mg", biomass, number, "biomass ÷ fish alive", nothing="none are left")
    feed = _feed(steps, event_facts.feedings(reader, lot.id))
    gain = _gain(steps)
    alive = difference("came in and did not die", "fish", came, died, "came in - died")
    lost = "nothing was gained between stocking and the last weighing"
    return {
        "number": number,
        "weight": mean,
        "weight-error": _error(steps),
        "weight-today": _weight_today(interval, day),
        "biomass": biomass,
        "density": _density(reader, unit_id, day, lot, biomass),
        "survival": quotient("survival", "share", alive, came, "did not die ÷ came in", nothing="none came in"),
        "feed": feed,
        "gain": gain,
        "feed-conversion": _conversion(feed, gain, lost),
        "sgr": _sgr(interval),
        "tgc": _tgc(reader, interval, unit_id),
        "dressing-yield": _dressing(harvest_facts.of_lot(reader, lot.id), day),
    }


def _number(step: Step) -> int:
    return step.event.number or 0


def _gone(steps: Sequence[Step]) -> Figure:
    found = _summed("fish that are gone", "fish", steps, GONE, _number)
    uncounted = [step for step in steps if step.event.kind in GONE and step.event.number is None]
    if not uncounted:
        return found
    note = f"{len(uncounted)} weighings of fish were not counted: correct them, or the number is too high."
    return of_records(found.name, found.value or 0, "fish", found.formula, found.records or _none(), note)


def _none() -> Records:
    return Records("event", 0, tuple)


def _summed(
    name: str, unit: str, steps: Iterable[Step], kinds: tuple[Happened, ...], amount: Callable[[Step], int]
) -> Figure:
    """The sum over all that happened of some kinds, down to each of them."""
    found = [step for step in steps if step.event.kind in kinds]
    lines = [_line(step, amount(step)) for step in found]
    words = ", ".join(kinds)
    return of_records(name, sum(one.amount for one in lines), unit, words, _records(lines))


def _line(step: Step, amount: int) -> RecordLine:
    event = step.event
    many = "" if event.number is None else f" {event.number}"
    return RecordLine(TABLES[event.kind], event.id, f"{event.day} {event.kind}{many}", amount)


def _records(lines: Sequence[RecordLine]) -> Records:
    return Records("event", len(lines), lambda: lines)


def _biomass(steps: Sequence[Step]) -> Figure:
    """What each event added to the weight that is known, a weighing by weighing them anew."""
    before = [0, *(step.after.biomass_mg for step in steps)]
    lines = [_line(step, step.after.biomass_mg - held) for step, held in zip(steps, before, strict=False)]
    formula = "what came, went, and was found by weighing; no growth is counted before it is weighed"
    return of_records("biomass", steps[-1].after.biomass_mg, "mg", formula, _records(lines))


def _error(steps: Sequence[Step]) -> Figure:
    held = steps[-1].after
    if held.se_mg is None:
        return missing("standard error", "mg", "no sample was weighed one by one since")
    formula = f"standard deviation ÷ square root of the number, of {held.sampled} fish weighed on {held.weighed_day}"
    return given("standard error", round(held.se_mg), "mg", formula)


def _weight_today(interval: Interval | None, day: date) -> Figure:
    name = "weight of one by now"
    if interval is None:
        return missing(name, "mg", ONCE)
    try:
        expected(interval, day)
    except OutOfRange as error:
        return missing(name, "mg", str(error))
    mean = _weighing("weight when last weighed", interval.end)
    days = given("days since", (day - interval.end.day).days, "days", f"{interval.end.day} to {day}")
    note = "an estimate: growth goes on as between the last two weighings"
    formula = "weight × e ^ (growth rate × days ÷ 100)"
    return worked(name, "mg", (mean, _sgr(interval), days), formula, _grown, note=note)


def _grown(values: Sequence[int | Fraction]) -> int:
    mean, rate, days = (float(value) for value in values)
    return round(project_by_sgr(MeanWeight(mean / MG_PER_G, 1), rate, days).mean_g * MG_PER_G)


def _weighing(name: str, one: Weighed) -> Figure:
    how = f"{one.fish} fish weighed" if one.fish else "by stocking or transfer"
    return given(name, one.mean_mg, "mg", f"{one.day}, {how}")


def _density(reader: Reader, unit_id: int | None, day: date, lot: FishLot, biomass: Figure) -> Figure:
    """All fish of the unit in its tank."""
    name = "fish in the tank"
    unit = unit_facts.unit(reader, unit_id) if unit_id is not None else None
    if unit is None or not unit.tank_ml:
        where = unit.code if unit else "its unit"
        return missing(name, "mg per ml", f"the tank of {where} has no volume yet")
    others = [one for one in live_on(reader, day) if one.unit_id == unit.id and one.lot_id != lot.id]
    parts = [biomass, *(given(one.code, one.number * one.mean_mg, "mg", "number × mean weight") for one in others)]
    fish = total("all fish of the unit", "mg", parts, "its lots together")
    tank = given("tank", unit.tank_ml, "ml", unit.code)
    return quotient(name, "mg per ml", fish, tank, "all fish ÷ tank volume", nothing="the tank has no volume")


def _last_known(steps: Sequence[Step]) -> date | None:
    """The last day on which the weight of all that is left was found out: weighed, or none left."""
    known = [step for step in steps if step.event.kind is Happened.SAMPLED or step.after.number == 0]
    after = [step.event.day for step in known if step.event.day > steps[0].event.day]
    return after[-1] if after else None


def _feed(steps: Sequence[Step], feedings: Sequence[Feeding]) -> Figure:
    """What was fed before the weighing that the gain rests on."""
    end = _last_known(steps)
    if end is None:
        return missing("feed", "mg", "not weighed since stocking")
    before = [one for one in feedings if one.day < end]
    if not before:
        return missing("feed", "mg", "no feeding is booked")
    lines = [RecordLine("feeding", one.id, f"{one.day} {one.mass_typed}", one.mass_mg) for one in before]
    booked, days = len({one.day for one in before}), (end - steps[0].event.day).days
    note = f"feedings are booked on {booked} of {days} days"
    formula = f"fed before the weighing of {end}"
    fed = Records("feeding", len(lines), lambda: lines)
    return of_records("feed", sum(one.amount for one in lines), "mg", formula, fed, note)


def _gain(steps: Sequence[Step]) -> Figure:
    end = _last_known(steps)
    if end is None:
        return missing("gain", "mg", "not weighed since stocking")
    until = [step for step in steps if step.event.day <= end]
    there = given(f"biomass on {end}", until[-1].after.biomass_mg, "mg", "as weighed")
    taken = _summed("taken out alive", "mg", until, OUT_ALIVE, _weight_out)
    came = _summed("came in", "mg", until, IN, lambda step: step.mass_mg)
    grown = total("there and taken out", "mg", (there, taken), "biomass + taken out alive")
    return difference("gain", "mg", grown, came, "there and taken out - came in; fish that died count as no gain")


def _weight_out(step: Step) -> int:
    """What fish weighed when they were taken out: on the scale at a harvest."""
    event = step.event
    return event.mass_mg if event.kind is Happened.HARVESTED and event.mass_mg is not None else step.mass_mg


def _dressing(harvests: Sequence[Harvest], day: date) -> Figure:
    """What was left of the fish that were weighed whole and gutted."""
    name = "dressing yield"
    both = [(one, one.dressed_mg) for one in harvests if one.day <= day and one.dressed_mg is not None]
    if not both:
        return missing(name, "share", "no fish were weighed whole and dressed")
    whole = [RecordLine("weighing", one.id, f"{one.day} {one.mass_typed}", one.mass_mg) for one, _ in both]
    gutted = [RecordLine("weighing", one.id, f"{one.day} {one.dressed_typed}", mg) for one, mg in both]
    above, below = (
        of_records(words, sum(line.amount for line in lines), "mg", words, _records(lines))
        for words, lines in (("dressed", gutted), ("whole", whole))
    )
    return quotient(name, "share", above, below, "dressed ÷ whole", nothing="they weighed nothing whole")


def _conversion(feed: Figure, gain: Figure, nothing: str) -> Figure:
    name = "feed conversion"
    if gain.value is not None and gain.value <= 0:
        return missing(name, "ratio", nothing, feed, gain)
    note = f"{feed.note}; feed ÷ gain as in {FCR_SOURCE}"
    return quotient(name, "ratio", feed, gain, "feed ÷ gain", nothing=nothing, note=note)


def _sgr(interval: Interval | None) -> Figure:
    name = "specific growth rate"
    if interval is None:
        return missing(name, "% a day", ONCE)
    parts = (
        _weighing("weight before", interval.start),
        _weighing("weight after", interval.end),
        given("days between", interval.days, "days", f"{interval.start.day} to {interval.end.day}"),
    )
    formula = "100 × (ln weight after - ln weight before) ÷ days"
    return worked(name, "% a day", parts, formula, _sgr_again, source=SGR_SOURCE)


def _sgr_again(values: Sequence[int | Fraction]) -> Fraction:
    before, after, days = (float(value) for value in values)
    return Fraction(specific_growth_rate(before / MG_PER_G, after / MG_PER_G, days))


def _tgc(reader: Reader, interval: Interval | None, unit_id: int | None) -> Figure:
    name = "thermal growth coefficient × 1000"
    if interval is None:
        return missing(name, "ratio", ONCE)
    first, last = interval.start.day, interval.end.day
    read = reading_facts.readings(reader, first, last, unit_id, Measure.TEMPERATURE)
    try:
        days = degree_days(daily_temperatures(read, first, last))
    except OutOfRange as error:
        return missing(name, "ratio", str(error))
    if days <= 0:
        return missing(name, "ratio", "the water was at freezing throughout")
    parts = (
        _weighing("weight before", interval.start),
        _weighing("weight after", interval.end),
        given("degree-days", Fraction(days), "C days", f"{len(read)} readings of the water, straight lines between"),
    )
    formula = "1000 × (cube root of weight after - of weight before, in grams) ÷ degree-days"
    return worked(name, "ratio", parts, formula, _tgc_again, source=TGC_SOURCE)


def _tgc_again(values: Sequence[int | Fraction]) -> Fraction:
    before, after, days = (float(value) for value in values)
    return Fraction(thermal_growth_coefficient(before / MG_PER_G, after / MG_PER_G, days))
