"""What to weigh out to change the water: arithmetic with cautions, the label standing above both."""

from __future__ import annotations

import math
from enum import StrEnum

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.science import masses
from farmops.science.ranges import check_positive, check_range
from farmops.science.water import AmmoniaAs, NitriteAs, in_form

LABEL = "The label, the safety data sheet and local rules stand above this figure."
SMALL_STEPS = "Dissolve it in a bucket of water, add it slowly away from the fish, measure again before more."
CAUSTIC = (
    "Adults only: goggles and gloves. It burns eyes and skin.",
    "Add it to much water, never water to it; never mix it with acid or chlorine.",
    "It lifts pH sharply and with it the toxic part of ammonia: small doses over several days.",
)
SLOW_TO_DISSOLVE = "It dissolves slowly and hardly at all above pH 7.5: the rise comes late or not in full."
LIFTS_PH = "It lifts pH, and with it the toxic part of ammonia: measure ammonia first."
SODIUM = "Sodium stays in a closed loop and harms plants as it builds up."
HEATS_UP = "It heats up in water: add it to the water in small lots, goggles and gloves."
SICK_FISH = "Sick fish may need more chloride; find what made the nitrite rise."
USE_SOON = "Let it mix for some minutes and test for chlorine before fish meet the water."
CHLORAMINE = "Chloramine leaves ammonia behind: measure it, and use a conditioner that binds it where fish are."
CHELATE = "The chelate must suit the pH: EDTA to about 6.3, DTPA to about 7.5, EDDHA above (from memory)."
PRODUCT = "Use only what is sold for hydroponics or fish: other grades carry copper, zinc or herbicide."
PH_STEP = "Change pH by no more than 0.2 to 0.3 a day (from memory); faster harms fish and bacteria."


@dataclass(frozen=True, slots=True)
class Dose:
    """What to weigh out.

    `grams` of `product` as bought; `rise_mg_per_l` of `what` in the water; `brings` names what else comes
    along and by how much it rises [mg/L]; `caution` holds sentences to show beside the number.
    """

    product: str
    grams: float
    what: str
    rise_mg_per_l: float
    brings: tuple[tuple[str, float], ...]
    caution: tuple[str, ...]


class Base(StrEnum):
    """Bases that raise alkalinity."""

    CALCIUM_CARBONATE = "calcium carbonate"
    SODIUM_BICARBONATE = "sodium bicarbonate"
    POTASSIUM_BICARBONATE = "potassium bicarbonate"
    POTASSIUM_CARBONATE = "potassium carbonate"
    SODIUM_CARBONATE = "sodium carbonate"
    CALCIUM_HYDROXIDE = "calcium hydroxide"
    POTASSIUM_HYDROXIDE = "potassium hydroxide"


@dataclass(frozen=True, slots=True)
class _Compound:
    """Molar mass [g/mol], the equivalents (or atoms) it gives per mole, what else it brings [g/mol]."""

    molar_mass: float
    gives: int
    brings: tuple[tuple[str, float], ...]
    caution: tuple[str, ...]


_BASES = {
    Base.CALCIUM_CARBONATE: _Compound(masses.CALCIUM_CARBONATE, 2, (("calcium", masses.CALCIUM),), (SLOW_TO_DISSOLVE,)),
    Base.SODIUM_BICARBONATE: _Compound(
        masses.SODIUM + masses.BICARBONATE, 1, (("sodium", masses.SODIUM),), (LIFTS_PH, SODIUM)
    ),
    Base.POTASSIUM_BICARBONATE: _Compound(
        masses.POTASSIUM + masses.BICARBONATE, 1, (("potassium", masses.POTASSIUM),), (LIFTS_PH,)
    ),
    Base.POTASSIUM_CARBONATE: _Compound(
        2 * masses.POTASSIUM + masses.CARBONATE, 2, (("potassium", 2 * masses.POTASSIUM),), CAUSTIC
    ),
    Base.SODIUM_CARBONATE: _Compound(
        2 * masses.SODIUM + masses.CARBONATE, 2, (("sodium", 2 * masses.SODIUM),), (*CAUSTIC, SODIUM)
    ),
    Base.CALCIUM_HYDROXIDE: _Compound(
        masses.CALCIUM + 2 * masses.HYDROXIDE, 2, (("calcium", masses.CALCIUM),), CAUSTIC
    ),
    Base.POTASSIUM_HYDROXIDE: _Compound(
        masses.POTASSIUM + masses.HYDROXIDE, 1, (("potassium", masses.POTASSIUM),), CAUSTIC
    ),
}


def alkalinity_dose(*, volume_l: float, rise_mg_per_l: float, base: Base, purity: float = 1.0) -> Dose:
    """Base that raises alkalinity by a wanted amount.

    grams = volume * rise / 1000 * (equivalent weight / 50.04) / purity

    Args:
        volume_l: all the water that mixes [L], above 0.
        rise_mg_per_l: wanted rise of alkalinity as CaCO3 [mg/L], 0 to 300.
        base: what is added.
        purity: share of the product that is the base [-], above 0, at most 1.

    Returns:
        Grams of the product; `brings` gives the calcium, potassium or sodium that comes with it.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        Equivalent weights from IUPAC atomic weights; the method of Loyless, Malone (1997),
        Prog. Fish-Cult. 59:198-205.
    """
    _check_water(volume_l, purity)
    check_range(rise_mg_per_l=(rise_mg_per_l, 0, 300))
    compound = _BASES[base]
    mmol_per_l = rise_mg_per_l / masses.CACO3_PER_EQUIVALENT / compound.gives
    return _dose(base, compound, volume_l, mmol_per_l, purity, "alkalinity as CaCO3", rise_mg_per_l)


class ChlorideSalt(StrEnum):
    """Salts that bring chloride."""

    SODIUM_CHLORIDE = "sodium chloride"
    CALCIUM_CHLORIDE = "calcium chloride, anhydrous"
    CALCIUM_CHLORIDE_DIHYDRATE = "calcium chloride dihydrate"
    POTASSIUM_CHLORIDE = "potassium chloride"


_CALCIUM_CHLORIDE = masses.CALCIUM + 2 * masses.CHLORINE
_SALTS = {
    ChlorideSalt.SODIUM_CHLORIDE: _Compound(
        masses.SODIUM + masses.CHLORINE, 1, (("sodium", masses.SODIUM),), (SICK_FISH, SODIUM)
    ),
    ChlorideSalt.CALCIUM_CHLORIDE: _Compound(
        _CALCIUM_CHLORIDE, 2, (("calcium", masses.CALCIUM),), (SICK_FISH, HEATS_UP)
    ),
    ChlorideSalt.CALCIUM_CHLORIDE_DIHYDRATE: _Compound(
        _CALCIUM_CHLORIDE + 2 * masses.WATER, 2, (("calcium", masses.CALCIUM),), (SICK_FISH, HEATS_UP)
    ),
    ChlorideSalt.POTASSIUM_CHLORIDE: _Compound(
        masses.POTASSIUM + masses.CHLORINE, 1, (("potassium", masses.POTASSIUM),), (SICK_FISH,)
    ),
}

CHLORIDE_PER_NITRITE = 10.0
"""Parts of chloride that keep one part of nitrite, as NO2, out of the blood of fish."""


def chloride_dose(
    *,
    volume_l: float,
    nitrite_mg_per_l: float,
    reported: NitriteAs,
    chloride_mg_per_l: float,
    salt: ChlorideSalt,
    ratio: float = CHLORIDE_PER_NITRITE,
    purity: float = 1.0,
) -> Dose:
    """Salt that brings enough chloride to shield fish from nitrite; 0 g when there is enough.

    chloride to add = max(0, ratio * nitrite as NO2 - chloride now)

    Args:
        volume_l: all the water that mixes [L], above 0.
        nitrite_mg_per_l: nitrite as reported [mg/L], 0 to 100.
        reported: whether the reading is as N or as NO2.
        chloride_mg_per_l: chloride in the water now [mg/L], 0 to 5000.
        salt: what is added.
        ratio: parts of chloride to one of nitrite as NO2 [-], 1 to 50.
        purity: share of the product that is the salt [-], above 0, at most 1.

    Returns:
        Grams of the product; `rise_mg_per_l` is the chloride added.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        Durborow, Crosby, Brunson (1997), Nitrite in Fish Ponds, SRAC Publication 462: at least 10 to 1.
    """
    _check_water(volume_l, purity)
    check_range(
        nitrite_mg_per_l=(nitrite_mg_per_l, 0, 100),
        chloride_mg_per_l=(chloride_mg_per_l, 0, 5000),
        ratio=(ratio, 1, 50),
    )
    nitrite = in_form(nitrite_mg_per_l, given=reported, wanted=NitriteAs.NO2)
    rise = max(0.0, ratio * nitrite - chloride_mg_per_l)
    compound = _SALTS[salt]
    mmol_per_l = rise / masses.CHLORINE / compound.gives
    return _dose(salt, compound, volume_l, mmol_per_l, purity, "chloride", rise)


class Thiosulfate(StrEnum):
    """Sodium thiosulfate as sold."""

    PENTAHYDRATE = "sodium thiosulfate pentahydrate"
    ANHYDROUS = "sodium thiosulfate, anhydrous"


_ANHYDROUS_THIOSULFATE = 2 * masses.SODIUM + masses.THIOSULFATE
_THIOSULFATES = {
    Thiosulfate.PENTAHYDRATE: _Compound(
        _ANHYDROUS_THIOSULFATE + 5 * masses.WATER, 1, (("sodium", 2 * masses.SODIUM),), (USE_SOON, CHLORAMINE)
    ),
    Thiosulfate.ANHYDROUS: _Compound(
        _ANHYDROUS_THIOSULFATE, 1, (("sodium", 2 * masses.SODIUM),), (USE_SOON, CHLORAMINE)
    ),
}


def thiosulfate_dose(*, volume_l: float, chlorine_mg_per_l: float, product: Thiosulfate, purity: float = 1.0) -> Dose:
    """Sodium thiosulfate that takes the chlorine out of tap water.

    2 S2O3 + Cl2 -> S4O6 + 2 Cl: 7.0 mg of the pentahydrate, 4.46 mg of the anhydrous, per mg of chlorine.

    Args:
        volume_l: tap water to be treated [L], above 0.
        chlorine_mg_per_l: total chlorine, free and bound, as Cl2 [mg/L], 0 to 20.
        product: the pentahydrate or the anhydrous salt.
        purity: share of the product that is the salt [-], above 0, at most 1.

    Returns:
        Grams of the product; `rise_mg_per_l` is the chlorine taken out, as a negative rise.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        Stoichiometry of the reaction above, IUPAC atomic weights.
    """
    _check_water(volume_l, purity)
    check_range(chlorine_mg_per_l=(chlorine_mg_per_l, 0, 20))
    mmol_per_l = 2 * chlorine_mg_per_l / (2 * masses.CHLORINE)
    compound = _THIOSULFATES[product]
    return _dose(product, compound, volume_l, mmol_per_l, purity, "chlorine as Cl2", -chlorine_mg_per_l)


def ammonia_left_by_chloramine(chloramine_mg_per_l: float) -> float:
    """Total ammonia that stays in the water once chloramine has lost its chlorine.

    Args:
        chloramine_mg_per_l: monochloramine, reported as Cl2 [mg/L], 0 to 20.

    Returns:
        Total ammonia as N [mg/L]; water works leave some free ammonia on top of it.

    Raises:
        OutOfRange: the concentration lies outside its range.

    Source:
        One N per Cl2 in NH2Cl, IUPAC atomic weights.
    """
    check_range(chloramine_mg_per_l=(chloramine_mg_per_l, 0, 20))
    as_nh3 = chloramine_mg_per_l * masses.NH3 / (2 * masses.CHLORINE)
    return in_form(as_nh3, given=AmmoniaAs.NH3, wanted=AmmoniaAs.N)


class Nutrient(StrEnum):
    """Nutrients that coupled units run short of."""

    IRON = "iron"
    POTASSIUM = "potassium"
    CALCIUM = "calcium"


class StrengthAs(StrEnum):
    """Whether a label states its strength as the element or, as fertiliser labels do, as its oxide."""

    ELEMENT = "element"
    OXIDE = "oxide"


_ELEMENT_IN_OXIDE = {
    Nutrient.POTASSIUM: 2 * masses.POTASSIUM / (2 * masses.POTASSIUM + masses.OXYGEN),
    Nutrient.CALCIUM: masses.CALCIUM / (masses.CALCIUM + masses.OXYGEN),
}
_HIGHEST_RISE = {Nutrient.IRON: 5.0, Nutrient.POTASSIUM: 100.0, Nutrient.CALCIUM: 200.0}
_NUTRIENT_CAUTION = {
    Nutrient.IRON: (CHELATE, PRODUCT),
    Nutrient.POTASSIUM: (PRODUCT,),
    Nutrient.CALCIUM: (PRODUCT,),
}


def nutrient_dose(
    *,
    volume_l: float,
    rise_mg_per_l: float,
    nutrient: Nutrient,
    strength_percent: float,
    strength_as: StrengthAs = StrengthAs.ELEMENT,
) -> Dose:
    """Product of a given strength that raises a nutrient by a wanted amount.

    Args:
        volume_l: all the water that mixes [L], above 0.
        rise_mg_per_l: wanted rise of the element [mg/L]: iron 0 to 5, potassium 0 to 100, calcium 0 to 200.
        nutrient: chelated iron, potassium or calcium.
        strength_percent: strength on the label [% by weight], above 0, at most 100.
        strength_as: whether that is the element, or the oxide (K2O, CaO); iron is always the element.

    Returns:
        Grams of the product.

    Raises:
        OutOfRange: an argument lies outside its range, or iron is given as an oxide.

    Source:
        Mass balance; oxides by IUPAC atomic weights. The upper ends of the rise are common practice.
    """
    check_positive(volume_l=volume_l)
    highest = _HIGHEST_RISE[nutrient]
    check_range(**{f"rise_of_{nutrient}_mg_per_l": (rise_mg_per_l, 0, highest)})
    share = _element_share(nutrient, strength_percent, strength_as)
    grams = volume_l * rise_mg_per_l / 1000 / share
    caution = (*_NUTRIENT_CAUTION[nutrient], SMALL_STEPS, LABEL)
    return Dose(f"{nutrient} product, {strength_percent:g} %", grams, nutrient.value, rise_mg_per_l, (), caution)


def _element_share(nutrient: Nutrient, strength_percent: float, strength_as: StrengthAs) -> float:
    check_positive(strength_percent=strength_percent)
    check_range(strength_percent=(strength_percent, 0, 100))
    if strength_as is StrengthAs.ELEMENT:
        return strength_percent / 100
    if nutrient not in _ELEMENT_IN_OXIDE:
        raise OutOfRange(f"labels state {nutrient} as the element, not as an oxide")
    return strength_percent / 100 * _ELEMENT_IN_OXIDE[nutrient]


@dataclass(frozen=True, slots=True)
class PhPlan:
    """pH to reach at the end of each day, the target last, with cautions; no days when it is there."""

    daily_ph: tuple[float, ...]
    caution: tuple[str, ...]


LARGEST_PH_STEP = 0.3
CAUTIOUS_PH_STEP = 0.2


def ph_steps(ph_now: float, ph_target: float, *, step: float = CAUTIOUS_PH_STEP) -> PhPlan:
    """Even daily steps from the pH of today to the one wanted, small enough for fish and bacteria.

    Args:
        ph_now: pH of the water [-], 4 to 10.
        ph_target: pH wanted [-], 5.5 to 8.5.
        step: largest change a day [-], 0.05 to 0.3.

    Returns:
        pH at the end of each day. How much acid or base that takes depends on alkalinity: give half of
        what you expect and measure.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        From memory, common practice: no more than 0.2 to 0.3 a day.
    """
    check_range(ph=(ph_now, 4, 10), target_ph=(ph_target, 5.5, 8.5), step=(step, 0.05, LARGEST_PH_STEP))
    # The slack keeps 6.4 to 6.8 at two steps of 0.2, which floats make a hair more.
    days = math.ceil(abs(ph_target - ph_now) / step - 1e-9)
    daily = tuple(ph_now + (ph_target - ph_now) * day / days for day in range(1, days + 1))
    rising = (LIFTS_PH,) if ph_target > ph_now else ()
    return PhPlan(daily, (PH_STEP, *rising, LABEL))


def _check_water(volume_l: float, purity: float) -> None:
    check_positive(volume_l=volume_l, purity=purity)
    check_range(purity=(purity, 0, 1))


def _dose(
    product: StrEnum,
    compound: _Compound,
    volume_l: float,
    mmol_per_l: float,
    purity: float,
    what: str,
    rise_mg_per_l: float,
) -> Dose:
    grams = volume_l * mmol_per_l * compound.molar_mass / 1000 / purity
    brings = tuple((name, mmol_per_l * mass) for name, mass in compound.brings)
    return Dose(product.value, grams, what, rise_mg_per_l, brings, (*compound.caution, SMALL_STEPS, LABEL))
