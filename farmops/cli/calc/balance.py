"""`farmops calc balance`: whether feed, fish, beds, filter and pump of a unit fit each other."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, belong_together, give, together
from farmops.cli.options import answer_options
from farmops.science.balance import (
    FAO_589,
    FILTER_MEDIA,
    FRUITING,
    GROW_OUT_FEEDING,
    LEAFY,
    RAFT,
    TURNOVER,
    AmmoniaMethod,
    PublishedRange,
    ammonia_from_feed,
    area_fed,
    feed_for_area,
    feed_from_fish,
    feed_per_area,
    filter_surface,
    judge_feed,
    judge_stocking,
    judge_turnover,
    media_volume,
    stocking_density,
    stocking_range,
)
from farmops.science.flow import turnover_per_hour
from farmops.science.water import Nitrification, nitrification_use

RATES = {"leafy": LEAFY, "fruiting": FRUITING, "raft": RAFT}
MEDIA = {medium.name.replace(" ", "-"): medium for medium in FILTER_MEDIA}
ROUGH = "Round numbers to plan by: plants, fish and tests have the last word. Change feed in small steps."


@click.command()
@click.option("--feed", type=typed.MASS_G, help="Feed a day: 200g or 7oz.")
@click.option("--protein", type=typed.PERCENT, default="32", show_default=True, help="Protein in the feed [%].")
@click.option("--area", type=typed.AREA_M2, help="Planted bed: 4m2, 43sqft or 4x10ft.")
@click.option("--plants", type=click.Choice(list(RATES)), default="leafy", show_default=True, help="What grows there.")
@click.option("--medium", type=click.Choice(list(MEDIA)), help="What fills the filter.")
@click.option("--fish", type=typed.MASS_KG, help="Live fish, all together: 15kg or 33lb.")
@click.option("--tank", type=typed.VOLUME_L, help="Water in the tank: 1000L or 264gal.")
@click.option("--flow", type=typed.FLOW, help="What the pump moves: 2000L/h or 530gph.")
@answer_options
def balance(
    feed: float | None,
    protein: float,
    area: float | None,
    plants: str,
    medium: str | None,
    fish: float | None,
    tank: float | None,
    flow: float | None,
    as_json: bool,
) -> None:
    """Whether feed, fish, beds and pump fit each other.

    \b
    Says what it can from what you give:
    feed and area    feed per area             feed alone  the bed it carries, ammonia, filter
    fish and tank    stocking                  area alone  the feed it needs
    flow and tank    turnover                  fish alone  what they eat
    Example: farmops calc balance --feed 200g --area 4m2 --fish 15kg --tank 1000L --flow 2000L/h
    """
    if flow is not None:
        belong_together(flow=flow, tank=tank)
    if medium is not None:
        belong_together(medium=medium, feed=feed)
    parts = (
        _feed_and_beds(feed, area, RATES[plants]),
        _ammonia(feed, protein, medium) if feed is not None else None,
        _eaten(fish) if fish is not None else None,
        _stocking(fish, tank) if fish is not None and tank is not None else None,
        _turnover(flow, tank) if flow is not None and tank is not None else None,
    )
    give(together(parts, missing="Give --feed, --area, --fish, or --flow with --tank. See --help."), as_json=as_json)


def _feed_and_beds(feed: float | None, area: float | None, rate: PublishedRange) -> Answer | None:
    if feed is not None and area is not None:
        return _rate_answer(_compared(feed, area, rate), _compared_data(feed, area, rate), rate)
    if feed is not None:
        low, high = area_fed(feed, rate.high), area_fed(feed, rate.low)
        words = f"{shown.grams(feed)} of feed a day carries {shown.area(low)} to {shown.area(high)} of bed."
        return _rate_answer(words, {"feed_g_per_day": feed, "area_low_m2": low, "area_high_m2": high}, rate)
    if area is not None:
        low, high = feed_for_area(area, rate.low), feed_for_area(area, rate.high)
        words = f"{shown.area(area)} of bed needs {shown.grams(low)} to {shown.grams(high)} of feed a day."
        return _rate_answer(words, {"area_m2": area, "feed_low_g_per_day": low, "feed_high_g_per_day": high}, rate)
    return None


def _compared(feed: float, area: float, rate: PublishedRange) -> str:
    per_area = feed_per_area(feed, area)
    said = shown.verdict(
        judge_feed(feed, area, rate).place,
        "too little, plants will go hungry: fewer plants or more fish",
        "in balance",
        "more than the plants use, nitrate will rise: more bed or less feed",
    )
    return f"Feed per bed {shown.few(per_area)} g/m2 a day, {_range(rate)} wanted: {said}."


def _compared_data(feed: float, area: float, rate: PublishedRange) -> dict[str, object]:
    return {
        "feed_g_per_day": feed,
        "area_m2": area,
        "feed_per_area_g_per_m2_day": feed_per_area(feed, area),
        "feed_per_area_place": judge_feed(feed, area, rate).place,
    }


def _rate_answer(words: str, data: dict[str, object], rate: PublishedRange) -> Answer:
    return Answer(
        (words,),
        {**data, "rate_low_g_per_m2_day": rate.low, "rate_high_g_per_m2_day": rate.high},
        (f"Feed per bed = feed a day / planted area; {rate.purpose} {_range(rate)} {rate.unit}.",),
        ("Feed of about 32 % protein; warm water, beds that have come into bearing.",),
        (_source(rate), "The sources differ: rafts were run at 60 to 100, media beds at 40 to 80 g/m2 a day."),
        (ROUGH,),
    )


def _ammonia(feed: float, protein: float, medium: str | None) -> Answer:
    fao, other = (ammonia_from_feed(feed, protein / 100, method) for method in AmmoniaMethod)
    surface = filter_surface(fao.nh3_g_per_day)
    use = nitrification_use(fao.nitrogen_g_per_day, Nitrification.WITHOUT_GROWTH)
    filled, filled_data = _filled(surface, medium)
    return Answer(
        (
            f"Ammonia from that feed {shown.few(fao.nh3_g_per_day)} g NH3 a day ({shown.few(fao.nitrogen_g_per_day)} g "
            f"as N); by the other chain {shown.few(other.nh3_g_per_day)} g ({shown.few(other.nitrogen_g_per_day)} g).",
            f"It takes {shown.area(surface)} of filter surface{filled}.",
            f"The filter uses up {shown.few(use.alkalinity_g_caco3)} g of alkalinity (as CaCO3) "
            f"and {shown.few(use.oxygen_g)} g of oxygen a day.",
        ),
        {
            "protein_percent": protein,
            "ammonia": [fao, other],
            "filter_surface_m2": surface,
            **filled_data,
            "alkalinity_used_g_caco3_per_day": use.alkalinity_g_caco3,
            "oxygen_used_g_per_day": use.oxygen_g,
        },
        (
            "FAO chain: feed x protein x 0.16 x 0.61 as N, x 1.2 as NH3; the other: feed x protein x 0.092 as N. "
            "Surface = NH3 / 0.57 g/m2 a day. Per g of N: 7.14 g alkalinity, 4.57 g oxygen.",
        ),
        ("Protein 0 to 70 %; warm water, less is taken up when cold.",),
        (f"{FAO_589}, Appendix 4, and Timmons and Ebeling, Recirculating Aquaculture: both from memory.",),
        (ROUGH,),
    )


def _filled(surface: float, name: str | None) -> tuple[str, dict[str, object]]:
    if name is None:
        return "", {"medium": None, "medium_l": None}
    medium = MEDIA[name]
    volume = media_volume(surface, medium.surface_low)
    words = (
        f": {shown.litres(volume)} of {medium.name} at {medium.surface_low:g} m2/m3, and 2 to 3 times that to be safe"
    )
    return words, {"medium": medium.name, "medium_l": volume}


def _eaten(fish: float) -> Answer:
    low, high = feed_from_fish(fish, GROW_OUT_FEEDING.low), feed_from_fish(fish, GROW_OUT_FEEDING.high)
    return Answer(
        (f"{shown.grams(fish * 1000)} of fish eat {shown.grams(low)} to {shown.grams(high)} a day while growing out.",),
        {"fish_kg": fish, "eaten_low_g_per_day": low, "eaten_high_g_per_day": high},
        (f"{_range(GROW_OUT_FEEDING)} % of body weight a day.",),
        ("Fish of 50 g and more in warm water.",),
        (_source(GROW_OUT_FEEDING),),
        (ROUGH,),
    )


def _stocking(fish: float, tank: float) -> Answer:
    density = stocking_density(fish, tank)
    low, high = stocking_range(tank)
    place = judge_stocking(fish, tank).place
    said = shown.verdict(place, "light, room for more", "as advised", "too dense: it leaves no time when power fails")
    return Answer(
        (f"Stocking {shown.few(density)} kg per 1000 L, {shown.few(low)} to {shown.few(high)} advised: {said}.",),
        {
            "tank_l": tank,
            "stocking_kg_per_1000_l": density,
            "stocking_low_kg_per_1000_l": low,
            "stocking_high_kg_per_1000_l": high,
            "stocking_place": place,
        },
        ("Stocking = weight of fish / water in the tank; half of it below 500 L.",),
        ("Aerated tanks.",),
        (f"{FAO_589}, s.7.3: from memory.",),
        (ROUGH,),
    )


def _turnover(flow: float, tank: float) -> Answer:
    times = turnover_per_hour(flow, tank)
    place = judge_turnover(flow, tank).place
    said = shown.verdict(place, "slow", "as advised", "faster than advised")
    minutes = f", once in {shown.few(60 / times)} minutes" if times else ""
    return Answer(
        (f"Turnover {shown.few(times)} tank volumes an hour{minutes}, {_range(TURNOVER)} advised: {said}.",),
        {"flow_l_per_h": flow, "tank_l": tank, "turnover_per_h": times, "turnover_place": place},
        ("Turnover = flow / water in the tank. Measure the flow at the outlet with a bucket and a watch.",),
        ("Once an hour for a light stock, twice for a dense one.",),
        (_source(TURNOVER),),
        (ROUGH,),
    )


def _range(published: PublishedRange) -> str:
    return shown.span(published.low, published.high)


def _source(published: PublishedRange) -> str:
    return f"{published.source}: {'read there' if published.verified else 'from memory'}."
