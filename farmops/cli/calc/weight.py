"""`farmops calc weight`: what a unit weighs when full, on its frame and on the floor."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, give
from farmops.cli.options import answer_options
from farmops.science.energy import WEIGHT_CAUTIONS, WetWeight, floor_load, wet_weight


@click.command()
@click.option("--tank", type=typed.VOLUME_L, required=True, help="Water in the full tank: 1000L or 264gal.")
@click.option("--bed-water", type=typed.VOLUME_L, default="0", help="Water in the full bed: 120L or 32gal. [0]")
@click.option("--media", type=typed.VOLUME_L, default="0", help="Media, heaped: 300L or 80gal. [0]")
@click.option("--media-litre", type=typed.MASS_KG, default="0", help="A litre of it, soaked and drained: 0.9kg. [0]")
@click.option("--frame", type=typed.MASS_KG, default="0", help="Frame, containers and pipes: 60kg or 130lb. [0]")
@click.option("--footprint", type=typed.AREA_M2, help="Floor it stands on: 1.2m2 or 4x4ft.")
@answer_options
def weight(
    tank: float,
    bed_water: float,
    media: float,
    media_litre: float,
    frame: float,
    footprint: float | None,
    as_json: bool,
) -> None:
    """What a unit weighs, full to the brim.

    Tank and bed full at once, as when a siphon blocks and the tank is topped up.

    \b
    Example: farmops calc weight --tank 275gal --bed-water 120L --media 300L --media-litre 0.9kg --frame 60kg
    """
    if media and not media_litre:
        raise click.UsageError("Weigh a litre of the media, soaked and drained: --media-litre 0.9kg.")
    found = wet_weight(tank, bed_water, media, media_litre, frame)
    load = floor_load(found.total_kg, footprint) if footprint is not None else None
    give(_told(found, load), as_json=as_json)


def _told(found: WetWeight, load: float | None) -> Answer:
    floor = f", {shown.few(load)} kg/m2 on its floor; feet press harder" if load is not None else ""
    return Answer(
        (f"{shown.grams(found.total_kg * 1000)} when full{floor}.",),
        {
            "total_kg": found.total_kg,
            "tank_water_kg": found.tank_water_kg,
            "bed_water_kg": found.bed_water_kg,
            "media_kg": found.media_kg,
            "frame_kg": found.frame_kg,
            "floor_load_kg_per_m2": load,
        },
        ("A kilogram for every litre of water, plus media, frame and containers.",),
        ("Media up to 8 kg a litre. Snow, people and wind are not counted.",),
        ("Density of water, rounded up.",),
        WEIGHT_CAUTIONS,
    )
