"""Oxygen in fresh water: saturation, air pressure, what fish breathe, how long it lasts without power."""

from __future__ import annotations

import math

from farmops.model.frozen import dataclass
from farmops.science.ranges import KELVIN, check_positive, check_range

HPA_PER_ATM = 1013.25


def pressure_at_altitude(altitude_m: float) -> float:
    """Usual air pressure at an altitude.

    Args:
        altitude_m: height above sea level [m], -430 to 5000.

    Returns:
        Station pressure [hPa].

    Raises:
        OutOfRange: the altitude lies outside the range.

    Source:
        US Standard Atmosphere 1976, troposphere.
    """
    check_range(altitude_m=(altitude_m, -430, 5000))
    return float(HPA_PER_ATM * (1 - 2.25577e-5 * altitude_m) ** 5.25588)


def oxygen_saturation(
    temperature_c: float, *, altitude_m: float = 0.0, station_pressure_hpa: float | None = None
) -> float:
    """Oxygen that fresh water holds in balance with moist air.

    Args:
        temperature_c: water temperature [deg C], 0 to 40.
        altitude_m: height above sea level [m], -430 to 5000; left out when a pressure is given.
        station_pressure_hpa: air pressure measured at the place [hPa], 500 to 1100. Not the figure
            of a weather report, which is corrected to sea level.

    Returns:
        Dissolved oxygen at saturation [mg/L].

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        Benson, Krause (1980), Limnol. Oceanogr. 25:662-671, and (1984), 29:620-632; the equations of
        APHA Standard Methods 4500-O.
    """
    check_range(temperature_c=(temperature_c, 0, 40))
    pressure_hpa = pressure_at_altitude(altitude_m) if station_pressure_hpa is None else station_pressure_hpa
    check_range(station_pressure_hpa=(pressure_hpa, 500, 1100))
    return _saturation_at_one_atm(temperature_c) * _pressure_factor(temperature_c, pressure_hpa / HPA_PER_ATM)


def percent_saturation(
    measured_mg_per_l: float,
    temperature_c: float,
    *,
    altitude_m: float = 0.0,
    station_pressure_hpa: float | None = None,
) -> float:
    """Measured oxygen as a percentage of saturation.

    Args:
        measured_mg_per_l: dissolved oxygen [mg/L], 0 to 40.
        temperature_c: water temperature [deg C], 0 to 40.
        altitude_m: as in `oxygen_saturation`.
        station_pressure_hpa: as in `oxygen_saturation`.

    Returns:
        Percent of saturation [%]; above 100 where plants or pure oxygen overfill the water.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        `oxygen_saturation`.
    """
    check_range(oxygen_mg_per_l=(measured_mg_per_l, 0, 40))
    saturation = oxygen_saturation(temperature_c, altitude_m=altitude_m, station_pressure_hpa=station_pressure_hpa)
    return 100 * measured_mg_per_l / saturation


def _saturation_at_one_atm(temperature_c: float) -> float:
    kelvin = temperature_c + KELVIN
    return math.exp(
        -139.34411 + 1.575701e5 / kelvin - 6.642308e7 / kelvin**2 + 1.243800e10 / kelvin**3 - 8.621949e11 / kelvin**4
    )


def _pressure_factor(temperature_c: float, atm: float) -> float:
    kelvin = temperature_c + KELVIN
    vapour = math.exp(11.8571 - 3840.70 / kelvin - 216961 / kelvin**2)
    # Some software has 0.00975 here, ten times too much.
    theta = 0.000975 - 1.426e-5 * temperature_c + 6.436e-8 * temperature_c**2
    return atm * (1 - vapour / atm) * (1 - theta * atm) / ((1 - vapour) * (1 - theta))


RESTING_ML_PER_HOUR = 0.3
"""Oxygen that a fish of 1 g at rest takes at 20 deg C [mL/h at 0 deg C, 1 atm]."""
WEIGHT_EXPONENT = 0.8
OXYGEN_MG_PER_ML = 1.429
Q10 = 2.0
"""How many times more a fish breathes per 10 deg C."""
FED_FACTOR = 2.5
"""How many times more than at rest a fish breathes in the hours after a feed or when it is stirred up."""
RESPIRATION_STANDING = "from memory, chosen on the safe side"


def oxygen_demand(mean_g: float, temperature_c: float, *, fed: bool) -> float:
    """Oxygen that fish breathe, for their weight and temperature, rather too much than too little.

    Args:
        mean_g: mean weight of a fish [g], 0.02 to 5000.
        temperature_c: water temperature [deg C], 0 to 36.
        fed: whether they were fed in the last 24 hours, or are disturbed.

    Returns:
        Oxygen demand [mg per kg of fish per hour].

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        From memory, not read in the source: Winberg (1956), rate of metabolism of fishes, 0.3 W^0.8 mL/h
        at 20 deg C. The rise with temperature (twofold per 10 deg C) and the factor 2.5 for fed fish are
        set so that the result stays at or above the respiration published for catfish (Boyd, Romaire,
        Johnston 1978, also from memory).
    """
    check_range(mean_weight_g=(mean_g, 0.02, 5000), temperature_c=(temperature_c, 0, 36))
    resting_mg_per_g = RESTING_ML_PER_HOUR * OXYGEN_MG_PER_ML * math.pow(mean_g, WEIGHT_EXPONENT - 1)
    at_temperature = 1000 * resting_mg_per_g * math.pow(Q10, (temperature_c - 20) / 10)
    return at_temperature * (FED_FACTOR if fed else 1.0)


OTHER_DEMAND_SHARE = 0.5
"""What bacteria, solids and roots breathe, as a share of the fish; a margin, not a measurement."""
ASSUMED_PERCENT = 80.0
"""Starting oxygen when none was measured, in percent of saturation: stocked tanks seldom stand at 100."""
USUAL_FLOOR_MG_PER_L = 4.0
"""Oxygen not to fall below where the species names no floor of its own; common practice."""
LEAVES_OUT = (
    "Bacteria, solids and plant roots breathe too: counted as a set share of the fish, not measured.",
    "Layers: warm or still water at the bottom runs out before the average does.",
    "Air taken up at the surface is not counted; it lengthens the time a little.",
    "Plants give no oxygen in the dark; light on the water is not counted.",
    "Rising carbon dioxide and ammonia harm fish before oxygen alone would.",
)
"""What the estimate of `minutes_without_power` does not see."""


@dataclass(frozen=True, slots=True)
class PowerCut:
    """How long oxygen lasts and what the answer rests on.

    `minutes` until the limit, 0 when it is reached already; start in mg/L and whether it was measured;
    demand of fish and of all else in g of oxygen per hour; `leaves_out` in words; `standing` of the
    respiration behind it.
    """

    minutes: float
    start_mg_per_l: float
    start_measured: bool
    fish_demand_g_per_h: float
    other_demand_g_per_h: float
    leaves_out: tuple[str, ...] = LEAVES_OUT
    standing: str = RESPIRATION_STANDING


def minutes_without_power(
    *,
    volume_l: float,
    biomass_kg: float,
    mean_g: float,
    temperature_c: float,
    limit_mg_per_l: float,
    fed: bool = True,
    measured_mg_per_l: float | None = None,
    altitude_m: float = 0.0,
    other_share: float = OTHER_DEMAND_SHARE,
) -> PowerCut:
    """Minutes until oxygen falls to a limit when pump and air have stopped, rather too short than too long.

    minutes = 60 * volume * (start - limit) / (demand of fish * (1 + other_share)). Demand stays as it is at
    the start, though fish breathe less as oxygen runs short; oxygen above saturation is not counted. What
    else is left out stands in `LEAVES_OUT` and comes back with the answer.

    Args:
        volume_l: water left with the fish once flow stops [L], above 0.
        biomass_kg: live fish in it [kg], above 0.
        mean_g: mean weight of a fish [g], 0.02 to 5000.
        temperature_c: water temperature [deg C], 0 to 36.
        limit_mg_per_l: oxygen not to fall below [mg/L], 0 to 15.
        fed: whether the fish were fed in the last 24 hours; True is the safe side.
        measured_mg_per_l: oxygen now [mg/L], 0 to 40; None takes 80 % of saturation.
        altitude_m: height above sea level [m], -430 to 5000.
        other_share: breathing of all else as a share of that of the fish [-], 0 to 5.

    Returns:
        Minutes, and what they rest on.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        Mass balance; `oxygen_saturation` (published), `oxygen_demand` (from memory, on the safe side).
    """
    check_positive(volume_l=volume_l, biomass_kg=biomass_kg)
    check_range(limit_mg_per_l=(limit_mg_per_l, 0, 15), other_share=(other_share, 0, 5))
    start = _starting_oxygen(measured_mg_per_l, temperature_c, altitude_m)
    fish_g_per_h = oxygen_demand(mean_g, temperature_c, fed=fed) * biomass_kg / 1000
    usable_g = volume_l * max(0.0, start - limit_mg_per_l) / 1000
    minutes = 60 * usable_g / (fish_g_per_h * (1 + other_share))
    return PowerCut(minutes, start, measured_mg_per_l is not None, fish_g_per_h, fish_g_per_h * other_share)


def _starting_oxygen(measured_mg_per_l: float | None, temperature_c: float, altitude_m: float) -> float:
    saturation = oxygen_saturation(temperature_c, altitude_m=altitude_m)
    if measured_mg_per_l is None:
        return saturation * ASSUMED_PERCENT / 100
    check_range(oxygen_mg_per_l=(measured_mg_per_l, 0, 40))
    return min(measured_mg_per_l, saturation)
