"""The ration: the most feed a lot should get in a day, from number, weight, temperature and limits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.science.ranges import check_positive, check_range


@dataclass(frozen=True, slots=True)
class FeedingBand:
    """One row of a feeding table.

    Fish from `from_g` to `to_g` (infinite in the last row) get `percent_at_from` of their weight a day at the
    light end, `percent_at_to` at the heavy end, in `feeds_a_day` portions. `source` and `standing` say where
    the row comes from and whether it was read there.
    """

    from_g: float
    to_g: float
    percent_at_from: float
    percent_at_to: float
    feeds_a_day: int
    source: str
    standing: str


_NCRAC = "Riche, Garling 2003, Feeding Tilapia in Intensive Recirculating Systems, NCRAC Fact Sheet 114 (28 C)"
_FAO = "Somerville et al. 2014, FAO Fish. Aquac. Tech. Paper 589, section 7.2"
_MEMORY = "from memory"

TILAPIA_TABLE = (
    FeedingBand(0.02, 1, 30, 10, 8, _NCRAC, _MEMORY),
    FeedingBand(1, 5, 10, 6, 6, _NCRAC, _MEMORY),
    FeedingBand(5, 20, 6, 4, 4, _NCRAC, _MEMORY),
    FeedingBand(20, 100, 4, 3, 3, _NCRAC, _MEMORY),
    FeedingBand(100, 450, 3, 1.5, 3, _NCRAC, "from memory; its open end is closed here at 450 g"),
    FeedingBand(450, math.inf, 1.5, 1.5, 3, _NCRAC, "from memory; the last figure carried on"),
)
"""Ceiling by weight for tilapia in warm water."""

GROW_OUT_TABLE = (FeedingBand(50, math.inf, 2, 2, 2, _FAO, "verified: 1 to 2 % of body weight a day"),)
"""Ceiling for growing out, all species: the upper end of the published 1 to 2 %."""


GROWING_TABLE = (
    FeedingBand(0.5, 50, 5, 2, 3, "none: common practice", "common practice, no source"),
    *GROW_OUT_TABLE,
)
"""The same for lighter fish too, who eat more for their weight."""

BED_FEED_G_M2 = 80.0
RAFT_FEED_G_M2 = 100.0
"""The most feed that a square metre of planted bed, and of raft, takes a day [g/m2/day]: upper ends of the ranges of
FAO 589, s.2.1.4 (fruiting plants) and of SRAC 454 (rafts, from memory)."""


@dataclass(frozen=True, slots=True)
class FeedingTemperatures:
    """Water temperatures at which a species eats [deg C]: three different things.

    Best range, where it gets the full ration; `stop` on either side, where feeding ends; `lethal` on either
    side, where it dies, None where that is not known.
    """

    best_low_c: float
    best_high_c: float
    stop_below_c: float
    stop_above_c: float
    lethal_below_c: float | None = None
    lethal_above_c: float | None = None

    def __post_init__(self) -> None:
        """Raise OutOfRange unless lethal, stop and best temperatures rise in their natural order."""
        stairs = [self.stop_below_c, self.best_low_c, self.best_high_c, self.stop_above_c]
        if self.lethal_below_c is not None:
            stairs.insert(0, self.lethal_below_c)
        if self.lethal_above_c is not None:
            stairs.append(self.lethal_above_c)
        if stairs != sorted(stairs) or not all(math.isfinite(c) for c in stairs):
            words = ", ".join(f"{c:g}" for c in stairs)
            raise OutOfRange(f"temperatures must rise from lethal cold to lethal heat, not {words} C")


class RationReason(StrEnum):
    """Why a ration is what it is."""

    FULL = "full ration"
    COOL = "cool water"
    WARM = "warm water"
    UNIT_LIMIT = "limit of the unit"
    TOO_COLD = "too cold to feed"
    TOO_WARM = "too warm to feed"
    LETHAL_COLD = "lethal cold"
    LETHAL_HEAT = "lethal heat"


@dataclass(frozen=True, slots=True)
class Ration:
    """The most feed for one day [g], and why.

    `percent_of_weight` a day after all reductions [%]; `temperature_factor` from 0 to 1; portions to split it
    into; the reason as a kind and in words; the band of the table it rests on.
    """

    grams: float
    percent_of_weight: float
    temperature_factor: float
    feeds_a_day: int
    reason: RationReason
    words: str
    band: FeedingBand


def ration(
    count: int,
    mean_g: float,
    temperature_c: float,
    *,
    temperatures: FeedingTemperatures,
    table: Sequence[FeedingBand] = TILAPIA_TABLE,
    unit_limit_g: float | None = None,
) -> Ration:
    """Ceiling for the feed of one day: less when they leave some, none when a reading says so.

    grams = count * mean weight * percent of the table / 100 * temperature factor, at most `unit_limit_g`

    Args:
        count: live fish, 0 or more.
        mean_g: mean weight [g], within the table.
        temperature_c: water temperature [deg C], -1 to 45.
        temperatures: best, stop-feeding and lethal temperatures of the species.
        table: bands by weight, touching each other, the lightest first.
        unit_limit_g: most feed a day that the beds and filter of the unit can take [g], 0 or more.

    Returns:
        Grams for the day with the reason.

    Raises:
        OutOfRange: an argument lies outside its range, or the table does not reach that weight.

    Source:
        Published: the percentages at the ends of each band (see `source` and `standing` of the band).
        Common practice: between the ends, percent falls evenly with the logarithm of weight; the factor is 1
        over the best range and falls evenly to 0 at the stop-feeding temperatures.
    """
    check_range(number_of_fish=(count, 0, math.inf), temperature_c=(temperature_c, -1, 45))
    band = band_for(mean_g, table)
    factor, reason, words = _by_temperature(temperature_c, temperatures)
    grams = count * mean_g * percent_in_band(mean_g, band) / 100 * factor
    if unit_limit_g is not None:
        check_range(unit_limit_g=(unit_limit_g, 0, math.inf))
        if grams > unit_limit_g:
            grams, reason = unit_limit_g, RationReason.UNIT_LIMIT
            words = f"held to {unit_limit_g:g} g: all that beds and filter can take"
    percent = 100 * grams / (count * mean_g) if count else 0.0
    return Ration(grams, percent, factor, band.feeds_a_day, reason, words, band)


def band_for(mean_g: float, table: Sequence[FeedingBand]) -> FeedingBand:
    """The band of a feeding table in which a weight falls; at a border, the one of the heavier fish.

    Args:
        mean_g: mean weight [g], above 0.
        table: bands by weight, the lightest first.

    Returns:
        The band.

    Raises:
        OutOfRange: the table is empty or does not reach that weight.
    """
    check_positive(mean_weight_g=mean_g)
    fitting = [band for band in table if band.from_g <= mean_g <= band.to_g]
    if not fitting:
        raise OutOfRange(f"mean weight {mean_g:g} g is outside the feeding table, which covers {_span(table)}")
    return fitting[-1]


def _span(table: Sequence[FeedingBand]) -> str:
    if not table:
        return "no weights at all"
    low_g, high_g = table[0].from_g, table[-1].to_g
    return f"{low_g:g} g and more" if math.isinf(high_g) else f"{low_g:g} to {high_g:g} g"


def percent_in_band(mean_g: float, band: FeedingBand) -> float:
    """Feed a day within a band, falling evenly with the logarithm of weight from end to end.

    Args:
        mean_g: mean weight [g], within the band.
        band: row of a feeding table.

    Returns:
        Percent of body weight a day [%].

    Raises:
        OutOfRange: the weight lies outside the band.

    Source:
        Interpolation on the logarithm is common practice; it stays at or below a straight line.
    """
    check_range(mean_weight_g=(mean_g, band.from_g, band.to_g))
    if math.isinf(band.to_g):
        return band.percent_at_from
    share = math.log(mean_g / band.from_g) / math.log(band.to_g / band.from_g)
    return band.percent_at_from + share * (band.percent_at_to - band.percent_at_from)


def _by_temperature(at_c: float, t: FeedingTemperatures) -> tuple[float, RationReason, str]:
    if at_c < t.best_low_c or at_c <= t.stop_below_c:
        return _in_the_cold(at_c, t)
    if at_c > t.best_high_c or at_c >= t.stop_above_c:
        return _in_the_heat(at_c, t)
    return 1.0, RationReason.FULL, "full ration"


def _in_the_cold(at_c: float, t: FeedingTemperatures) -> tuple[float, RationReason, str]:
    if t.lethal_below_c is not None and at_c <= t.lethal_below_c:
        return (
            0.0,
            RationReason.LETHAL_COLD,
            f"no feed: {at_c:g} C can kill them, act on the temperature first",
        )
    if at_c <= t.stop_below_c:
        return 0.0, RationReason.TOO_COLD, f"no feed: at or below {t.stop_below_c:g} C"
    factor = (at_c - t.stop_below_c) / (t.best_low_c - t.stop_below_c)
    return factor, RationReason.COOL, f"{100 * factor:.0f} % of the full ration: below {t.best_low_c:g} C"


def _in_the_heat(at_c: float, t: FeedingTemperatures) -> tuple[float, RationReason, str]:
    if t.lethal_above_c is not None and at_c >= t.lethal_above_c:
        return (
            0.0,
            RationReason.LETHAL_HEAT,
            f"no feed: {at_c:g} C can kill them, act on the temperature first",
        )
    if at_c >= t.stop_above_c:
        return 0.0, RationReason.TOO_WARM, f"no feed: at or above {t.stop_above_c:g} C"
    factor = (t.stop_above_c - at_c) / (t.stop_above_c - t.best_high_c)
    return factor, RationReason.WARM, f"{100 * factor:.0f} % of the full ration: above {t.best_high_c:g} C"


HELPER_SHARE = 0.8
"""The share of a ration that goes into the bag of somebody who does not know the fish."""


def helpers_temperatures(
    *, best_low_c: float, best_high_c: float, lethal_low_c: float, lethal_high_c: float
) -> FeedingTemperatures:
    """Feeding temperatures for a helper: feed ends half way between where fish grow well and where they die.

    Args:
        best_low_c, best_high_c: where they grow well [deg C].
        lethal_low_c, lethal_high_c: where they live no longer [deg C], on either side of it.

    Returns:
        Temperatures with their stops.

    Raises:
        OutOfRange: the temperatures do not rise from lethal cold to lethal heat.

    Source:
        Common practice, no source: a helper feeds rather too little than too much; half way is our choice.
    """
    return FeedingTemperatures(
        best_low_c=best_low_c,
        best_high_c=best_high_c,
        stop_below_c=(best_low_c + lethal_low_c) / 2,
        stop_above_c=(best_high_c + lethal_high_c) / 2,
        lethal_below_c=lethal_low_c,
        lethal_above_c=lethal_high_c,
    )


def helpers_bag(ration_g: float) -> int:
    """Whole grams of feed in the bag that a helper gives in one day.

    Args:
        ration_g: the most feed for the day [g], 0 or more.

    Returns:
        Grams, `HELPER_SHARE` of the ration, rounded down.

    Raises:
        OutOfRange: the ration is below 0.

    Source:
        Common practice, no source: fish that are fed short for a week lose nothing, leftovers foul the water.
    """
    check_range(ration_g=(ration_g, 0, math.inf))
    return math.floor(ration_g * HELPER_SHARE)


def beds_take_g(*, raft_m2: float, other_m2: float) -> float:
    """The most feed a day that the planted beds of a unit take [g/day].

    Args:
        raft_m2: area of rafts [m2], 0 or more.
        other_m2: area of all other beds [m2], 0 or more.

    Returns:
        `RAFT_FEED_G_M2` and `BED_FEED_G_M2` times the areas.

    Raises:
        OutOfRange: an area is below 0.

    Source:
        Somerville et al. (2014), FAO 589, s.2.1.4; rafts: Rakocy, Masser, Losordo (2006), SRAC 454, from memory.
    """
    check_range(raft_m2=(raft_m2, 0, math.inf), other_m2=(other_m2, 0, math.inf))
    return RAFT_FEED_G_M2 * raft_m2 + BED_FEED_G_M2 * other_m2


FILTER_SURFACE_M2_M3 = 150.0
FILTER_TAKES_NH3_G_M2 = 0.57
FILTER_SAFETY = 3.0
NH3_PER_FEED = 0.32 * 0.16 * 0.61 * 1.2
"""NH3 that a gram of feed of 32 % protein leaves in the water [g/g]: FAO 589, Appendix 4, from memory."""


def filter_takes_g(media_l: float) -> float:
    """The most feed a day whose ammonia the medium of the beds takes up [g/day], whatever the medium is.

    Args:
        media_l: volume of the medium [L], 0 or more.

    Returns:
        volume * surface of the poorest gravel * uptake / safety / ammonia per feed.

    Raises:
        OutOfRange: the volume is below 0.

    Source:
        FAO 589, Table 4.1 and Appendix 4, from memory: 150 m2/m3, 0.57 g NH3/m2/day, three times what is needed.
    """
    check_range(media_l=(media_l, 0, math.inf))
    surface_m2 = media_l / 1000 * FILTER_SURFACE_M2_M3
    return surface_m2 * FILTER_TAKES_NH3_G_M2 / FILTER_SAFETY / NH3_PER_FEED
