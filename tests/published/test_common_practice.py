"""A cut container and its fittings as growers tell of them: what the sentences imply, and whether they agree.

None of these facts has a source. What the sums find:

- The container agrees with itself. On 40 x 48 in, 175 gal stand 21 in deep and the other 100 gal make a bed 12 in
  deep; twelve bags of clay lie 9.5 in deep, 1.5 in of it dry above 8 in of water. A flood is 27 to 33 gal.
- The tap gives 4.4 gal/min for the tank alone, 5.2 with the first flood: a garden hose.
- Bell and standpipe agree: the ring between them is near five times as wide as the bore, so the standpipe meters.
- The pump is not what its label says. Through a 3/4 in tube it brings 440 to 770 gal/h, not 1,600; a wide tube would
  let about twice as much through. The tube limits, not the pump.
- The cycle agrees, but only just. Nine and a half minutes ask 170 to 210 gal/h of inflow at the least and a siphon of
  670 to 840 gal/h; a 3/4 in standpipe that falls 2 ft below the bed carries 680. So it is about the shortest cycle
  these parts can do: with open clay, and with 340 gal/h into the bed. All that the tube brings would take 10 minutes
  behind the weakest pump assumed, 13 and more behind the others, or dribble: the side branch has to spill the rest.

Assumed throughout: a footprint of 40 x 48 in, straight sides, schedule 40 pipe, water at 20 C.
"""

from __future__ import annotations

import math
from itertools import product

import pytest

from farmops.model.errors import OutOfRange
from farmops.quantities import LENGTH, VOLUME
from farmops.science.flow import (
    Limit,
    Pipe,
    PumpCurve,
    drainable_volume,
    duty_point,
    fill_time,
    level_fall,
    siphon_cycle,
    siphon_discharge,
    what_limits,
)
from tests.labels import common_practice

INCH = float(LENGTH.unit("in").size / LENGTH.unit("m").size)
GALLON = float(VOLUME.unit("gal").size / VOLUME.unit("L").size)

CONTAINER = 275 * GALLON
TANK = 175 * GALLON
FOOTPRINT = (40 * INCH) * (48 * INCH)
BED_DEPTH = (CONTAINER - TANK) / 1000 / FOOTPRINT
FLOOD_DEPTH = 8 * INCH
CLAY = 12 * 25.0
CYCLE_MINUTES = 9.5

VOIDS = (0.40, 0.50)
"""Room between balls of expanded clay: from memory, no table found."""
FLOODS = [drainable_volume(FOOTPRINT, FLOOD_DEPTH, void) for void in VOIDS]

RATED = 1600 * GALLON
SHUT_OFF_FEET = (8, 10, 12)
"""How high a pump of that label lifts at the most: assumed."""
SHAPES = (1, 2)
"""The curve falls as the flow, or as its square: assumed, most pumps lie between."""
TUBE_FEET = (4, 8)
LIFT = 36 * INCH
"""From the tank's surface over a bed of 12 in that stands 24 in above it: assumed."""
PUMPS = list(product(SHUT_OFF_FEET, SHAPES, TUBE_FEET))

BORE = 0.0209
BORE_OUTSIDE = 0.0267
BELL_BORE = 0.0525
"""Schedule 40 pipe of 3/4 in, inside and outside, and of 2 in [m]."""


def curve(shut_off_feet: float, shape: int) -> PumpCurve:
    """A pump that passes its label at no head, in eight straight pieces."""
    shut_off = shut_off_feet * 12 * INCH
    return PumpCurve(tuple((RATED * at / 8, shut_off * (1 - (at / 8) ** shape)) for at in range(9)))


def tube(feet: float) -> Pipe:
    """Tube of 3/4 in with an entry, two bends and an outlet."""
    return Pipe(0.75 * INCH, feet * 12 * INCH, minor_k=0.5 + 2 * 0.9 + 1)


def brought(pump: tuple[float, int, float]) -> float:
    """What a pump brings through its tube [L/h]."""
    shut_off, shape, feet = pump
    return duty_point(curve(shut_off, shape), LIFT, [tube(feet)]).flow_l_per_h


def standpipe(drop_inches: float) -> float:
    """What the standpipe carries at its mean head [L/h], falling so far below the bed's floor."""
    pipe = Pipe(BORE, (drop_inches + 8) * INCH, minor_k=0.5 + 0.9)
    return siphon_discharge(pipe, (drop_inches + 4) * INCH)


def shortest_cycle(flood_l: float, siphon_l_per_h: float) -> float:
    """Minutes of the quickest cycle: V/Q + V/(S - Q) is least where half of what the siphon carries comes in."""
    return siphon_cycle(flood_l, siphon_l_per_h / 2, siphon_l_per_h).cycle_minutes


def cycle_minutes(inflow_l_per_h: float, siphon_l_per_h: float) -> float:
    """Minutes of a cycle in open clay; without end where the siphon falls behind and dribbles."""
    try:
        return siphon_cycle(FLOODS[0], inflow_l_per_h, siphon_l_per_h).cycle_minutes
    except OutOfRange:
        return math.inf


@common_practice("a container of 275 gal is cut so that 175 gal stay below")
def test_the_cut_leaves_a_tank_and_a_bed_of_usual_depth() -> None:
    """The 100 gal above the cut are a bed of 12 in, the usual depth; the tank below is 21 in deep."""
    tank_depth = TANK / 1000 / FOOTPRINT
    assert [tank_depth / INCH, BED_DEPTH / INCH] == pytest.approx([21, 12], abs=0.5)


@common_practice("a bed is kept under 8 in of water")
def test_the_flood_fits_the_bed_and_leaves_the_fish_their_water() -> None:
    """The bed holds 8 in below its rim; the flood is 27 to 33 gal, a fifth of the tank at most, 3 to 4 in of it."""
    assert FLOOD_DEPTH < BED_DEPTH - 2 * INCH
    assert [flood / GALLON for flood in FLOODS] == pytest.approx([26.6, 33.2], abs=0.5)
    assert max(FLOODS) < TANK / 5
    assert [level_fall(flood, FOOTPRINT) / INCH for flood in FLOODS] == pytest.approx([3.2, 4.0], abs=0.2)


@common_practice("a bed takes twelve bags of 25 L of clay")
def test_twelve_bags_cover_the_water_and_stay_below_the_rim() -> None:
    """300 L lie 9.5 in deep: a dry inch or two above the water, room below the rim; ten or sixteen bags would not."""
    depth = CLAY / 1000 / FOOTPRINT
    assert depth / INCH == pytest.approx(9.5, abs=0.2)
    assert 1 * INCH < depth - FLOOD_DEPTH < 2 * INCH
    assert depth < BED_DEPTH
    assert 10 * 25 / 1000 / FOOTPRINT < FLOOD_DEPTH
    assert 16 * 25 / 1000 / FOOTPRINT > BED_DEPTH


@common_practice("about 40 minutes fill it from a tap")
def test_the_tap_runs_like_a_garden_hose() -> None:
    """The tank alone or with the first flood: 4 to 5.5 gal/min; the whole container would ask near 7."""
    implied = [volume / GALLON / 40 for volume in (TANK, *(TANK + flood for flood in FLOODS))]
    assert implied == pytest.approx([4.4, 5.0, 5.2], abs=0.1)
    assert fill_time(TANK + FLOODS[0], 5 * 60 * GALLON) == pytest.approx(40, abs=2)
    assert fill_time(CONTAINER, 5 * 60 * GALLON) > 50


@common_practice("a 2 in bell stands over a 3/4 in standpipe")
def test_the_bell_never_throttles_its_standpipe() -> None:
    """The ring between bell and standpipe is near five times as wide as the bore, so the standpipe meters the drain."""
    ring = math.pi / 4 * (BELL_BORE**2 - BORE_OUTSIDE**2)
    assert ring / (math.pi / 4 * BORE**2) == pytest.approx(4.7, abs=0.1)


@common_practice("a pump of 1,600 gal/h pushes through a 3/4 in tube with a side branch for air")
@pytest.mark.parametrize("pump", PUMPS)
def test_the_tube_limits_and_not_the_pump(pump: tuple[float, int, float]) -> None:
    """A quarter to a half of the label comes through; a wide tube would pass twice as much, whatever the curve."""
    shut_off, shape, feet = pump
    flow = brought(pump)
    assert 0.25 < flow / RATED < 0.5
    wide_siphon = 2 * RATED
    assert what_limits(curve(shut_off, shape), LIFT, [tube(feet)], wide_siphon).limit is Limit.PIPE
    unhindered = duty_point(curve(shut_off, shape), LIFT, ()).flow_l_per_h
    assert 1.75 < unhindered / flow < 2.4


@common_practice("a pump of 1,600 gal/h pushes through a 3/4 in tube with a side branch for air")
def test_through_a_tube_twice_as_wide_the_pump_limits() -> None:
    """The counter-check: with 1 1/2 in the same pump is what holds the flow down."""
    wide = Pipe(1.5 * INCH, 4 * 12 * INCH, minor_k=0.5 + 2 * 0.9 + 1)
    assert what_limits(curve(10, 1), LIFT, [wide], 2 * RATED).limit is Limit.PUMP


@common_practice("a full cycle of filling and draining takes about nine and a half minutes")
def test_the_cycle_asks_less_than_the_tube_brings() -> None:
    """Even if it drained at once, 170 to 210 gal/h would have to come in: every pump and tube above brings more."""
    least = [flood / CYCLE_MINUTES * 60 / GALLON for flood in FLOODS]
    assert least == pytest.approx([168, 210], abs=2)
    assert min(brought(pump) for pump in PUMPS) / GALLON > max(least)
    assert fill_time(min(FLOODS), RATED) < 1.1


@common_practice("a full cycle of filling and draining takes about nine and a half minutes")
def test_the_cycle_is_about_the_shortest_the_standpipe_can_do() -> None:
    """It asks a siphon of four floods per cycle, 670 to 840 gal/h; 3/4 in falling 2 ft carries 680: open clay only."""
    asked = [4 * flood / CYCLE_MINUTES * 60 / GALLON for flood in FLOODS]
    assert asked == pytest.approx([672, 840], abs=3)
    assert standpipe(24) / GALLON == pytest.approx(676, abs=10)
    assert shortest_cycle(FLOODS[0], standpipe(24)) == pytest.approx(CYCLE_MINUTES, abs=0.5)
    assert shortest_cycle(FLOODS[1], standpipe(24)) > CYCLE_MINUTES + 2
    assert shortest_cycle(FLOODS[0], standpipe(12)) > CYCLE_MINUTES + 2


@common_practice("the side branch takes part of the pump's water")
@pytest.mark.parametrize("pump", [pump for pump in PUMPS if pump[0] >= 10])
def test_without_the_side_branch_the_siphon_falls_behind(pump: tuple[float, int, float]) -> None:
    """All that the tube brings takes far longer to drain, or dribbles; 340 gal/h give the cycle told of."""
    flow, siphon = brought(pump), standpipe(24)
    assert cycle_minutes(340 * GALLON, siphon) == pytest.approx(CYCLE_MINUTES, abs=0.5)
    assert cycle_minutes(flow, siphon) > 12
