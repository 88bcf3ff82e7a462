"""Energy and weight: what moving the water takes, and what a full unit weighs on its frame and floor."""

from __future__ import annotations

import math

from farmops.model.frozen import dataclass
from farmops.science.flow import GRAVITY, water_density
from farmops.science.ranges import check_positive, check_range

LOAD_KG_PER_L = 1.0
"""Water's weight for loads [kg/L], rounded up."""

WEIGHT_CAUTIONS = (
    "A bulk container full of water weighs about a tonne, before media: a kilogram for every litre.",
    "Stand it on level, firm ground or a floor known to bear it. A raised bed needs a frame of its own, "
    "never the container's cage or the tank's rim.",
    "Have floors, decks, roofs and frames judged by a licensed engineer, and follow the local code.",
    "Never move or lift a unit with water in it.",
)
"""Common practice, to be shown wherever a weight is."""


@dataclass(frozen=True, slots=True)
class WetWeight:
    """What a unit weighs when full, by part [kg]."""

    tank_water_kg: float
    bed_water_kg: float
    media_kg: float
    frame_kg: float

    @property
    def total_kg(self) -> float:
        """All parts together [kg]."""
        return self.tank_water_kg + self.bed_water_kg + self.media_kg + self.frame_kg


def hydraulic_power(flow_l_per_h: float, head_m: float, temperature_c: float = 20.0) -> float:
    """Power [W] that lifting water takes, rho g Q H.

    Args:
        flow_l_per_h: flow [L/h].
        head_m: total head, lift and losses [m].
        temperature_c: of the water [deg C], 0 to 40.
    """
    check_range(flow_l_per_h=(flow_l_per_h, 0, math.inf), head_m=(head_m, 0, math.inf))
    return water_density(temperature_c) * GRAVITY * flow_l_per_h / 3.6e6 * head_m


def electric_power(hydraulic_w: float, efficiency: float) -> float:
    """Power [W] a pump draws for a hydraulic power [W] at an overall efficiency [-], above 0 to 1."""
    check_range(hydraulic_power_w=(hydraulic_w, 0, math.inf), efficiency=(efficiency, 0, 1))
    check_positive(efficiency=efficiency)
    return hydraulic_w / efficiency


def overall_efficiency(hydraulic_w: float, electric_w: float) -> float:
    """Share of the power drawn [W] that reaches the water [W]; OutOfRange where it would be above 1."""
    check_positive(electric_power_w=electric_w)
    check_range(hydraulic_power_w=(hydraulic_w, 0, math.inf))
    efficiency = hydraulic_w / electric_w
    check_range(efficiency=(efficiency, 0, 1))
    return efficiency


def energy(power_w: float, hours: float) -> float:
    """Energy [kWh] of a power [W] over a time [h]."""
    check_range(power_w=(power_w, 0, math.inf), running_hours=(hours, 0, math.inf))
    return power_w * hours / 1000


def energy_per_day(power_w: float, hours_per_day: float = 24.0) -> float:
    """Energy a day [kWh/day] of a power [W] that runs so many hours a day, 0 to 24."""
    check_range(daily_hours=(hours_per_day, 0, 24))
    return energy(power_w, hours_per_day)


def wet_weight(
    tank_l: float,
    bed_water_l: float = 0.0,
    media_l: float = 0.0,
    media_kg_per_l: float = 0.0,
    frame_kg: float = 0.0,
) -> WetWeight:
    """What a unit weighs with tank and bed both full, as when a siphon blocks and the tank is topped up.

    Show WEIGHT_CAUTIONS beside it.

    Args:
        tank_l: water in the tank [L].
        bed_water_l: water between the media when the bed is full to its overflow [L].
        media_l: heaped volume of the media [L].
        media_kg_per_l: weight of a litre of it, soaked and drained [kg/L]; weigh a bucket.
        frame_kg: frame, containers and pipes [kg].
    """
    check_range(tank_l=(tank_l, 0, math.inf), bed_water_l=(bed_water_l, 0, math.inf))
    check_range(media_l=(media_l, 0, math.inf), weight_of_a_litre_of_media_kg=(media_kg_per_l, 0, 8))
    check_range(frame_kg=(frame_kg, 0, math.inf))
    return WetWeight(tank_l * LOAD_KG_PER_L, bed_water_l * LOAD_KG_PER_L, media_l * media_kg_per_l, frame_kg)


def floor_load(total_kg: float, footprint_m2: float) -> float:
    """Weight per area of floor [kg/m2] of a unit [kg] on its footprint [m2]; feet press harder than this."""
    check_range(total_kg=(total_kg, 0, math.inf))
    check_positive(footprint_m2=footprint_m2)
    return total_kg / footprint_m2
