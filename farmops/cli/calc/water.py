"""`farmops calc ammonia` and `farmops calc oxygen`: whether the water is safe to breathe in."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, give
from farmops.cli.options import answer_options
from farmops.model.errors import OutOfRange
from farmops.science.oxygen import HPA_PER_ATM, oxygen_saturation, percent_saturation, pressure_at_altitude
from farmops.science.water import AmmoniaAs, UnionizedAmmonia, epa_chronic_ammonia, unionized_ammonia

HARM_MG_PER_L = 0.05
DEADLY_MG_PER_L = 2.0
EMERSON = "Emerson, Russo, Lund, Thurston (1975), J. Fish. Res. Board Can. 32:2379-2383."
IFAS = "Harm from 0.05 mg/L, death near 2: Francis-Floyd et al., Ammonia in Aquatic Systems, UF/IFAS FA-16."
BENSON = "Benson, Krause (1980, 1984), Limnol. Oceanogr. 25:662 and 29:620; US Standard Atmosphere 1976."
LIMITS = "Limits of 4, 5 and 6 mg/L: Somerville et al. (2014), FAO Tech. Paper 589, ch. 3, from memory."

LETHAL_OXYGEN = 4.0
LOW_OXYGEN = 5.0
TROUT_OXYGEN = 6.0


@click.command()
@click.option("--tan", type=typed.MG_PER_L, required=True, help="Total ammonia as the kit reads [mg/L].")
@click.option("--ph", type=typed.PH, required=True, help="pH of the same water.")
@click.option("--temp", type=typed.WATER_C, required=True, help="Its temperature: 24C or 75F.")
@click.option(
    "--as",
    "reported",
    type=click.Choice(["n", "nh3", "nh4"], case_sensitive=False),
    default="n",
    show_default=True,
    help="What the kit counts: nitrogen, NH3 or NH4. It says so in its leaflet.",
)
@answer_options
def ammonia(tan: float, ph: float, temp: float, reported: str, as_json: bool) -> None:
    """The toxic part of a reading of total ammonia.

    \b
    In JSON, unionized_mg_per_l is as nitrogen whatever the kit counts.
    Example: farmops calc ammonia --tan 1.0 --ph 8.0 --temp 24C
    """
    give(_ammonia(tan, ph, temp, AmmoniaAs(reported.upper())), as_json=as_json)


def _ammonia(tan: float, ph: float, temp: float, reported: AmmoniaAs) -> Answer:
    toxic = unionized_ammonia(tan, ph=ph, temperature_c=temp, reported=reported)
    danger, words = _ammonia_verdict(toxic)
    yardstick = _epa(ph, temp)
    wild = (f"US EPA's 30-day criterion for wild water with mussels here: {shown.few(yardstick, 2)} mg/L total as N.",)
    return Answer(
        (
            f"Toxic (un-ionised) ammonia {shown.few(toxic.as_n_mg_per_l)} mg/L as N, "
            f"{shown.few(toxic.as_nh3_mg_per_l)} as NH3: {shown.few(100 * toxic.fraction)} % of the total.",
            words,
        ),
        {
            "total_mg_per_l": tan,
            "total_as": reported,
            "ph": ph,
            "temperature_c": temp,
            "unionized_fraction": toxic.fraction,
            "unionized_mg_per_l": toxic.as_n_mg_per_l,
            "unionized_as": AmmoniaAs.N,
            "unionized_as_nh3_mg_per_l": toxic.as_nh3_mg_per_l,
            "verdict": danger,
            "epa_chronic_total_as_n_mg_per_l": yardstick or None,
        },
        (
            "Share that is toxic = 1 / (1 + 10^(pKa - pH)), with pKa = 0.09018 + 2729.92 / kelvin; times the total.",
            "Judged by the figure as NH3, which is the higher one.",
            *(wild if yardstick else ()),
        ),
        ("Fresh water of pH 5 to 11 and 0 to 50 C; salt lowers the share a little.",),
        (EMERSON, IFAS),
        (
            "The share grows about tenfold with each step of pH and by half from 20 to 26 C: test in the afternoon.",
            "What harms first depends on the fish and on how long; fish that gasp or lie low count more than a number.",
        ),
    )


def _ammonia_verdict(toxic: UnionizedAmmonia) -> tuple[str, str]:
    """The higher of the two ways of counting is judged, which is the safe side."""
    if toxic.as_nh3_mg_per_l >= DEADLY_MG_PER_L:
        return "deadly", "Deadly: near 2 mg/L fish die. No feed, air on full, change water now, do not raise pH."
    if toxic.as_nh3_mg_per_l >= HARM_MG_PER_L:
        return (
            "harmful",
            "Harmful: from 0.05 mg/L on it harms fish. No feed, change part of the water, do not raise pH.",
        )
    return "low", "Below 0.05 mg/L, from where on it harms fish."


def _epa(ph: float, temp: float) -> float:
    """The yardstick [mg/L as N], 0 where its tables do not reach."""
    try:
        return epa_chronic_ammonia(ph, temp)
    except OutOfRange:
        return 0.0


@click.command()
@click.option("--temp", type=typed.WATER_C, required=True, help="Water temperature: 20C or 68F.")
@click.option("--altitude", type=typed.ALTITUDE_M, default="0", help="Height above the sea: 1500m or 4900ft. [0]")
@click.option("--measured", type=typed.MG_PER_L, help="Oxygen as the meter or kit reads [mg/L].")
@click.option(
    "--pressure",
    type=typed.PRESSURE,
    help="Air pressure at the place, 845hPa or 24.9inHg; it stands in for the altitude. Not a weather report's figure.",
)
@answer_options
def oxygen(temp: float, altitude: float, measured: float | None, pressure: float | None, as_json: bool) -> None:
    """The oxygen water can hold, and how full it is.

    \b
    Example: farmops calc oxygen --temp 20C --altitude 1500m --measured 6.1
    """
    give(_oxygen(temp, altitude, measured, pressure), as_json=as_json)


def _oxygen(temp: float, altitude: float, measured: float | None, pressure: float | None) -> Answer:
    hpa = pressure_at_altitude(altitude) if pressure is None else pressure
    saturation = oxygen_saturation(temp, station_pressure_hpa=hpa)
    percent = percent_saturation(measured, temp, station_pressure_hpa=hpa) if measured is not None else None
    full = f"Water of {shown.temperature(temp)} at {hpa:.0f} hPa holds {saturation:.2f} mg/L of oxygen when full."
    level, words = _oxygen_verdict(measured if measured is not None else saturation)
    if percent is None:
        words = (
            f"Even when full: {words[0].lower()}{words[1:]}" if level != "good" else "Enough for all fish when full."
        )
    else:
        words = f"{shown.few(measured or 0.0)} mg/L is {percent:.0f} % of that. {words}"
    return Answer(
        (full, words),
        {
            "temperature_c": temp,
            "altitude_m": altitude if pressure is None else None,
            "station_pressure_hpa": hpa,
            "saturation_mg_per_l": saturation,
            "measured_mg_per_l": measured,
            "saturation_percent": percent,
            "verdict": level if measured is not None else None,
        },
        (
            "Oxygen in balance with moist air, from temperature and air pressure; "
            "pressure from the altitude where none is given. Percent = measured / full.",
        ),
        (f"Fresh water of 0 to 40 C, -430 to 5000 m, 500 to 1100 hPa (sea level is {HPA_PER_ATM:.0f}).",),
        (BENSON, LIMITS),
        ("Oxygen is lowest before dawn and after feeding: that reading counts. Above 100 % by day: plants at work.",),
    )


def _oxygen_verdict(mg_per_l: float) -> tuple[str, str]:
    if mg_per_l < LETHAL_OXYGEN:
        return "dangerous", "Dangerous, below 4: more air now, no feed; see farmops calc power-cut."
    if mg_per_l < LOW_OXYGEN:
        return "low", "Low, a unit wants more than 5: more air, less feed."
    if mg_per_l < TROUT_OXYGEN:
        return "enough", "Enough for warm-water fish; trout and other cold-water fish want 6."
    return "good", "Good, 6 and more."
