"""`farmops calc dose`: what to weigh out to change the water, with the cautions that belong to it."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Any, TypeVar

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, give
from farmops.cli.options import answer_options, one_of, word
from farmops.science.doses import (
    Base,
    ChlorideSalt,
    Dose,
    Nutrient,
    PhPlan,
    StrengthAs,
    Thiosulfate,
    alkalinity_dose,
    ammonia_left_by_chloramine,
    chloride_dose,
    nutrient_dose,
    ph_steps,
    thiosulfate_dose,
)
from farmops.science.water import NitriteAs

Kind = TypeVar("Kind", bound=StrEnum)
BASES = {
    "baking-soda": Base.SODIUM_BICARBONATE,
    "washing-soda": Base.SODIUM_CARBONATE,
    "limestone": Base.CALCIUM_CARBONATE,
    "hydrated-lime": Base.CALCIUM_HYDROXIDE,
}
SALTS = {
    "salt": ChlorideSalt.SODIUM_CHLORIDE,
    "calcium-chloride": ChlorideSalt.CALCIUM_CHLORIDE_DIHYDRATE,
    "calcium-chloride-anhydrous": ChlorideSalt.CALCIUM_CHLORIDE,
    "potassium-chloride": ChlorideSalt.POTASSIUM_CHLORIDE,
}
THIOSULFATES = {"crystals": Thiosulfate.PENTAHYDRATE, "anhydrous": Thiosulfate.ANHYDROUS}
OXIDES = {Nutrient.POTASSIUM: ("k", "k2o"), Nutrient.CALCIUM: ("ca", "cao")}
MASSES = "Molar masses: IUPAC standard atomic weights 2021."
MOST_DAYS_SHOWN = 8

water_option = click.option(
    "--water", type=typed.VOLUME_L, required=True, help="All the water that mixes, tank, bed and pipes: 1000L, 275gal."
)
purity_option = click.option(
    "--purity", type=typed.PERCENT, default="100", show_default=True, help="Share of it in the bag [%]."
)


@click.group()
def dose() -> None:
    """What to weigh out, and steps of pH.

    \b
    Example: farmops calc dose alkalinity --water 1000L --rise 20 --with baking-soda
    """


@dose.command()
@water_option
@click.option("--rise", type=typed.MG_PER_L, required=True, help="Wanted rise of alkalinity as CaCO3 [mg/L].")
@click.option("--with", "base", type=click.Choice([*BASES, *one_of(Base).choices]), required=True, help="What you add.")
@purity_option
@answer_options
def alkalinity(water: float, rise: float, base: str, purity: float, as_json: bool) -> None:
    """A base that raises alkalinity, or carbonate hardness.

    \b
    Example: farmops calc dose alkalinity --water 275gal --rise 20 --with potassium-bicarbonate
    """
    chosen = BASES.get(base) or word(Base, base)
    found = alkalinity_dose(volume_l=water, rise_mg_per_l=rise, base=chosen, purity=purity / 100)
    how = "grams = water x rise / 1000 x (equivalent weight / 50.04) / purity"
    source = "Equivalent weights; method of Loyless, Malone (1997), Prog. Fish-Cult. 59:198-205."
    give(_told(found, water, how, "A rise of 0 to 300 mg/L as CaCO3.", source), as_json=as_json)


@dose.command()
@water_option
@click.option("--nitrite", type=typed.MG_PER_L, required=True, help="Nitrite as the kit reads [mg/L].")
@click.option(
    "--as",
    "reported",
    type=click.Choice(["no2", "n"], case_sensitive=False),
    required=True,
    help="What the kit counts.",
)
@click.option("--chloride", type=typed.MG_PER_L, default="0", help="Chloride in the water now [mg/L]. [0: not tested]")
@click.option("--with", "salt", type=click.Choice(list(SALTS)), required=True, help="What you add.")
@click.option("--ratio", type=typed.PLAIN, default="10", show_default=True, help="Chloride to one of nitrite as NO2.")
@purity_option
@answer_options
def chloride(
    water: float, nitrite: float, reported: str, chloride: float, salt: str, ratio: float, purity: float, as_json: bool
) -> None:
    """A salt whose chloride shields fish from nitrite.

    \b
    Example: farmops calc dose chloride --water 1000L --nitrite 2 --as no2 --chloride 5 --with salt
    """
    found = chloride_dose(
        volume_l=water,
        nitrite_mg_per_l=nitrite,
        reported=NitriteAs(reported.upper()),
        chloride_mg_per_l=chloride,
        salt=SALTS[salt],
        ratio=ratio,
        purity=purity / 100,
    )
    how = "chloride to add = ratio x nitrite as NO2 - chloride now, never below 0; nitrite as N counts 3.28 times"
    holds = "Nitrite 0 to 100 mg/L, chloride 0 to 5000 mg/L, ratio 1 to 50."
    source = "Durborow, Crosby, Brunson (1997), Nitrite in Fish Ponds, SRAC 462: at least ten to one."
    give(_told(found, water, how, holds, source), as_json=as_json)


@dose.command()
@water_option
@click.option("--chlorine", type=typed.MG_PER_L, required=True, help="Total chlorine, free and bound [mg/L as Cl2].")
@click.option("--chloramine", is_flag=True, help="The water works uses chloramine: all of it counts as bound.")
@click.option("--with", "product", type=click.Choice(list(THIOSULFATES)), default="crystals", show_default=True)
@purity_option
@answer_options
def chlorine(water: float, chlorine: float, chloramine: bool, product: str, purity: float, as_json: bool) -> None:
    """Thiosulfate against chlorine in tap water.

    The crystals as sold are the pentahydrate.

    \b
    Example: farmops calc dose chlorine --water 50gal --chlorine 2 --chloramine
    """
    found = thiosulfate_dose(
        volume_l=water, chlorine_mg_per_l=chlorine, product=THIOSULFATES[product], purity=purity / 100
    )
    how = "2 S2O3 + Cl2 -> S4O6 + 2 Cl: 7.0 mg of crystals or 4.46 mg anhydrous per mg of chlorine"
    told = _told(found, water, how, "Chlorine 0 to 20 mg/L.", "Stoichiometry of that reaction.")
    give(_with_ammonia(told, chlorine) if chloramine else told, as_json=as_json)


def _with_ammonia(told: Answer, chloramine: float) -> Answer:
    left = ammonia_left_by_chloramine(chloramine)
    words = f"Chloramine leaves {shown.few(left)} mg/L of ammonia as N behind, and what the water works added on top."
    data = {**told.data, "ammonia_left_as_n_mg_per_l": left}
    return Answer((*told.plain, words), data, told.how, told.holds, told.source, told.mind)


@dose.command()
@water_option
@click.option("--rise", type=typed.MG_PER_L, required=True, help="Wanted rise of iron [mg/L]; 2 is common.")
@click.option("--strength", type=typed.PERCENT, required=True, help="Iron in the chelate by its label [%].")
@answer_options
def iron(water: float, rise: float, strength: float, as_json: bool) -> None:
    """Chelated iron.

    \b
    Example: farmops calc dose iron --water 1000L --rise 2 --strength 11
    """
    _nutrient(Nutrient.IRON, water, rise, strength, StrengthAs.ELEMENT, as_json)


@dose.command()
@water_option
@click.option("--rise", type=typed.MG_PER_L, required=True, help="Wanted rise of potassium [mg/L].")
@click.option("--strength", type=typed.PERCENT, required=True, help="Strength on the label [%].")
@click.option("--as", "label", type=click.Choice(["k", "k2o"]), required=True, help="What the label counts.")
@answer_options
def potassium(water: float, rise: float, strength: float, label: str, as_json: bool) -> None:
    """A potassium fertiliser; most labels count it as K2O.

    \b
    Example: farmops calc dose potassium --water 1000L --rise 20 --strength 50 --as k2o
    """
    _nutrient(Nutrient.POTASSIUM, water, rise, strength, _strength_as(label), as_json)


@dose.command()
@water_option
@click.option("--rise", type=typed.MG_PER_L, required=True, help="Wanted rise of calcium [mg/L].")
@click.option("--strength", type=typed.PERCENT, required=True, help="Strength on the label [%].")
@click.option("--as", "label", type=click.Choice(["ca", "cao"]), required=True, help="What the label counts.")
@answer_options
def calcium(water: float, rise: float, strength: float, label: str, as_json: bool) -> None:
    """A calcium fertiliser.

    \b
    Example: farmops calc dose calcium --water 275gal --rise 30 --strength 27 --as ca
    """
    _nutrient(Nutrient.CALCIUM, water, rise, strength, _strength_as(label), as_json)


def _strength_as(label: str) -> StrengthAs:
    return StrengthAs.OXIDE if label.endswith("o") else StrengthAs.ELEMENT


def _nutrient(
    nutrient: Nutrient, water: float, rise: float, strength: float, strength_as: StrengthAs, as_json: bool
) -> None:
    found = nutrient_dose(
        volume_l=water, rise_mg_per_l=rise, nutrient=nutrient, strength_percent=strength, strength_as=strength_as
    )
    how = "grams = water x rise / 1000 / share of the element; of K2O 83.0 % is potassium, of CaO 71.5 % calcium"
    holds = "A rise of iron 0 to 5, of potassium 0 to 100, of calcium 0 to 200 mg/L (upper ends: common practice)."
    give(_told(found, water, how, holds, "Mass balance."), as_json=as_json)


@dose.command("ph")
@click.option("--now", type=typed.PH, required=True, help="pH of the water today.")
@click.option("--target", type=typed.PH, required=True, help="pH wanted.")
@click.option("--step", type=typed.PH, default="0.2", show_default=True, help="Largest change a day.")
@answer_options
def ph_plan(now: float, target: float, step: float, as_json: bool) -> None:
    """Steps of pH that fish and bacteria can bear.

    How much acid or base they take, the water itself must tell.

    \b
    Example: farmops calc dose ph --now 6.2 --target 6.8
    """
    give(_steps(ph_steps(now, target, step=step), now, target), as_json=as_json)


def _steps(plan: PhPlan, now: float, target: float) -> Answer:
    days = len(plan.daily_ph)
    return Answer(
        (_steps_in_words(plan.daily_ph, target),),
        {"ph_now": now, "ph_target": target, "days": days, "daily_ph": plan.daily_ph},
        ("Even steps, none larger than the one allowed. Give half of what you expect, wait, measure, then the rest.",),
        ("pH now 4 to 10, target 5.5 to 8.5, step 0.05 to 0.3 a day.",),
        ("From memory, common practice: no more than 0.2 to 0.3 a day.",),
        plan.caution,
    )


def _steps_in_words(daily: tuple[float, ...], target: float) -> str:
    if not daily:
        return f"The water has pH {shown.few(target)} already: add nothing."
    seen = [shown.few(ph) for ph in daily[:MOST_DAYS_SHOWN]]
    rest = [] if len(daily) <= MOST_DAYS_SHOWN else ["...", shown.few(daily[-1])]
    days = "1 day" if len(daily) == 1 else f"{len(daily)} days"
    return f"pH {shown.few(target)} in {days}, at the end of each: {', '.join([*seen, *rest])}."


def _told(found: Dose, water: float, how: str, holds: str, source: str) -> Answer:
    return Answer(
        _dose_in_words(found, water),
        {
            "product": found.product,
            "water_l": water,
            "grams": found.grams,
            "what": found.what,
            "rise_mg_per_l": found.rise_mg_per_l,
            "brings_mg_per_l": _by_name(found.brings),
        },
        (how + ".",),
        (holds,),
        (source, MASSES),
        found.caution,
    )


def _dose_in_words(found: Dose, water: float) -> tuple[str, ...]:
    if found.grams == 0:
        return (f"Nothing to add: {found.what} needs no change.",)
    rise = f"{shown.few(abs(found.rise_mg_per_l))} mg/L {'more' if found.rise_mg_per_l > 0 else 'less'}"
    first = f"{shown.grams(found.grams)} of {found.product} into {shown.litres(water)}: {rise} {found.what}."
    brought = ", ".join(f"{shown.few(rise)} mg/L {name}" for name, rise in found.brings)
    return (first, f"It brings along {brought}.") if brought else (first,)


def _by_name(brings: tuple[tuple[str, float], ...]) -> Mapping[str, Any]:
    return dict(brings)
