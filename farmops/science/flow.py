"""Flow: beds that fill and drain by siphon, what pipes cost in head, and the pump that meets them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from enum import StrEnum

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.science.ranges import check_positive, check_range

GRAVITY = 9.80665
"""Standard acceleration of gravity [m/s2]."""

SMOOTH_PLASTIC_M = 1.5e-6
"""Roughness of new plastic pipe [m]; slime inside a used one is rougher."""

LAMINAR_BELOW = 2000.0
TURBULENT_ABOVE = 4000.0
"""Reynolds numbers [-] between which no friction formula holds."""

PIPE_COUNTS_FROM = 0.25
"""Share of the pump's flow that its pipe may take before the pipe is named as the limit (a convention)."""


class Regime(StrEnum):
    """How water moves in a pipe; a loss found in transition is a guess between two formulas."""

    STILL = "still"
    LAMINAR = "laminar"
    TRANSITION = "transition"
    TURBULENT = "turbulent"


@dataclass(frozen=True, slots=True)
class Pipe:
    """A run of round pipe of one bore.

    bore_m and length_m [m], roughness_m [m], and minor_k, the sum of the loss coefficients of its
    entry (0.5), elbows (0.9 each), valves and exit [-]. Raises OutOfRange where one is not possible.
    """

    bore_m: float
    length_m: float
    minor_k: float = 0.0
    roughness_m: float = SMOOTH_PLASTIC_M

    def __post_init__(self) -> None:
        check_positive(bore_m=self.bore_m)
        check_range(length_m=(self.length_m, 0, math.inf), minor_k=(self.minor_k, 0, math.inf))
        check_range(relative_roughness=(self.roughness_m / self.bore_m, 0, 0.05))


@dataclass(frozen=True, slots=True)
class HeadLoss:
    """Head lost in a pipe [m], with velocity [m/s], Reynolds number, friction factor [-] and regime."""

    head_m: float
    velocity_m_per_s: float
    reynolds: float
    friction_factor: float
    regime: Regime


@dataclass(frozen=True, slots=True)
class SiphonCycle:
    """One flood and drain of a bed [minutes]."""

    fill_minutes: float
    drain_minutes: float

    @property
    def cycle_minutes(self) -> float:
        """From empty to empty again [minutes]."""
        return self.fill_minutes + self.drain_minutes

    @property
    def cycles_per_hour(self) -> float:
        """Floods in an hour [1/h]."""
        return 60 / self.cycle_minutes


@dataclass(frozen=True, slots=True)
class PumpCurve:
    """Points (flow [L/h], head [m]) of a pump's curve: flow rising, head never rising, at least two.

    Raises OutOfRange where the points run otherwise.
    """

    points: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        if len(self.points) < 2:
            raise OutOfRange("a pump curve needs at least two points of flow and head")
        for flow, head in self.points:
            check_range(flow_l_per_h=(flow, 0, math.inf), head_m=(head, 0, math.inf))
        for (flow, head), (next_flow, next_head) in zip(self.points, self.points[1:], strict=False):
            if next_flow <= flow or next_head > head:
                raise OutOfRange(
                    f"the pump curve turns back after {flow:g} L/h at {head:g} m: "
                    "flow must rise from point to point, head must not"
                )

    def head_at(self, flow_l_per_h: float) -> float:
        """Head [m] at a flow [L/h], on straight lines between the points, never beyond them."""
        check_range(flow_l_per_h=(flow_l_per_h, self.points[0][0], self.points[-1][0]))
        for (flow, head), (next_flow, next_head) in zip(self.points, self.points[1:], strict=False):
            if flow_l_per_h <= next_flow:
                share = (flow_l_per_h - flow) / (next_flow - flow)
                return head + share * (next_head - head)
        return self.points[-1][1]


@dataclass(frozen=True, slots=True)
class DutyPoint:
    """Where pump and pipes meet: flow [L/h], head [m], how much of the head is loss [m].

    `guessed` is True where some pipe runs in the transition between laminar and turbulent.
    """

    flow_l_per_h: float
    head_m: float
    loss_m: float
    guessed: bool


class Limit(StrEnum):
    """What holds the flow down."""

    PUMP = "pump"
    PIPE = "pipe"
    SIPHON = "siphon"


@dataclass(frozen=True, slots=True)
class FlowLimit:
    """What holds the flow down, the flow that runs [L/h], and the reason in words."""

    limit: Limit
    flow_l_per_h: float
    words: str


def water_density(temperature_c: float) -> float:
    """Density of fresh water at 1 atm [kg/m3] from its temperature [deg C], 0 to 40.

    Source:
        Kell (1975), J. Chem. Eng. Data 20:97-105, from memory; checked against TEOS-10 at salinity 0.
    """
    check_range(temperature_c=(temperature_c, 0, 40))
    t = temperature_c
    series = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return series / (1 + 16.879850e-3 * t)


def water_viscosity(temperature_c: float) -> float:
    """Dynamic viscosity of fresh water at 1 atm [Pa s] from its temperature [deg C], 0 to 40.

    Source:
        Kestin, Sokolov and Wakeham (1978), J. Phys. Chem. Ref. Data 7:941-948, from memory.
    """
    check_range(temperature_c=(temperature_c, 0, 40))
    d = 20 - temperature_c
    return 1.002e-3 * 10 ** (d / (temperature_c + 96) * (1.2364 - 1.37e-3 * d + 5.7e-6 * d * d))


def drainable_volume(area_m2: float, working_depth_m: float, void_fraction: float) -> float:
    """Water [L] that leaves a bed at each drain.

    Args:
        area_m2: area of the bed [m2].
        working_depth_m: from the siphon's air inlet to the top of its standpipe [m].
        void_fraction: room between the stones [-], up to 1 for a bed without media. Measure it: fill a
            bucket with media, add water to the surface; water added / bucket volume.
    """
    check_positive(area_m2=area_m2, working_depth_m=working_depth_m, void_fraction=void_fraction)
    check_range(void_fraction=(void_fraction, 0, 1))
    return area_m2 * working_depth_m * void_fraction * 1000


def fill_time(volume_l: float, inflow_l_per_h: float) -> float:
    """Minutes to fill a drainable volume [L] at an inflow [L/h]."""
    check_positive(volume_l=volume_l, inflow_l_per_h=inflow_l_per_h)
    return volume_l / inflow_l_per_h * 60


def drain_time(volume_l: float, siphon_l_per_h: float, inflow_l_per_h: float) -> float:
    """Minutes to drain a volume [L] by a siphon while the pump keeps running [both L/h].

    The siphon's flow is taken as constant at its mean head.

    Raises:
        OutOfRange: the siphon does not carry more than flows in, so that it never breaks.
    """
    check_positive(volume_l=volume_l, siphon_l_per_h=siphon_l_per_h)
    check_range(inflow_l_per_h=(inflow_l_per_h, 0, math.inf))
    if siphon_l_per_h <= inflow_l_per_h:
        raise OutOfRange(
            f"the siphon carries {siphon_l_per_h:.0f} L/h and {inflow_l_per_h:.0f} L/h flow in: the bed "
            "never drains and the siphon never breaks, it dribbles. Throttle the inflow or widen the siphon."
        )
    return volume_l / (siphon_l_per_h - inflow_l_per_h) * 60


def siphon_cycle(volume_l: float, inflow_l_per_h: float, siphon_l_per_h: float) -> SiphonCycle:
    """Fill and drain of a bed of a drainable volume [L]; refused as in `drain_time`."""
    return SiphonCycle(fill_time(volume_l, inflow_l_per_h), drain_time(volume_l, siphon_l_per_h, inflow_l_per_h))


def level_fall(volume_l: float, tank_area_m2: float) -> float:
    """How far [m] the level of a tank of a surface [m2] falls when a volume [L] stands in the bed."""
    check_range(volume_l=(volume_l, 0, math.inf))
    check_positive(tank_area_m2=tank_area_m2)
    return volume_l / 1000 / tank_area_m2


def water_left_if_bed_holds(tank_l: float, bed_takes_l: float, below_intake_l: float = 0.0) -> float:
    """Water left for the fish [L] when the siphon is blocked and the bed fills to its brim.

    Args:
        tank_l: water in the tank when the bed is empty [L].
        bed_takes_l: water the bed takes up to where it overflows, and not back into the tank [L].
        below_intake_l: water below the pump's intake, which it cannot lift [L].
    """
    check_range(tank_l=(tank_l, 0, math.inf), bed_takes_l=(bed_takes_l, 0, math.inf))
    return max(tank_l - bed_takes_l, water_left_if_bed_leaks(tank_l, below_intake_l))


def water_left_if_bed_leaks(tank_l: float, below_intake_l: float) -> float:
    """Water left for the fish [L] when all that is pumped up is lost: what lies below the intake [L]."""
    check_range(tank_l=(tank_l, 0, math.inf), below_intake_l=(below_intake_l, 0, math.inf))
    return min(tank_l, below_intake_l)


def turnover_per_hour(flow_l_per_h: float, tank_l: float) -> float:
    """Tank volumes that pass in an hour [1/h] at a flow [L/h] through a tank [L]."""
    check_range(flow_l_per_h=(flow_l_per_h, 0, math.inf))
    check_positive(tank_l=tank_l)
    return flow_l_per_h / tank_l


def orifice_discharge(bore_m: float, head_m: float, discharge_coefficient: float = 0.60) -> float:
    """Flow [L/h] out of a sharp opening or short siphon, by Torricelli with a coefficient.

    Args:
        bore_m: inner diameter [m].
        head_m: from the water's surface down to the outlet [m].
        discharge_coefficient: 0.60 to 0.62 for a sharp edge [-], up to 1 for no loss.
    """
    check_positive(bore_m=bore_m, discharge_coefficient=discharge_coefficient)
    check_range(head_m=(head_m, 0, math.inf), discharge_coefficient=(discharge_coefficient, 0, 1))
    return discharge_coefficient * _flow(math.sqrt(2 * GRAVITY * head_m), bore_m)


def siphon_discharge(pipe: Pipe, head_m: float, temperature_c: float = 20.0, friction: float | None = None) -> float:
    """Flow [L/h] of a full siphon, from h = (1 + K + f L/D) v2/2g.

    Args:
        pipe: the siphon's pipe; its minor_k holds entry and elbows, the 1 is the jet that leaves.
        head_m: from the water's surface down to the outlet [m]; it falls while the bed drains, so give
            the mean for a drain time.
        temperature_c: of the water [deg C], 0 to 40.
        friction: a friction factor taken as given [-]; None finds it for the flow that results.
    """
    check_range(head_m=(head_m, 0, math.inf))
    if friction is not None:
        check_range(friction=(friction, 0, 1))
        losses = 1 + pipe.minor_k + friction * pipe.length_m / pipe.bore_m
        return _flow(math.sqrt(2 * GRAVITY * head_m / losses), pipe.bore_m)

    def short_of(velocity: float) -> float:
        loss = _loss_at(velocity, pipe, temperature_c)
        return loss.head_m + velocity**2 / (2 * GRAVITY) - head_m

    return _flow(_root(short_of, 0.0, math.sqrt(2 * GRAVITY * head_m)), pipe.bore_m)


def regime_of(reynolds: float) -> Regime:
    """Laminar below Reynolds number 2000, turbulent above 4000, transition between."""
    check_range(reynolds=(reynolds, 0, math.inf))
    if reynolds == 0:
        return Regime.STILL
    if reynolds < LAMINAR_BELOW:
        return Regime.LAMINAR
    return Regime.TURBULENT if reynolds > TURBULENT_ABOVE else Regime.TRANSITION


def friction_factor(reynolds: float, relative_roughness: float = 0.0) -> float:
    """Darcy friction factor of a full round pipe [-].

    Laminar 64/Re; turbulent by Colebrook, iterated. In transition no formula holds: a straight line joins
    the two so that losses stay continuous; `regime_of` tells when.

    Args:
        reynolds: Reynolds number [-], above 0 to 1e8.
        relative_roughness: roughness / bore [-], 0 to 0.05.

    Source:
        Colebrook (1939), J. Inst. Civ. Eng. 11:133-156: 1/sqrt(f) = -2 log10(e/3.7 + 2.51/(Re sqrt(f))).
    """
    check_positive(reynolds=reynolds)
    check_range(reynolds=(reynolds, 0, 1e8), relative_roughness=(relative_roughness, 0, 0.05))
    regime = regime_of(reynolds)
    if regime is Regime.LAMINAR:
        return 64 / reynolds
    if regime is Regime.TURBULENT:
        return _colebrook(reynolds, relative_roughness)
    share = (reynolds - LAMINAR_BELOW) / (TURBULENT_ABOVE - LAMINAR_BELOW)
    return (1 - share) * 64 / LAMINAR_BELOW + share * _colebrook(TURBULENT_ABOVE, relative_roughness)


def head_loss(flow_l_per_h: float, pipe: Pipe, temperature_c: float = 20.0) -> HeadLoss:
    """Head lost in a full pipe by Darcy-Weisbach, h = (f L/D + K) v2/2g.

    Args:
        flow_l_per_h: flow [L/h], 0 and more.
        pipe: bore, length, loss coefficients, roughness.
        temperature_c: of the water [deg C], 0 to 40.
    """
    check_range(flow_l_per_h=(flow_l_per_h, 0, math.inf))
    return _loss_at(flow_l_per_h / _flow(1.0, pipe.bore_m), pipe, temperature_c)


def hazen_williams_head_loss(
    flow_l_per_h: float, pipe: Pipe, roughness_c: float = 150.0, temperature_c: float = 20.0
) -> float:
    """Head lost to friction alone [m] by Hazen-Williams, h = 10.67 L Q^1.852 / (C^1.852 D^4.8704).

    A second opinion on `head_loss`, which is the better one. On smooth pipe of 13 to 53 mm this lies within
    15 % of it from Reynolds number 11,000 up at 20 C, 20,000 up at 5 C; at 4000 it is up to 30 % too low.

    Args:
        flow_l_per_h: flow [L/h].
        pipe: bore and length; its loss coefficients and roughness play no part.
        roughness_c: Hazen-Williams coefficient [-], 80 to 160; 150 for new plastic.
        temperature_c: of the water [deg C].

    Raises:
        OutOfRange: Reynolds number of 4000 or less, or water outside 5 to 25 C: use `head_loss`.
    """
    check_range(temperature_c=(temperature_c, 5, 25), hazen_williams_coefficient=(roughness_c, 80, 160))
    reynolds = head_loss(flow_l_per_h, pipe, temperature_c).reynolds
    if reynolds <= TURBULENT_ABOVE:
        raise OutOfRange(
            f"Hazen-Williams holds above Reynolds number 4000, here it is {reynolds:.0f}: use Darcy-Weisbach"
        )
    flow = flow_l_per_h / 3.6e6
    return float(10.67 * pipe.length_m * (flow / roughness_c) ** 1.852 / pipe.bore_m**4.8704)


def system_head(flow_l_per_h: float, static_head_m: float, pipes: Sequence[Pipe], temperature_c: float = 20.0) -> float:
    """Head [m] that a flow [L/h] needs: the lift from surface to outlet [m] and what pipes in a row take."""
    check_range(static_head_m=(static_head_m, 0, math.inf))
    return static_head_m + math.fsum(head_loss(flow_l_per_h, pipe, temperature_c).head_m for pipe in pipes)


def duty_point(curve: PumpCurve, static_head_m: float, pipes: Sequence[Pipe], temperature_c: float = 20.0) -> DutyPoint:
    """Flow and head at which a pump's curve meets its pipes.

    Args:
        curve: the pump's points; nothing is read beyond its ends.
        static_head_m: lift from the tank's surface to the outlet [m].
        pipes: the runs of pipe that follow one another.
        temperature_c: of the water [deg C], 0 to 40.

    Raises:
        OutOfRange: the pump cannot lift so high, or the two meet beyond the last point of its curve.
    """

    def short_of(flow: float) -> float:
        return system_head(flow, static_head_m, pipes, temperature_c) - curve.head_at(flow)

    first, last = curve.points[0][0], curve.points[-1][0]
    if short_of(first) > 0:
        raise OutOfRange(_cannot_lift(curve, short_of(first)))
    if short_of(last) < 0:
        raise OutOfRange(
            f"at {last:.0f} L/h, the end of its curve, the pump still has {-short_of(last):.2f} m of head "
            "to spare: the flow is more than that, but how much the curve does not say"
        )
    flow = _root(short_of, first, last)
    losses = [head_loss(flow, pipe, temperature_c) for pipe in pipes]
    guessed = any(loss.regime is Regime.TRANSITION for loss in losses)
    return DutyPoint(flow, curve.head_at(flow), math.fsum(loss.head_m for loss in losses), guessed)


def what_limits(
    curve: PumpCurve,
    static_head_m: float,
    pipes: Sequence[Pipe],
    siphon_l_per_h: float,
    temperature_c: float = 20.0,
) -> FlowLimit:
    """Whether siphon, pipe or pump holds the flow through a bed down, in words.

    The siphon, where it does not carry more than comes in. Else the pipe, where it takes a quarter or more
    of what the pump would lift through a wide one. Else the pump. Arguments and errors as in `duty_point`;
    siphon_l_per_h is what the siphon carries when full [L/h].
    """
    check_positive(siphon_l_per_h=siphon_l_per_h)
    flow = duty_point(curve, static_head_m, pipes, temperature_c).flow_l_per_h
    if siphon_l_per_h <= flow:
        words = (
            f"The siphon limits: it carries {siphon_l_per_h:.0f} L/h and {flow:.0f} L/h come in. "
            "It never breaks, and the bed may overflow."
        )
        return FlowLimit(Limit.SIPHON, siphon_l_per_h, words)
    wide, words_for_wide = _flow_without_pipes(curve, static_head_m)
    share = 1 - flow / wide if wide else 0.0
    if share >= PIPE_COUNTS_FROM:
        words = f"The pipe limits: it lets {flow:.0f} L/h through, a wide one would pass {words_for_wide}."
        return FlowLimit(Limit.PIPE, flow, words)
    words = f"The pump limits: it lifts {flow:.0f} L/h, and through a wide pipe {words_for_wide}."
    return FlowLimit(Limit.PUMP, flow, words)


def _flow_without_pipes(curve: PumpCurve, static_head_m: float) -> tuple[float, str]:
    last, head = curve.points[-1]
    if head > static_head_m:
        return last, f"{last:.0f} L/h or more"
    flow = duty_point(curve, static_head_m, ()).flow_l_per_h
    return flow, f"{flow:.0f} L/h"


def _cannot_lift(curve: PumpCurve, missing_m: float) -> str:
    flow, head = curve.points[0]
    if flow == 0:
        return f"the pump lifts {head:.2f} m at most, {missing_m:.2f} m too little: no water comes"
    return f"the flow is less than {flow:.0f} L/h, the first point of the pump's curve: how much it does not say"


def _flow(velocity_m_per_s: float, bore_m: float) -> float:
    return velocity_m_per_s * math.pi / 4 * bore_m**2 * 3.6e6


def _loss_at(velocity: float, pipe: Pipe, temperature_c: float) -> HeadLoss:
    viscosity = water_viscosity(temperature_c)
    reynolds = water_density(temperature_c) * velocity * pipe.bore_m / viscosity
    if velocity**2 == 0:
        return HeadLoss(0.0, 0.0, 0.0, 0.0, Regime.STILL)
    friction = friction_factor(reynolds, pipe.roughness_m / pipe.bore_m)
    losses = friction * pipe.length_m / pipe.bore_m + pipe.minor_k
    return HeadLoss(losses * velocity**2 / (2 * GRAVITY), velocity, reynolds, friction, regime_of(reynolds))


def _colebrook(reynolds: float, relative_roughness: float) -> float:
    """Fixed-point iteration on x = 1/sqrt(f); each round gains most of a digit."""
    x = 8.0
    while True:
        better = -2 * math.log10(relative_roughness / 3.7 + 2.51 * x / reynolds)
        if abs(better - x) < 1e-12 * x:
            return 1 / better**2
        x = better


def _root(rising: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function crosses 0 between `low`, where it is not above, and `high`."""
    while True:
        middle = (low + high) / 2
        if not low < middle < high:
            return middle
        if rising(middle) > 0:
            high = middle
        else:
            low = middle
