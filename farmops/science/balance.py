"""Balance: whether feed, fish, plants and filter of a unit fit each other."""

from __future__ import annotations

import math
from enum import StrEnum

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.science.crops import area_for_plants, plants_standing
from farmops.science.flow import turnover_per_hour
from farmops.science.ranges import check_positive, check_range

FAO_589 = "Somerville et al. (2014), FAO Fish. Aquac. Tech. Paper 589"


class Place(StrEnum):
    """Where a value lies against a range."""

    BELOW = "below"
    WITHIN = "within"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where a value lies and how far outside: `off` in the value's own unit, 0 within the range."""

    place: Place
    off: float


@dataclass(frozen=True, slots=True)
class PublishedRange:
    """A range for a purpose, its unit, where it stands, and whether it was read there."""

    purpose: str
    low: float
    high: float
    unit: str
    source: str
    verified: bool


LEAFY = PublishedRange("feed for leafy plants", 40, 50, "g/m2/day", f"{FAO_589}, s.2.1.4", verified=True)
FRUITING = PublishedRange("feed for fruiting plants", 50, 80, "g/m2/day", f"{FAO_589}, s.2.1.4", verified=True)
RAFT = PublishedRange(
    "feed for raft beds", 60, 100, "g/m2/day", "Rakocy, Masser and Losordo (2006), SRAC 454", verified=False
)
FEED_RANGES = (LEAFY, FRUITING, RAFT)
"""Feed a square metre of bed carries per day, at 32 % protein. The sources disagree: rafts take more."""

LEAFY_DENSITY = PublishedRange("leafy plants", 20, 25, "plants/m2", f"{FAO_589}, s.8.1.1", verified=True)
FRUITING_DENSITY = PublishedRange("fruiting plants", 4, 8, "plants/m2", f"{FAO_589}, s.8.1", verified=False)
"""The same book's quick reference prints 4 alone."""

GROW_OUT_FEEDING = PublishedRange("grow-out feeding", 1, 2, "% of mass/day", f"{FAO_589}, s.7.3", verified=True)
STOCKING = PublishedRange("fish in the tank", 10, 20, "kg/1000 L", f"{FAO_589}, s.7.3", verified=False)
TURNOVER = PublishedRange("pump turnover", 1, 2, "tank volumes/h", f"{FAO_589}, s.4.2", verified=False)
"""Once an hour for a light stock, twice for a dense one."""

SMALL_TANK_L = 500.0
"""Below this volume [L] half the stocking is advised: FAO 589, from memory."""


@dataclass(frozen=True, slots=True)
class FilterMedium:
    """A filter medium and its surface per volume [m2/m3], lowest and highest."""

    name: str
    surface_low: float
    surface_high: float
    source: str
    verified: bool


_MEDIA = f"{FAO_589}, Table 4.1 and Appendix 4"

FILTER_MEDIA = (
    FilterMedium("volcanic tuff", 300, 400, _MEDIA, verified=False),
    FilterMedium("volcanic pumice", 200, 300, _MEDIA, verified=False),
    FilterMedium("limestone gravel", 150, 200, _MEDIA, verified=False),
    FilterMedium("expanded clay", 250, 300, _MEDIA, verified=False),
    FilterMedium("plastic bottle caps", 50, 100, _MEDIA, verified=False),
    FilterMedium("coconut fibre", 200, 400, _MEDIA, verified=False),
    FilterMedium("plastic filter balls", 500, 700, _MEDIA, verified=False),
)


class AmmoniaMethod(StrEnum):
    """Which published chain leads from feed to ammonia; they differ by about 6 %."""

    FAO_589 = "FAO 589"
    TIMMONS_EBELING = "Timmons and Ebeling"


NITROGEN_SHARES = {AmmoniaMethod.FAO_589: 0.16 * 0.61, AmmoniaMethod.TIMMONS_EBELING: 0.092}
"""Dissolved nitrogen per protein fed [g N/g]: 0.16 N in protein times 0.61 dissolved; or 0.092 outright."""

NH3_PER_N = {AmmoniaMethod.FAO_589: 1.2, AmmoniaMethod.TIMMONS_EBELING: 1.2159}
"""Mass of NH3 per N [g/g]: as the handbook rounds it, and from the atomic masses."""


@dataclass(frozen=True, slots=True)
class AmmoniaLoad:
    """Total ammonia that a feed leaves in the water, as nitrogen and as NH3 [g/day], and the chain used."""

    nitrogen_g_per_day: float
    nh3_g_per_day: float
    method: AmmoniaMethod


@dataclass(frozen=True, slots=True)
class CropPlan:
    """What a weekly harvest asks of a unit: plants, bed, feed, and fish from `low` to `high`."""

    plants: int
    area_m2: float
    feed_g_per_day: float
    fish_kg_low: float
    fish_kg_high: float


def judge(value: float, low: float, high: float) -> Verdict:
    """Where a value lies against a range, both ends included, and how far outside [value's unit]."""
    check_range(value=(value, -math.inf, math.inf))
    if not low <= high:
        raise OutOfRange(f"a range from {low:g} to {high:g} runs backwards")
    if value < low:
        return Verdict(Place.BELOW, low - value)
    if value > high:
        return Verdict(Place.ABOVE, value - high)
    return Verdict(Place.WITHIN, 0.0)


def feed_per_area(feed_g_per_day: float, bed_area_m2: float) -> float:
    """Feed per bed area [g/m2/day] from the unit's feed [g/day] and planted area [m2]."""
    _check_feed(feed_g_per_day)
    check_positive(bed_area_m2=bed_area_m2)
    return feed_g_per_day / bed_area_m2


def judge_feed(feed_g_per_day: float, bed_area_m2: float, against: PublishedRange) -> Verdict:
    """Whether beds [m2] get the feed [g/day] that a range [g/m2/day] asks; below means hungry plants."""
    return judge(feed_per_area(feed_g_per_day, bed_area_m2), against.low, against.high)


def area_fed(feed_g_per_day: float, rate_g_per_m2_day: float) -> float:
    """Bed area [m2] that a feed [g/day] carries at a rate [g/m2/day]."""
    _check_feed(feed_g_per_day)
    check_positive(rate_g_per_m2_day=rate_g_per_m2_day)
    return feed_g_per_day / rate_g_per_m2_day


def feed_for_area(bed_area_m2: float, rate_g_per_m2_day: float) -> float:
    """Feed [g/day] that beds [m2] need at a rate [g/m2/day]."""
    check_positive(bed_area_m2=bed_area_m2, rate_g_per_m2_day=rate_g_per_m2_day)
    return bed_area_m2 * rate_g_per_m2_day


def feed_from_fish(fish_kg: float, percent_per_day: float) -> float:
    """Feed [g/day] that a mass of fish [kg] eats at a rate [% of body mass per day]."""
    check_range(fish_kg=(fish_kg, 0, math.inf), feeding_rate_percent=(percent_per_day, 0, 100))
    return fish_kg * 1000 * percent_per_day / 100


def fish_for_feed(feed_g_per_day: float, percent_per_day: float) -> float:
    """Mass of fish [kg] that eats a feed [g/day] at a rate [% of body mass per day]."""
    _check_feed(feed_g_per_day)
    check_positive(feeding_rate_percent=percent_per_day)
    check_range(feeding_rate_percent=(percent_per_day, 0, 100))
    return feed_g_per_day / 1000 / (percent_per_day / 100)


def ammonia_from_feed(feed_g_per_day: float, protein_fraction: float, method: AmmoniaMethod) -> AmmoniaLoad:
    """Total ammonia that fish leave in the water from their feed.

    Args:
        feed_g_per_day: feed eaten [g/day].
        protein_fraction: protein in the feed [-], 0 to 0.7; 0.32 for a common grow-out feed.
        method: the published chain; each is worked with its own constants.

    Source:
        FAO_589: its Appendix 4, feed * protein * 0.16 * 0.61 as N, * 1.2 as NH3 (factors from memory).
        TIMMONS_EBELING: Recirculating Aquaculture, TAN = feed * protein * 0.092 (from memory).
    """
    _check_feed(feed_g_per_day)
    check_range(protein_fraction=(protein_fraction, 0, 0.7))
    nitrogen = feed_g_per_day * protein_fraction * NITROGEN_SHARES[method]
    return AmmoniaLoad(nitrogen, nitrogen * NH3_PER_N[method], method)


def filter_surface(nh3_g_per_day: float, removal_g_per_m2_day: float = 0.57) -> float:
    """Surface [m2] on which bacteria take up an ammonia load.

    Args:
        nh3_g_per_day: ammonia load, as NH3 [g/day].
        removal_g_per_m2_day: what a square metre takes up [g NH3/m2/day], 0.2 to 2; less when cold.

    Source:
        FAO 589, Appendix 4, from memory.
    """
    check_range(daily_nh3_g=(nh3_g_per_day, 0, math.inf), removal_g_per_m2_day=(removal_g_per_m2_day, 0.2, 2))
    return nh3_g_per_day / removal_g_per_m2_day


def media_volume(surface_m2: float, surface_per_volume_m2_m3: float, oversize: float = 1.0) -> float:
    """Volume of filter medium [L] that offers a surface.

    Args:
        surface_m2: surface the bacteria need [m2].
        surface_per_volume_m2_m3: the medium's surface per volume [m2/m3].
        oversize: factor for safety [-], 1 and more; FAO 589 advises 2 to 3 (from memory).
    """
    check_range(surface_m2=(surface_m2, 0, math.inf), oversize=(oversize, 1, math.inf))
    check_positive(surface_per_volume_of_medium=surface_per_volume_m2_m3)
    return surface_m2 / surface_per_volume_m2_m3 * oversize * 1000


def stocking_density(fish_kg: float, tank_l: float) -> float:
    """Mass of fish [kg] per 1000 L of tank."""
    check_range(fish_kg=(fish_kg, 0, math.inf))
    check_positive(tank_l=tank_l)
    return fish_kg / tank_l * 1000


def stocking_range(tank_l: float) -> tuple[float, float]:
    """Advised stocking [kg/1000 L], lowest and highest: 10 to 20, and half of it below 500 L.

    Source:
        FAO 589, s.7.3 and Table 8.1, from memory; its 200 L row is fuller (25) than this rule allows.
    """
    check_positive(tank_l=tank_l)
    share = 0.5 if tank_l < SMALL_TANK_L else 1.0
    return STOCKING.low * share, STOCKING.high * share


def judge_stocking(fish_kg: float, tank_l: float) -> Verdict:
    """Where fish [kg] in a tank [L] lie against the advised stocking; `off` in kg/1000 L."""
    return judge(stocking_density(fish_kg, tank_l), *stocking_range(tank_l))


def judge_turnover(flow_l_per_h: float, tank_l: float) -> Verdict:
    """Where a pump's flow [L/h] through a tank [L] lies against 1 to 2 volumes an hour."""
    return judge(turnover_per_hour(flow_l_per_h, tank_l), TURNOVER.low, TURNOVER.high)


def plan_crop(
    plants_per_week: float,
    weeks_in_bed: float,
    plants_per_m2: float,
    rate_g_per_m2_day: float,
    feeding_percent: PublishedRange = GROW_OUT_FEEDING,
) -> CropPlan:
    """From a weekly harvest to plants, bed area, feed, and the fish that eat it.

    Args:
        plants_per_week: plants harvested each week [1/week].
        weeks_in_bed: from setting to harvest [weeks].
        plants_per_m2: density in the bed [1/m2].
        rate_g_per_m2_day: feed per bed area [g/m2/day].
        feeding_percent: what the fish eat [% of body mass per day]; the high end gives the fewest fish.

    Source:
        The chain of FAO 589, s.8.1.1: 25 heads of lettuce a week (example from memory, rates read there).
    """
    plants = plants_standing(plants_per_week, weeks_in_bed)
    area = area_for_plants(plants, plants_per_m2)
    feed = feed_for_area(area, rate_g_per_m2_day)
    fewest, most = fish_for_feed(feed, feeding_percent.high), fish_for_feed(feed, feeding_percent.low)
    return CropPlan(plants, area, feed, fewest, most)


def _check_feed(feed_g_per_day: float) -> None:
    check_range(daily_feed_g=(feed_g_per_day, 0, math.inf))
