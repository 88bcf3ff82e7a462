"""Whether feed, fish, beds and water of a unit fit each other over four weeks, and which way to move."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from farmops.facts import beds as bed_facts
from farmops.facts import farm as farm_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import readings as reading_facts
from farmops.facts.live_fish import LiveLot, live_on
from farmops.facts.reading import Reader, Store
from farmops.facts.unit_feed import fed_in_unit
from farmops.figures import (
    Figure,
    Number,
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
from farmops.model.beds import Bed, BedKind
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure, Reading
from farmops.model.units import Unit
from farmops.reports.places import unit_named
from farmops.science.balance import (
    LEAFY,
    RAFT,
    STOCKING,
    TURNOVER,
    AmmoniaMethod,
    Place,
    PublishedRange,
    ammonia_from_feed,
    judge,
    stocking_range,
)
from farmops.science.water import Nitrification, nitrification_use

DAYS = 28
PROTEIN = 0.32
"""Share of protein in the feed, for no record names it: a common grow-out feed."""
NITROGEN_IN_PRODUCE = Fraction(3, 1000)
"""Nitrogen in fresh leaves [g/g]. From memory: protein of leafy crops, a sixth of it nitrogen."""
STILL = 5.0
"""By how much nitrate may move in a week and be still [mg/L as N]. Common practice, no source: what a kit can tell."""
MG_PER_G, ML_PER_L = 1_000, 1_000

ADVICE = {
    ("feed", Place.BELOW): "The beds could use more: plant less area, or feed more where the ration allows it.",
    ("feed", Place.ABOVE): "More than the beds use: more plants or more bed, else less feed. Watch nitrate.",
    (
        "nitrate",
        Place.BELOW,
    ): "The plants take more than the feed brings: fewer plants, or more feed if the ration allows.",
    ("nitrate", Place.ABOVE): "Nitrate gathers: more plants, or less feed.",
    ("density", Place.BELOW): "There is room for more fish, where beds and filter carry their feed.",
    ("density", Place.ABOVE): "More fish than is advised: take some out, and see to air and oxygen first.",
    ("turnover", Place.BELOW): "Too little water goes round: clear the intake, look at the pump, or take a larger one.",
    ("turnover", Place.ABOVE): "More water goes round than is needed; it costs power and harms nobody.",
}


@dataclass(frozen=True, slots=True)
class BalanceLine:
    """One side of the balance: its figure, the range it is held against in the figure's unit, and what to do.

    `place` None: nothing is published to hold it against, or there is no number.
    """

    name: str
    figure: Figure
    low: float | None = None
    high: float | None = None
    place: Place | None = None
    advice: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Balance:
    """The balance of a unit over the days to `on`; `lines` in the order they hang together."""

    farm: Farm
    unit: Unit
    first: date
    on: date
    lines: tuple[BalanceLine, ...]

    def line(self, name: str) -> BalanceLine:
        """The side of that name."""
        return next(one for one in self.lines if one.name == name)

    @property
    def outside(self) -> tuple[BalanceLine, ...]:
        """What lies out of its range."""
        return tuple(one for one in self.lines if one.place not in (None, Place.WITHIN))

    @property
    def untold(self) -> tuple[BalanceLine, ...]:
        """What cannot be told, for a record is missing."""
        return tuple(one for one in self.lines if one.figure.value is None)


NAMES = ("feed", "nitrogen-in", "nitrogen-out", "nitrate", "nitrogen-else", "alkalinity", "density", "turnover")


def balance_of(store: Store, code: str, on: date | None = None) -> Balance:
    """The balance of a unit over the four weeks to a day. Raises NotFound."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        unit, day = unit_named(reader, code.strip().upper()), on or farm.today()
        return _Weighing(reader, farm, unit, day).balance()


class _Weighing:
    """What the four weeks of one unit brought."""

    def __init__(self, reader: Reader, farm: Farm, unit: Unit, day: date) -> None:
        self.reader, self.farm, self.unit, self.day = reader, farm, unit, day
        self.first = day - timedelta(days=DAYS - 1)
        self.span = given("days", DAYS, "days", "four weeks")
        self.tank = self._tank()
        self.beds = [bed for bed in bed_facts.beds(reader) if bed.unit_id == unit.id]
        self.readings = reading_facts.readings(reader, self.first, day, unit.id)

    def balance(self) -> Balance:
        """Line by line."""
        feed = self._feed()
        came, left = self._nitrogen_in(feed), self._nitrogen_out()
        stays = self._stays()
        kept = difference("nitrogen not picked", "mg a day", came, left, "nitrogen from the feed less that picked")
        elsewhere = difference(
            "nitrogen gone elsewhere", "mg a day", kept, stays, "not picked, less what nitrate gained"
        )
        lines = (
            self._held("feed", self._per_area(feed), *self._feed_range()),
            BalanceLine("nitrogen-in", came),
            BalanceLine("nitrogen-out", left),
            self._held("nitrate", self._nitrate(), -STILL, STILL, 1, "common practice, no source"),
            BalanceLine(
                "nitrogen-else", elsewhere, advice="Into roots, solids and fish, into the air, with water let out."
            ),
            BalanceLine(
                "alkalinity", self._alkalinity(came), advice="What buffers or harder top-up water have to bring."
            ),
            self._held("density", self._density(), *self._stocking_range()),
            self._held("turnover", self._turnover(), TURNOVER.low, TURNOVER.high, 1, _source(TURNOVER)),
        )
        return Balance(self.farm, self.unit, self.first, self.day, lines)

    def _held(self, name: str, figure: Figure, low: float, high: float, times: float, source: str) -> BalanceLine:
        """Against a range whose unit is `times` that of the figure."""
        if figure.value is None:
            return BalanceLine(name, figure, low / times, high / times, source=source)
        place = judge(float(figure.value) * times, low, high).place
        return BalanceLine(name, figure, low / times, high / times, place, ADVICE.get((name, place), ""), source)

    def _tank(self) -> Figure:
        if self.unit.tank_ml is None:
            how = f'farmops units edit {self.unit.code} --tank "250 gal"'
            return missing("tank", "ml", f"the volume of the tank is not booked: {how}")
        return given("tank", self.unit.tank_ml, "ml", "the volume of the tank")

    def _feed(self) -> Figure:
        fed = fed_in_unit(self.reader, self.unit.id, self.first, self.day)
        if not fed:
            return missing("feed a day", "mg a day", "no feed is booked in these weeks: farmops fish fed LOT WEIGHT")
        lines = [RecordLine("feeding", one.id, f"{one.lot}, {one.day}", one.mass_mg) for one in fed]
        note = f"booked on {len({one.day for one in fed})} of {DAYS} days"
        whole = of_records(
            "feed", sum(one.mass_mg for one in fed), "mg", "all that was fed", _kept("feedings", lines), note
        )
        return quotient("feed a day", "mg a day", whole, self.span, "feed ÷ days", nothing="no days")

    def _area(self) -> Figure:
        sizes = bed_facts.areas_on(self.reader, self.day)
        unsized = [bed.code for bed in self.beds if bed.id not in sizes]
        if unsized or not self.beds:
            return missing("bed area", "mm2", _lacking(self.unit.code, unsized))
        parts = [given(bed.code, sizes[bed.id], "mm2", f"its size on {self.day}") for bed in self.beds]
        return total("bed area", "mm2", parts, "the beds of the unit as they are now")

    def _per_area(self, feed: Figure) -> Figure:
        name, formula = "feed per bed area", "feed a day ÷ bed area"
        return quotient(name, "mg per mm2 a day", feed, self._area(), formula, nothing="the beds have no area")

    def _feed_range(self) -> tuple[float, float, float, str]:
        """For rafts, or for leafy plants in media."""
        rafts = bool(self.beds) and all(_is_raft(bed) for bed in self.beds)
        against = RAFT if rafts else LEAFY
        return against.low, against.high, MG_PER_G, f"{against.purpose}: {_source(against)}"

    def _nitrogen_in(self, feed: Figure) -> Figure:
        def again(values: Sequence[Number]) -> Fraction:
            load = ammonia_from_feed(float(values[0]) / MG_PER_G, PROTEIN, AmmoniaMethod.FAO_589)
            return Fraction(load.nitrogen_g_per_day * MG_PER_G)

        formula, source = "feed a day × 32 % protein × 0.16 × 0.61", "FAO 589, Appendix 4, from memory"
        note = "32 % protein is taken, for no record names it"
        return worked("nitrogen from the feed", "mg a day", (feed,), formula, again, note=note, source=source)

    def _nitrogen_out(self) -> Figure:
        lines = [
            RecordLine("weighing", one.id, f"{one.what}, {one.day}", one.mass_mg)
            for one in harvest_facts.harvests(self.reader, self.first, self.day)
            if one.unit == self.unit.code and one.planting_id is not None
        ]
        name = "nitrogen picked"
        if not lines:
            why = (
                f"nothing was weighed from the beds of {self.unit.code} in these weeks: farmops harvest BED CROP WEIGHT"
            )
            return missing(name, "mg a day", why)
        whole = of_records("picked", sum(one.amount for one in lines), "mg", "all weighings", _kept("weighings", lines))
        a_day = quotient("picked a day", "mg a day", whole, self.span, "picked ÷ days", nothing="no days")
        formula = "picked a day × 0.3 % nitrogen in fresh leaves"
        return worked(name, "mg a day", (a_day,), formula, _leaves, source="protein of leafy crops, from memory")

    def _read(self, measure: Measure) -> list[Reading]:
        return [one for one in self.readings if one.measure is measure]

    def _nitrate(self) -> Figure:
        read = self._read(Measure.NITRATE)
        name, unit = "nitrate gains", "mg per L a week"
        if len(read) < 2 or read[0].day == read[-1].day:
            often, how = "read once" if read else "never read", f"farmops water add {self.unit.code} nitrate 40"
            return missing(name, unit, f"nitrate was {often} in these weeks: {how}")
        ends = [given(f"nitrate on {one.day}", Fraction(one.value), "mg per L", "as N") for one in (read[-1], read[0])]
        days = given("days between", (read[-1].day - read[0].day).days, "days", "from the first to the last reading")
        formula = "(last less first) ÷ days × 7"
        return worked(
            name, unit, (*ends, days), formula, lambda values: Fraction(values[0] - values[1]) / values[2] * 7
        )

    def _stays(self) -> Figure:
        formula = "what nitrate gains in a week × tank ÷ 7"
        parts = (self._nitrate(), self.tank)
        return worked("nitrogen that stays", "mg a day", parts, formula, lambda v: Fraction(v[0]) * v[1] / ML_PER_L / 7)

    def _alkalinity(self, came: Figure) -> Figure:
        def again(values: Sequence[Number]) -> Fraction:
            used = nitrification_use(float(values[0]) / MG_PER_G, Nitrification.WITHOUT_GROWTH).alkalinity_g_caco3
            return Fraction(used * MG_PER_G) * 7 / Fraction(values[1]) * ML_PER_L

        formula = "nitrogen from the feed × 7.14 × 7 days ÷ tank"
        source = "NH4+ + 2 O2 -> NO3- + 2 H+ + H2O: 7.14 g CaCO3 per g N, as in US EPA nitrogen-control manuals"
        read = self._read(Measure.ALKALINITY)
        note = f"alkalinity read last: {read[-1].value:g} mg/L on {read[-1].day}" if read else "alkalinity was not read"
        parts = (came, self.tank)
        return worked("alkalinity used", "mg per L a week", parts, formula, again, note=note, source=source)

    def _density(self) -> Figure:
        lots = [one for one in live_on(self.reader, self.day) if one.unit_id == self.unit.id]
        if not lots:
            return missing("fish per tank", "mg per ml", f"no live fish are booked in {self.unit.code} on {self.day}")
        lines = [RecordLine("fish lot", one.lot_id, _lot_words(one), one.number * one.mean_mg) for one in lots]
        formula = "number × weight of one when last weighed"
        whole = of_records("fish", sum(one.amount for one in lines), "mg", formula, _kept("fish lots", lines))
        return quotient("fish per tank", "mg per ml", whole, self.tank, "fish ÷ tank", nothing="the tank holds nothing")

    def _stocking_range(self) -> tuple[float, float, float, str]:
        """Kilograms in 1000 litres are milligrams in a millilitre."""
        tank = self.unit.tank_ml / ML_PER_L if self.unit.tank_ml else 1000.0
        return *stocking_range(tank), 1, _source(STOCKING)

    def _turnover(self) -> Figure:
        read = self._read(Measure.FLOW)
        if not read:
            why = f"the flow was not read in these weeks: farmops water add {self.unit.code} flow 250"
            return missing("turnover", "an hour", why)
        last = read[-1]
        flow = given("flow", Fraction(last.value) * ML_PER_L, "ml an hour", f"read on {last.day}")
        return quotient("turnover", "an hour", flow, self.tank, "flow ÷ tank", nothing="the tank holds nothing")


def _lacking(code: str, unsized: Sequence[str]) -> str:
    """Which bed's size is missing, or that there is no bed."""
    if unsized:
        return f'the size of {unsized[0]} is not booked: farmops beds size {unsized[0]} "24 sq ft"'
    return f'no bed is booked: farmops beds add {code} N "24 sq ft"'


def _leaves(values: Sequence[Number]) -> Fraction:
    return Fraction(values[0]) * NITROGEN_IN_PRODUCE


def _is_raft(bed: Bed) -> bool:
    return bed.kind is BedKind.RAFT


def _lot_words(one: LiveLot) -> str:
    return f"{one.code}, {one.number} fish, weighed {one.weighed_day}"


def _kept(kind: str, lines: Iterable[RecordLine]) -> Records:
    kept = list(lines)
    fetch: Callable[[], Any] = lambda: kept  # noqa: E731
    return Records(kind, len(kept), fetch)


def _source(published: PublishedRange) -> str:
    return published.source if published.verified else f"{published.source}, from memory"
