"""`farmops calc power-cut`: how long the oxygen lasts when pump and air have stopped, and what to do first."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, give
from farmops.cli.calc.species import facts_of
from farmops.cli.options import answer_options
from farmops.science.oxygen import USUAL_FLOOR_MG_PER_L, PowerCut, minutes_without_power

FIRST_STEPS = (
    "1. Air: battery bubbler, car battery with inverter, or scoop water and let it fall back, without a pause.",
    "2. No feed until a day after the power is back. Keep people and nets away from the tank.",
    "3. Still no air: move fish to more water, or use bottled oxygen through a fine stone.",
    "4. Power back: see flow, air and level in every unit before you leave; test ammonia in the evening.",
)
DRY_HANDS = "Dry hands at plugs and generators; a generator never runs indoors or feeds house wiring without a switch."


@click.command("power-cut")
@click.option("--water", type=typed.VOLUME_L, required=True, help="Water left with the fish: 1000L or 250gal.")
@click.option("--fish", type=typed.MASS_KG, required=True, help="Live fish in it, all together: 10kg or 22lb.")
@click.option("--mean", type=typed.MASS_G, required=True, help="Weight of one fish: 250g or 9oz.")
@click.option("--temp", type=typed.WATER_C, required=True, help="Water temperature: 24C or 75F.")
@click.option("--limit", type=typed.MG_PER_L, help="Oxygen not to fall below [mg/L]. [the species' floor, else 4]")
@click.option("--species", metavar="NAME", help="Takes the floor of this species, such as nile-tilapia.")
@click.option("--measured", type=typed.MG_PER_L, help="Oxygen now [mg/L]. [80 % of what the water can hold]")
@click.option("--altitude", type=typed.ALTITUDE_M, default="0", help="Height above the sea: 1500m or 4900ft. [0]")
@click.option("--unfed", is_flag=True, help="They had no feed for a day: they breathe less.")
@answer_options
def power_cut(
    water: float,
    fish: float,
    mean: float,
    temp: float,
    limit: float | None,
    species: str | None,
    measured: float | None,
    altitude: float,
    unfed: bool,
    as_json: bool,
) -> None:
    """Minutes the oxygen lasts without pump and air.

    Rather too few than too many.

    \b
    Example: farmops calc power-cut --water 1000L --fish 10kg --mean 250g --temp 24C
    """
    floor = limit if limit is not None else _floor(species)
    cut = minutes_without_power(
        volume_l=water,
        biomass_kg=fish,
        mean_g=mean,
        temperature_c=temp,
        limit_mg_per_l=floor,
        fed=not unfed,
        measured_mg_per_l=measured,
        altitude_m=altitude,
    )
    inputs = {"water_l": water, "biomass_kg": fish, "mean_g": mean, "temperature_c": temp, "limit_mg_per_l": floor}
    give(_told(cut, floor, inputs), as_json=as_json)


def _floor(species: str | None) -> float:
    facts = facts_of(species) if species else None
    return (facts and facts.oxygen_floor_mg_l) or USUAL_FLOOR_MG_PER_L


def _told(cut: PowerCut, floor: float, inputs: dict[str, float]) -> Answer:
    start = f"{shown.few(cut.start_mg_per_l)} mg/L, {'measured' if cut.start_measured else 'assumed: 80 % of full'}"
    return Answer(
        (_minutes(cut.minutes, floor), *FIRST_STEPS),
        {
            **inputs,
            "minutes": cut.minutes,
            "start_mg_per_l": cut.start_mg_per_l,
            "start_measured": cut.start_measured,
            "fish_demand_g_per_h": cut.fish_demand_g_per_h,
            "other_demand_g_per_h": cut.other_demand_g_per_h,
            "first_steps": FIRST_STEPS,
            "leaves_out": cut.leaves_out,
            "standing": cut.standing,
        },
        (
            f"Minutes = 60 x water x (oxygen now - limit) / what all breathe in an hour. Oxygen now {start}; "
            f"fish breathe {shown.few(cut.fish_demand_g_per_h)} g/h, the rest {shown.few(cut.other_demand_g_per_h)}.",
        ),
        ("Fish of 0.02 to 5000 g, water of 0 to 36 C, -430 to 5000 m.",),
        (
            "Mass balance; oxygen by Benson and Krause (1980, 1984). First steps: common practice.",
            f"Breathing of fish: {cut.standing} (Winberg 1956, and catfish by Boyd, Romaire, Johnston 1978).",
        ),
        (
            "An estimate to prepare by. Once the power is out, watch the fish, not the clock.",
            *cut.leaves_out,
            DRY_HANDS,
        ),
    )


def _minutes(minutes: float, floor: float) -> str:
    limit = f"{shown.few(floor)} mg/L"
    if minutes == 0:
        return f"No time left: oxygen is at or below {limit} already. Air now."
    if minutes < 1:
        return f"Less than a minute until oxygen falls to {limit}. Air now."
    if minutes < 120:
        return f"About {int(minutes)} minutes until oxygen falls to {limit}, counted on the safe side."
    return f"About {int(minutes / 6) / 10:g} hours until oxygen falls to {limit}, counted on the safe side."
