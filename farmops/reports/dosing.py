"""How much to add to bring a reading where it is wanted: arithmetic on the unit's tank and its latest reading."""

from __future__ import annotations

from enum import StrEnum

from farmops.model.errors import NotFound, NotUnderstood, Refused
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure
from farmops.reports.water import UnitWater, Waters
from farmops.science.doses import Base, Dose, Nutrient, StrengthAs, alkalinity_dose, nutrient_dose

ML_PER_L = 1000
BASES = {base.value: Measure.ALKALINITY for base in Base}
NUTRIENTS = {
    "chelated iron": (Nutrient.IRON, StrengthAs.ELEMENT),
    "potassium fertiliser, as K": (Nutrient.POTASSIUM, StrengthAs.ELEMENT),
    "potassium fertiliser, as K2O": (Nutrient.POTASSIUM, StrengthAs.OXIDE),
    "calcium fertiliser, as Ca": (Nutrient.CALCIUM, StrengthAs.ELEMENT),
    "calcium fertiliser, as CaO": (Nutrient.CALCIUM, StrengthAs.OXIDE),
}
PRODUCTS = (*BASES, *NUTRIENTS)
"""What can be worked out from a reading."""


class Basis(StrEnum):
    """What the water is reckoned to be."""

    TANK = "the whole tank"
    TYPED = "as typed"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """How much to add, and what it rests on: the water that mixes and the reading now; to be measured again."""

    unit: str
    measure: Measure
    now: float
    wanted: float
    water_l: float
    basis: Basis
    dose: Dose


def raises(product: str) -> Measure | None:
    """Which measure a product raises, None for one that is not worked out here."""
    if product in NUTRIENTS:
        return Measure(NUTRIENTS[product][0].value)
    return BASES.get(product)


def suggested(
    waters: Waters,
    unit_id: int,
    product: str,
    wanted: float,
    *,
    strength_percent: float | None = None,
    water_ml: int | None = None,
) -> Suggestion:
    """How much of a product brings its measure in a unit from the latest reading to the one wanted.

    Args:
        waters: the water of the units on the day.
        unit_id: where.
        product: one of PRODUCTS.
        wanted: the reading wanted [mg/L], alkalinity as CaCO3.
        strength_percent: of the product by its label [%]; bases count as pure where it is not given.
        water_ml: all the water that mixes [ml]; the tank where it is not given.

    Raises:
        NotUnderstood: the product is not worked out here, or lacks its strength.
        Refused: the reading or the tank is not known, or there is enough already.
        OutOfRange: more than the sum is good for.
    """
    measure = raises(product)
    if measure is None:
        raise NotUnderstood(f"{product!r} is not worked out here. Known: {', '.join(PRODUCTS)}.")
    water = waters.of(unit_id)
    if water is None:
        raise NotFound(f"There is no unit {unit_id}.")
    now, litres = _now(water, measure), _litres(water, water_ml)
    if wanted <= now:
        raise Refused(f"Nothing to add: {measure} in {water.unit.code} was {now:g} mg/L when it was last read.")
    dose = _dose(product, litres, wanted - now, strength_percent)
    basis = Basis.TANK if water_ml is None else Basis.TYPED
    return Suggestion(water.unit.code, measure, now, wanted, litres, basis, dose)


def _now(water: UnitWater, measure: Measure) -> float:
    found = next((one.value for one in water.latest if one.measure is measure), None)
    if found is None:
        raise Refused(f"Not worked out: {measure} was never read in {water.unit.code}. Read it first.")
    return found


def _litres(water: UnitWater, typed_ml: int | None) -> float:
    volume = typed_ml or water.unit.tank_ml
    if not volume:
        raise Refused(f"Not worked out: the tank of {water.unit.code} has no volume yet. Say how much water mixes.")
    return volume / ML_PER_L


def _dose(product: str, litres: float, rise: float, strength: float | None) -> Dose:
    if product in BASES:
        purity = 1.0 if strength is None else strength / 100
        return alkalinity_dose(volume_l=litres, rise_mg_per_l=rise, base=Base(product), purity=purity)
    nutrient, counted = NUTRIENTS[product]
    if strength is None:
        raise NotUnderstood(f"Say the strength of the {product} by its label, in percent.")
    return nutrient_dose(
        volume_l=litres, rise_mg_per_l=rise, nutrient=nutrient, strength_percent=strength, strength_as=counted
    )
