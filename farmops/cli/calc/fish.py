"""`farmops calc ration` and `farmops calc growth`: the most to feed in a day, and how fast fish grow."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, give
from farmops.cli.calc.species import facts_of
from farmops.cli.options import answer_options
from farmops.model.errors import NotFound
from farmops.science.fish import (
    MeanWeight,
    TgcScale,
    daily_growth_percent,
    mean_weight_in_bulk,
    project_by_sgr,
    project_by_tgc,
    specific_growth_rate,
    thermal_growth_coefficient,
)
from farmops.science.ranges import check_positive, check_range
from farmops.science.rations import GROW_OUT_TABLE, TILAPIA_TABLE, FeedingTemperatures, Ration
from farmops.science.rations import ration as ration_for

TABLES = {"tilapia": TILAPIA_TABLE, "grow-out": GROW_OUT_TABLE}
LONGEST_DAYS = 3660
"""Ten years: no lot is watched for longer, and a list of daily temperatures stays short."""


@click.command()
@click.option("--count", type=typed.COUNT, required=True, help="Live fish.")
@click.option("--mean", type=typed.MASS_G, required=True, help="Weight of one: 125g or 4.4oz.")
@click.option("--temp", type=typed.WATER_C, required=True, help="Water temperature: 24C or 75F.")
@click.option("--species", metavar="NAME", help="Takes best and lethal temperatures of this species.")
@click.option("--best", type=typed.WATER_C, nargs=2, metavar="LOW HIGH", help="Where they eat best: 27C 30C.")
@click.option("--stop", type=typed.WATER_C, nargs=2, metavar="LOW HIGH", required=True, help="Where you stop feeding.")
@click.option("--table", type=click.Choice(list(TABLES)), help="Feeding table. [tilapia for tilapia, else grow-out]")
@click.option("--unit-limit", type=typed.MASS_G, help="Most feed a day that beds and filter can take: 200g or 7oz.")
@answer_options
def ration(
    count: float,
    mean: float,
    temp: float,
    species: str | None,
    best: tuple[float, float] | None,
    stop: tuple[float, float],
    table: str | None,
    unit_limit: float | None,
    as_json: bool,
) -> None:
    """The most feed for one day.

    Best and stop-feeding temperatures are two things: the table knows the first, you say the second.

    \b
    Example: farmops calc ration --count 40 --mean 125g --temp 24C --species nile-tilapia --stop 18C 34C
    """
    if best is None and species is None:
        raise click.UsageError("Say where they eat best: --best 27C 30C, or --species nile-tilapia.")
    check_positive(number_of_fish=count)
    name = table or ("tilapia" if species and facts_of(species).key == "nile-tilapia" else "grow-out")
    found = ration_for(
        round(count),
        mean,
        temp,
        temperatures=_temperatures(species, best, stop),
        table=TABLES[name],
        unit_limit_g=unit_limit,
    )
    give(_ration_told(found, {"count": round(count), "mean_g": mean, "temperature_c": temp}, species), as_json=as_json)


def _temperatures(
    species: str | None, best: tuple[float, float] | None, stop: tuple[float, float]
) -> FeedingTemperatures:
    facts = facts_of(species) if species else None
    low, high = best or ((facts.best_low_c, facts.best_high_c) if facts else (None, None))
    if low is None or high is None:
        raise NotFound(f"The table has no best temperatures for {species}: give them, as in --best 20C 24C.")
    lethal = (facts.vital_low_c, facts.vital_high_c) if facts else (None, None)
    return FeedingTemperatures(low, high, *stop, *lethal)


def _ration_told(found: Ration, inputs: dict[str, float], species: str | None) -> Answer:
    from_table = ("Temperatures of the species: FAO Tech. Paper 589, Table 7.1, from memory.",) if species else ()
    return Answer(
        (_ration_in_words(found),),
        {
            **inputs,
            "feed_g_per_day": found.grams,
            "percent_of_weight": found.percent_of_weight,
            "temperature_factor": found.temperature_factor,
            "feeds_a_day": found.feeds_a_day,
            "reason": found.reason,
            "standing": found.band.standing,
        },
        (
            f"fish x weight x {shown.few(found.percent_of_weight)} % a day, all reductions counted. The share falls "
            "from 1 at the best temperatures to 0 where feeding stops.",
        ),
        (f"Fish of {_weights(found)}; water of -1 to 45 C.",),
        (f"{found.band.source}: {found.band.standing}.", *from_table),
        (
            "A ceiling: feed what they finish in a few minutes, take out the rest. A missed feed is never made up.",
            "None at all when ammonia, nitrite or oxygen is out of bounds, in a power cut, or before moving fish.",
        ),
    )


def _ration_in_words(found: Ration) -> str:
    why = f"{found.words[0].upper()}{found.words[1:]}."
    if not found.grams:
        return why
    portion = shown.grams(found.grams / found.feeds_a_day)
    return f"Up to {shown.grams(found.grams)} of feed today, in {found.feeds_a_day} portions of {portion}. {why}"


def _weights(found: Ration) -> str:
    low, high = found.band.from_g, found.band.to_g
    return f"{low:g} g and more" if high == float("inf") else f"{low:g} to {high:g} g in this row of the table"


@click.command()
@click.option("--from", "start", type=typed.MASS_G, required=True, help="Weight of one fish at first: 50g or 1.8oz.")
@click.option("--to", "end", type=typed.MASS_G, help="Weight at the end: finds how fast they grew.")
@click.option("--days", type=typed.DAYS, required=True, help="Days between, or ahead.")
@click.option("--temp", type=typed.WATER_C, help="Mean water temperature of those days; a TGC needs it.")
@click.option("--sgr", type=typed.PERCENT_A_DAY, help="Forecast by a specific growth rate [% a day].")
@click.option("--tgc", type=typed.PLAIN, help="Forecast by a thermal growth coefficient, written times 1000.")
@click.option("--species", metavar="NAME", help="Warns where the water is warmer than this species likes.")
@answer_options
def growth(
    start: float,
    end: float | None,
    days: float,
    temp: float | None,
    sgr: float | None,
    tgc: float | None,
    species: str | None,
    as_json: bool,
) -> None:
    """How fast fish grew, or what they will weigh.

    With --to how fast they grew; with --sgr, or --tgc and --temp, what they will weigh.

    \b
    Examples: farmops calc growth --from 50g --to 900g --days 168
              farmops calc growth --from 50g --days 60 --tgc 1.5 --temp 27C
    """
    if [end, sgr, tgc].count(None) != 2:
        raise click.UsageError("Give one of --to, --sgr and --tgc.")
    if tgc is not None and temp is None:
        raise click.UsageError("A TGC needs the water temperature: --temp 27C.")
    if end is not None:
        give(_grew(start, end, days, temp), as_json=as_json)
    elif sgr is not None:
        give(_by_sgr(mean_weight_in_bulk(start, 1), sgr, days), as_json=as_json)
    else:
        give(_by_tgc(mean_weight_in_bulk(start, 1), tgc or 0.0, temp or 0.0, days, species), as_json=as_json)


def _grew(start: float, end: float, days: float, temp: float | None) -> Answer:
    sgr = specific_growth_rate(start, end, days)
    tgc = thermal_growth_coefficient(start, end, temp * days) if temp is not None else None
    also = f"; TGC {shown.few(tgc, 4)} (times 1000)" if tgc is not None else ""
    return Answer(
        (f"{shown.few(sgr, 4)} % a day (SGR), from {shown.grams(start)} to {shown.grams(end)}{also}.",),
        {
            "start_g": start,
            "end_g": end,
            "days": days,
            "temperature_c": temp,
            "sgr_percent_per_day": sgr,
            "daily_growth_percent": daily_growth_percent(sgr) if abs(sgr) <= 50 else None,
            "tgc_times_1000": tgc,
        },
        (
            "SGR = 100 x (ln end - ln start) / days; "
            "TGC = 1000 x (cube root of end - cube root of start) / (degrees C x days).",
        ),
        ("Weights, days and degree-days above 0.",),
        (
            "SGR: Marquez et al. (2024), Front. Mar. Sci. 11:1332912. "
            "TGC: Iwama, Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656.",
        ),
        ("SGR falls as fish grow: compare fish of like size only. Weigh a sample, not the best ones.",),
    )


def _by_sgr(start: MeanWeight, sgr: float, days: float) -> Answer:
    end = project_by_sgr(start, sgr, days).mean_g
    return Answer(
        (f"About {shown.grams(end)} a fish in {shown.few(days)} days, if the rate holds.",),
        {"start_g": start.mean_g, "days": days, "sgr_percent_per_day": sgr, "end_g": end},
        ("end = start x exp(SGR x days / 100).",),
        ("SGR -50 to 50 % a day, 0 to 120 days: over longer spans growth slows.",),
        ("Inverse of the definition in Marquez et al. (2024), Front. Mar. Sci. 11:1332912; 120 days is our choice.",),
        ("A forecast. The next weighing of a sample counts, not this number.",),
    )


def _by_tgc(start: MeanWeight, tgc: float, temp: float, days: float, species: str | None) -> Answer:
    check_range(days=(days, 0, LONGEST_DAYS))
    best_high = facts_of(species).best_high_c if species else None
    daily = [temp] * round(days)
    found = project_by_tgc(start, tgc, daily, scale=TgcScale.TIMES_1000, best_high_c=best_high)
    warned = (f"{found.warning[0].upper()}{found.warning[1:]}.",) if found.warning else ()
    return Answer(
        (f"About {shown.grams(found.mean_g)} a fish in {len(daily)} days at {shown.temperature(temp)}.", *warned),
        {
            "start_g": start.mean_g,
            "days": len(daily),
            "temperature_c": temp,
            "tgc_times_1000": tgc,
            "end_g": found.mean_g,
            "warning": found.warning,
        },
        ("end = (cube root of start + TGC / 1000 x degrees C x whole days)^3.",),
        (f"TGC -10 to 10 (times 1000), water of 0 to 40 C, up to {LONGEST_DAYS} days.",),
        (
            "Iwama, Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656; Jobling (2003), Aquac. Res. 34:581-584: "
            "it fails near and above the best temperature of a species.",
        ),
        ("A forecast. The next weighing of a sample counts, not this number.",),
    )
