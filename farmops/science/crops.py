"""Crops: plants to an area, and the warmth they have had as degree-days."""

from __future__ import annotations

import math
from collections.abc import Iterable
from enum import StrEnum
from itertools import accumulate

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.science.ranges import check_positive, check_range

WHOLE_PLANT = 1e-9
"""How little may miss to a whole plant and still count as rounding of the arithmetic [-]."""

CABBAGE_LB_PER_ACRE = 40_000
KG_PER_LB, M2_PER_ACRE = 0.45359237, 4046.8564224

FAHRENHEIT_DEGREE = 5 / 9
"""One Fahrenheit degree as a difference in Celsius degrees [C/F]; differences have no offset."""


class DegreeDayMethod(StrEnum):
    """How a day's highest and lowest temperature become degree-days."""

    PLAIN = "plain average"
    FLOOR_FIRST = "floor first"
    CEILING_FLOOR = "ceiling and floor"


@dataclass(frozen=True, slots=True)
class BaseTemperature:
    """The temperature below which a group of crops is taken not to develop, in both scales."""

    base_f: float
    base_c: float
    crops: tuple[str, ...]
    source: str
    verified: bool


_BASES = "base temperatures reported by US regional climate centers"

BASE_TEMPERATURES = (
    BaseTemperature(
        40,
        4.4,
        ("wheat", "barley", "rye", "oats", "flaxseed", "lettuce", "asparagus"),
        _BASES,
        verified=False,
    ),
    BaseTemperature(45, 7.2, ("sunflower", "potato"), _BASES, verified=False),
    BaseTemperature(
        50,
        10.0,
        ("sweet corn", "corn", "sorghum", "rice", "soybeans", "tomato"),
        "Iowa State University, Agronomy 541, lesson 2b; Washington State University Extension",
        verified=True,
    ),
)
"""Base temperatures by group of crops; `verified` says whether the number was read in its source."""


def density_on_square_grid(spacing_m: float, row_spacing_m: float | None = None) -> float:
    """Plants per square metre when rows stand one behind the other.

    Args:
        spacing_m: distance between plants in the row [m].
        row_spacing_m: distance between rows [m]; None means the same as in the row.

    Returns:
        Plants per square metre [1/m2]; the edge of the bed is not looked at.
    """
    between = spacing_m if row_spacing_m is None else row_spacing_m
    check_positive(spacing_m=spacing_m, row_spacing_m=between)
    return 1 / (spacing_m * between)


def density_staggered(spacing_m: float) -> float:
    """Plants per square metre when every plant is `spacing_m` [m] from its six neighbours.

    Rows lie spacing * sqrt(3)/2 apart, so 15 % more plants stand than on the square grid [1/m2].
    """
    return density_on_square_grid(spacing_m, spacing_m * math.sqrt(3) / 2)


def plants_on_area(area_m2: float, plants_per_m2: float) -> int:
    """Whole plants that an area [m2] takes at a density [1/m2]; a part of a plant is not planted."""
    check_positive(area_m2=area_m2, plants_per_square_metre=plants_per_m2)
    return math.floor(area_m2 * plants_per_m2 + WHOLE_PLANT)


def area_for_plants(plants: float, plants_per_m2: float) -> float:
    """Area [m2] that a number of plants takes at a density [1/m2]."""
    check_range(plants=(plants, 0, math.inf))
    check_positive(plants_per_square_metre=plants_per_m2)
    return plants / plants_per_m2


def plants_standing(plants_per_week: float, weeks_in_bed: float) -> int:
    """Plants in the beds at once when a batch goes in and a batch comes out every week.

    Args:
        plants_per_week: plants harvested, and set, each week [1/week].
        weeks_in_bed: from setting to harvest [weeks].

    Returns:
        Whole plants, rounded up, because the last batch needs its room too.
    """
    check_positive(plants_per_week=plants_per_week, weeks_in_bed=weeks_in_bed)
    return math.ceil(plants_per_week * weeks_in_bed - WHOLE_PLANT)


def heaviest_cut_kg(area_m2: float) -> float:
    """What the heaviest vegetable of the best fields gives when all of it is cut at once [kg].

    Args:
        area_m2: planted area [m2].

    Source:
        New England Vegetable Management Guide, Table 15, cabbage, excellent: 40,000 lb per acre.
    """
    check_positive(area_m2=area_m2)
    return area_m2 * CABBAGE_LB_PER_ACRE * KG_PER_LB / M2_PER_ACRE


def degree_days(
    highest: float,
    lowest: float,
    base: float,
    method: DegreeDayMethod = DegreeDayMethod.PLAIN,
    ceiling: float | None = None,
) -> float:
    """Growing degree-days of one day, never below 0.

    All temperatures are in one scale, C or F, and so is the result [C days or F days].
    PLAIN averages first and then cuts at the base; FLOOR_FIRST lifts each temperature to the base
    before averaging, so a cold night takes nothing from a warm day; CEILING_FLOOR also lowers each
    to the ceiling (the "86/50" rule in F). On a day that crosses the base the methods differ:
    never compare sums made with different ones.

    Args:
        highest: the day's highest temperature.
        lowest: the day's lowest temperature.
        base: temperature below which the crop does not develop.
        method: which of the readings is meant.
        ceiling: temperature above which more warmth does not help; for CEILING_FLOOR, and only for it.

    Raises:
        OutOfRange: highest under lowest, ceiling not above base, or a ceiling missing or not used.

    Source:
        PLAIN and FLOOR_FIRST: McMaster and Wilhelm (1997), Agric. For. Meteorol. 87:291-300, methods 1
        and 2. CEILING_FLOOR: Iowa State University, Agronomy 541, lesson 2b.
    """
    check_range(base=(base, -math.inf, math.inf))
    check_range(lowest=(lowest, -math.inf, math.inf), highest=(highest, -math.inf, math.inf))
    if highest < lowest:
        raise OutOfRange(f"the day's highest temperature {highest:g} is below its lowest, {lowest:g}")
    _check_ceiling(base, method, ceiling)
    if method is DegreeDayMethod.PLAIN:
        return max(0.0, (highest + lowest) / 2 - base)
    top = math.inf if ceiling is None else ceiling
    return (_clip(highest, base, top) + _clip(lowest, base, top)) / 2 - base


def accumulated_degree_days(
    days: Iterable[tuple[float, float]],
    base: float,
    method: DegreeDayMethod = DegreeDayMethod.PLAIN,
    ceiling: float | None = None,
) -> list[float]:
    """Running sum of the degree-days of consecutive days given as (highest, lowest), one sum per day.

    A day without temperatures is not a day without warmth: fill the gap or start anew.
    Scale, errors and source as for `degree_days`.
    """
    daily = [degree_days(highest, lowest, base, method, ceiling) for highest, lowest in days]
    return list(accumulate(daily))


def day_reaching(accumulated: Iterable[float], needed: float) -> int | None:
    """On which day, counted from 1, the running sum first reaches what is needed; None if it does not."""
    check_positive(needed=needed)
    return next((day for day, total in enumerate(accumulated, start=1) if total >= needed), None)


def degree_days_in_celsius(fahrenheit_degree_days: float) -> float:
    """Degree-days in Celsius degrees from degree-days in Fahrenheit degrees: times 5/9, no offset."""
    check_range(degree_day_sum=(fahrenheit_degree_days, 0, math.inf))
    return fahrenheit_degree_days * FAHRENHEIT_DEGREE


def degree_days_in_fahrenheit(celsius_degree_days: float) -> float:
    """Degree-days in Fahrenheit degrees from degree-days in Celsius degrees: times 9/5, no offset."""
    check_range(degree_day_sum=(celsius_degree_days, 0, math.inf))
    return celsius_degree_days / FAHRENHEIT_DEGREE


def _clip(temperature: float, low: float, high: float) -> float:
    return min(max(temperature, low), high)


def _check_ceiling(base: float, method: DegreeDayMethod, ceiling: float | None) -> None:
    wants_ceiling = method is DegreeDayMethod.CEILING_FLOOR
    if ceiling is None:
        if wants_ceiling:
            raise OutOfRange("the ceiling and floor method needs a ceiling, such as 86 F or 30 C")
        return
    if not wants_ceiling:
        raise OutOfRange(f"the {method.value} method takes no ceiling; choose ceiling and floor")
    if not ceiling > base or not math.isfinite(ceiling):
        raise OutOfRange(f"the ceiling {ceiling:g} must lie above the base, {base:g}")
