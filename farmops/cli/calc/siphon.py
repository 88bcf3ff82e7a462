"""`farmops calc siphon`: how a bed floods and drains, and what water is left when something goes wrong."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, belong_together, give, together
from farmops.cli.options import answer_options
from farmops.model.frozen import dataclass
from farmops.science.flow import (
    Pipe,
    drainable_volume,
    fill_time,
    level_fall,
    orifice_discharge,
    siphon_cycle,
    siphon_discharge,
    water_left_if_bed_holds,
    water_left_if_bed_leaks,
)

ENTRY_K = 0.5
ELBOW_K = 0.9
BALANCE = "Balance of volumes; no source is needed."
WATCH = "Time one flood and one drain by the watch: the bed's own figures stand above these."
NO_DRAIN = "Set the pump's intake so high that the water below it keeps the fish alive, whatever leaks."


@dataclass(frozen=True, slots=True)
class Drain:
    """What a siphon carries when full [L/h], and how that was found."""

    l_per_h: float
    how: str


@click.command()
@click.option("--area", type=typed.AREA_M2, help="Bed: 1.2m2, 13sqft or 3x4ft. With --depth and --void.")
@click.option(
    "--depth", type=typed.LENGTH_M, help="From the siphon's air inlet to the top of its standpipe: 25cm, 10in."
)
@click.option("--void", type=typed.PERCENT, help="Room between the stones [%]: water a full bucket of media takes.")
@click.option("--bed-water", type=typed.VOLUME_L, help="Or the water of one flood, measured: 120L or 32gal.")
@click.option("--inflow", type=typed.FLOW, help="What the pump brings: 500L/h or 130gph.")
@click.option("--outflow", type=typed.FLOW, help="What the siphon carries: 1500L/h or 400gph.")
@click.option("--bore", type=typed.LENGTH_M, help="Or its inner width: 25mm or 1in. With --drop.")
@click.option("--drop", type=typed.LENGTH_M, help="From the mean water level down to its outlet: 50cm or 20in.")
@click.option("--pipe", type=typed.LENGTH_M, help="Length of the siphon's pipe. [a short siphon, without friction]")
@click.option("--elbows", type=typed.COUNT, default="0", help="Bends in it. [0]")
@click.option("--tank", type=typed.VOLUME_L, help="Water in the tank when the bed is empty: 1000L or 264gal.")
@click.option("--tank-area", type=typed.AREA_M2, help="Surface of the tank: finds how far its level falls.")
@click.option("--below-intake", type=typed.VOLUME_L, help="Water below the pump's intake: left if the bed leaks.")
@click.option("--brim", type=typed.VOLUME_L, help="Water the bed takes to its brim: left if the siphon blocks.")
@answer_options
def siphon(
    area: float | None,
    depth: float | None,
    void: float | None,
    bed_water: float | None,
    inflow: float | None,
    outflow: float | None,
    bore: float | None,
    drop: float | None,
    pipe: float | None,
    elbows: float,
    tank: float | None,
    tank_area: float | None,
    below_intake: float | None,
    brim: float | None,
    as_json: bool,
) -> None:
    """Fill and drain of a bed; water left for the fish.

    \b
    Says what it can from what you give.
    Examples: farmops calc siphon --bed-water 120L --inflow 500L/h --outflow 1500L/h
              farmops calc siphon --area 1.2m2 --depth 25cm --void 40 --inflow 130gph --bore 1in --drop 20in
              farmops calc siphon --tank 1000L --below-intake 300L
    """
    belong_together(area=area, depth=depth, void=void)
    belong_together(bore=bore, drop=drop)
    if below_intake is not None or brim is not None:
        belong_together(**{"below_intake" if brim is None else "brim": True, "tank": tank})
    volume, volume_part = _volume(area, depth, void, bed_water)
    drain, drain_part = _drain(outflow, bore, drop, pipe, elbows)
    parts = (
        _cycle(volume, inflow, drain),
        volume_part,
        drain_part,
        _fall(volume, tank_area) if volume is not None and tank_area is not None else None,
        _leak(tank, below_intake) if tank is not None and below_intake is not None else None,
        _blocked(tank, brim, below_intake or 0.0) if tank is not None and brim is not None else None,
    )
    missing = "Give the bed's water (--bed-water, or --area --depth --void) with --inflow and --outflow. See --help."
    give(together(parts, missing=missing), as_json=as_json)


def _volume(
    area: float | None, depth: float | None, void: float | None, bed_water: float | None
) -> tuple[float | None, Answer | None]:
    if bed_water is not None:
        return bed_water, None
    if area is None or depth is None or void is None:
        return None, None
    volume = drainable_volume(area, depth, void / 100)
    return volume, Answer(
        (f"One flood moves {shown.litres(volume)}.",),
        {"drainable_l": volume},
        ("Water of a flood = area x working depth x room between the stones.",),
        ("Room between the stones up to 100 %, which is a bed without media.",),
        (BALANCE,),
        ("Measure the room: fill a bucket with media, then with water to the top; water / bucket.",),
    )


def _drain(
    outflow: float | None, bore: float | None, drop: float | None, pipe: float | None, elbows: float
) -> tuple[float | None, Answer | None]:
    if outflow is not None:
        return outflow, None
    if bore is None or drop is None:
        return None, None
    drain = _discharge(bore, drop, pipe, elbows)
    return drain.l_per_h, Answer(
        (f"The siphon carries {shown.flow(drain.l_per_h)} when full.",),
        {"discharge_l_per_h": drain.l_per_h, "bore_m": bore, "drop_m": drop},
        (drain.how,),
        ("A siphon that runs full; smooth new pipe, water of 20 C.",),
        ("Torricelli; Colebrook (1939), J. Inst. Civ. Eng. 11:133-156.",),
        ("Slime and roots make it less. A bell siphon also needs a flow that starts it: only a trial tells.",),
    )


def _discharge(bore: float, drop: float, pipe: float | None, elbows: float) -> Drain:
    if pipe is None:
        return Drain(orifice_discharge(bore, drop), "Flow = 0.60 x opening x square root of (2 g x drop).")
    run = Pipe(bore, pipe, ENTRY_K + ELBOW_K * elbows)
    how = "drop = (1 + 0.5 for the entry + 0.9 for each elbow + friction x length / bore) x velocity^2 / 2g."
    return Drain(siphon_discharge(run, drop), how)


def _cycle(volume: float | None, inflow: float | None, drain: float | None) -> Answer | None:
    if volume is None or inflow is None:
        return None
    if drain is None:
        return _fill(volume, inflow)
    cycle = siphon_cycle(volume, inflow, drain)
    return Answer(
        (
            f"Fills in {shown.few(cycle.fill_minutes)} minutes, drains in {shown.few(cycle.drain_minutes)}: "
            f"a cycle of {shown.few(cycle.cycle_minutes)} minutes, {shown.few(cycle.cycles_per_hour)} floods an hour.",
        ),
        {
            "volume_l": volume,
            "inflow_l_per_h": inflow,
            "outflow_l_per_h": drain,
            "fill_minutes": cycle.fill_minutes,
            "drain_minutes": cycle.drain_minutes,
            "cycle_minutes": cycle.cycle_minutes,
            "cycles_per_hour": cycle.cycles_per_hour,
        },
        ("Fill = water / inflow; drain = water / (siphon - inflow), the pump running on.",),
        ("The siphon must carry more than flows in; its flow is taken as steady.",),
        (BALANCE,),
        (WATCH, "Longer fill: pump or intake. Shorter fill: the bed clogs. Longer drain: roots in the siphon."),
    )


def _fill(volume: float, inflow: float) -> Answer:
    minutes = fill_time(volume, inflow)
    return Answer(
        (f"Fills in {shown.few(minutes)} minutes.",),
        {"volume_l": volume, "inflow_l_per_h": inflow, "fill_minutes": minutes},
        ("Fill = water / inflow.",),
        ("A steady inflow.",),
        (BALANCE,),
        (WATCH,),
    )


def _fall(volume: float, tank_area: float) -> Answer:
    fall = level_fall(volume, tank_area)
    return Answer(
        (f"The tank falls by {shown.length(fall)} while that water stands in the bed.",),
        {"level_fall_m": fall},
        ("Fall = water of a flood / surface of the tank.",),
        ("A tank with upright walls.",),
        (BALANCE,),
        ("Intake and heater must stay under water at the lowest level.",),
    )


def _leak(tank: float, below_intake: float) -> Answer:
    left = water_left_if_bed_leaks(tank, below_intake)
    words = "none: the pump can empty the tank" if left == 0 else f"{shown.litres(left)} stay below the intake"
    return Answer(
        (f"If the bed leaks and the pump runs on, {words}.",),
        {"tank_l": tank, "left_if_bed_leaks_l": left},
        ("Left = what lies below the pump's intake.",),
        ("The worst case: all that is pumped up is lost.",),
        (BALANCE,),
        (NO_DRAIN,),
    )


def _blocked(tank: float, brim: float, below_intake: float) -> Answer:
    left = water_left_if_bed_holds(tank, brim, below_intake)
    return Answer(
        (f"If the siphon blocks, the bed takes {shown.litres(brim)} and {shown.litres(left)} stay in the tank.",),
        {"tank_l": tank, "left_if_siphon_blocks_l": left},
        ("Left = tank - what the bed takes to its brim, and never less than lies below the intake.",),
        ("A bed that overflows back into its tank.",),
        (BALANCE,),
        (NO_DRAIN, "Give every bed an overflow that leads back into the tank."),
    )
