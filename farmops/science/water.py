"""Nitrogen in the water: how it was reported, how much of it is toxic, what turning it over takes."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TypeVar

from farmops.model.frozen import dataclass
from farmops.science import masses
from farmops.science.ranges import KELVIN, check_range


class AmmoniaAs(StrEnum):
    """As what a kit or a meter reports total ammonia (NH3 and NH4 together)."""

    N = "N"
    NH3 = "NH3"
    NH4 = "NH4"

    @property
    def per_n(self) -> float:
        """Mass in this form per mass of nitrogen [g/g]."""
        return {"N": masses.NITROGEN, "NH3": masses.NH3, "NH4": masses.NH4}[self.value] / masses.NITROGEN


class NitriteAs(StrEnum):
    """As what a kit or a meter reports nitrite."""

    N = "N"
    NO2 = "NO2"

    @property
    def per_n(self) -> float:
        """Mass in this form per mass of nitrogen [g/g]."""
        return {"N": masses.NITROGEN, "NO2": masses.NO2}[self.value] / masses.NITROGEN


class NitrateAs(StrEnum):
    """As what a kit or a meter reports nitrate."""

    N = "N"
    NO3 = "NO3"

    @property
    def per_n(self) -> float:
        """Mass in this form per mass of nitrogen [g/g]."""
        return {"N": masses.NITROGEN, "NO3": masses.NO3}[self.value] / masses.NITROGEN


Form = TypeVar("Form", AmmoniaAs, NitriteAs, NitrateAs)


def in_form(mg_per_l: float, *, given: Form, wanted: Form) -> float:
    """The same water in another form of reporting: nitrite given as NO2 wanted as N, and so on.

    Args:
        mg_per_l: concentration as `given` [mg/L], 0 or more.
        given: the form in which it was reported.
        wanted: the form to give back, of the same substance.

    Returns:
        Concentration as `wanted` [mg/L].

    Raises:
        OutOfRange: the concentration is negative or not a finite number.

    Source:
        Ratio of molar masses, IUPAC standard atomic weights 2021.
    """
    check_range(concentration_mg_per_l=(mg_per_l, 0, math.inf))
    return mg_per_l * wanted.per_n / given.per_n


@dataclass(frozen=True, slots=True)
class UnionizedAmmonia:
    """The toxic part of total ammonia: its share [-] and its concentration as N and as NH3 [mg/L]."""

    fraction: float
    as_n_mg_per_l: float
    as_nh3_mg_per_l: float


PKA_CONSTANT = 0.09018
PKA_PER_TEMPERATURE = 2729.92
"""Slope of the pKa line [K]; 2727.92, seen in some software, is a misprint."""


def ammonium_pka(temperature_c: float) -> float:
    """Acidity constant of ammonium in fresh water, the pH at which half of total ammonia is NH3.

    Args:
        temperature_c: water temperature [deg C], 0 to 50.

    Returns:
        pKa [-].

    Raises:
        OutOfRange: the temperature lies outside the range of the data behind the equation.

    Source:
        Emerson, Russo, Lund, Thurston (1975), J. Fish. Res. Board Can. 32:2379-2383, eq. for pKa.
    """
    check_range(temperature_c=(temperature_c, 0, 50))
    return PKA_CONSTANT + PKA_PER_TEMPERATURE / (temperature_c + KELVIN)


def unionized_ammonia_fraction(ph: float, temperature_c: float) -> float:
    """Share of total ammonia that is present as NH3 in fresh water.

    Args:
        ph: pH of the water [-], 5 to 11.
        temperature_c: water temperature [deg C], 0 to 50.

    Returns:
        Fraction between 0 and 1 [-]. Salinity is left out; salt lowers the fraction a little.

    Raises:
        OutOfRange: an argument lies outside the range of the equation.

    Source:
        Emerson, Russo, Lund, Thurston (1975), J. Fish. Res. Board Can. 32:2379-2383. Their own
        tables span pH 6 to 10 and 0 to 30 deg C; the pKa data behind the line span 0 to 50 deg C.
    """
    check_range(ph=(ph, 5, 11))
    return 1 / (1 + 10 ** (ammonium_pka(temperature_c) - ph))


def unionized_ammonia(
    total_mg_per_l: float, *, ph: float, temperature_c: float, reported: AmmoniaAs
) -> UnionizedAmmonia:
    """Toxic (un-ionised) ammonia from a reading of total ammonia.

    Args:
        total_mg_per_l: total ammonia as reported [mg/L], 0 or more.
        ph: pH of the water [-], 5 to 11.
        temperature_c: water temperature [deg C], 0 to 50.
        reported: whether the reading is as N, as NH3 or as NH4.

    Returns:
        The fraction, and the concentration as N and as NH3 [mg/L].

    Raises:
        OutOfRange: an argument lies outside the range of the equation.

    Source:
        `unionized_ammonia_fraction`; forms by molar mass.
    """
    fraction = unionized_ammonia_fraction(ph, temperature_c)
    as_n = fraction * in_form(total_mg_per_l, given=reported, wanted=AmmoniaAs.N)
    return UnionizedAmmonia(fraction, as_n, in_form(as_n, given=AmmoniaAs.N, wanted=AmmoniaAs.NH3))


def epa_chronic_ammonia(ph: float, temperature_c: float) -> float:
    """Total ammonia that wild fresh water may hold for 30 days: a cautious yardstick, no limit of a farm.

    Args:
        ph: pH of the water [-], 6.5 to 9.
        temperature_c: water temperature [deg C], 0 to 30.

    Returns:
        Criterion continuous concentration, total ammonia as N [mg/L].

    Raises:
        OutOfRange: an argument lies outside the range of the criteria tables.

    Source:
        US EPA (2013), Aquatic Life Ambient Water Quality Criteria for Ammonia - Freshwater,
        EPA-822-R-13-001, CCC (mussels present).
    """
    _check_epa_range(ph, temperature_c)
    by_ph = 0.0278 / (1 + 10 ** (7.688 - ph)) + 1.1994 / (1 + 10 ** (ph - 7.688))
    return 0.8876 * by_ph * 2.126 * 10 ** (0.028 * (20 - max(temperature_c, 7)))


def epa_acute_ammonia(ph: float, temperature_c: float, *, salmonids: bool = False) -> float:
    """Total ammonia that wild fresh water may hold for an hour: a cautious yardstick, no limit of a farm.

    Args:
        ph: pH of the water [-], 6.5 to 9.
        temperature_c: water temperature [deg C], 0 to 30.
        salmonids: whether trout or salmon live in it; the stricter limit counts then.

    Returns:
        Criterion maximum concentration, total ammonia as N [mg/L].

    Raises:
        OutOfRange: an argument lies outside the range of the criteria tables.

    Source:
        US EPA (2013), EPA-822-R-13-001, CMC (mussels present). The further term for salmonids
        (0.275 and 39.0) is from memory.
    """
    _check_epa_range(ph, temperature_c)
    by_ph = 0.0114 / (1 + 10 ** (7.204 - ph)) + 1.6181 / (1 + 10 ** (ph - 7.204))
    general = 0.7249 * by_ph * min(51.93, 23.12 * 10 ** (0.036 * (20 - temperature_c)))
    return min(general, _epa_salmonid_term(ph)) if salmonids else general


def _epa_salmonid_term(ph: float) -> float:
    return 0.275 / (1 + 10 ** (7.204 - ph)) + 39.0 / (1 + 10 ** (ph - 7.204))


def _check_epa_range(ph: float, temperature_c: float) -> None:
    check_range(ph=(ph, 6.5, 9), temperature_c=(temperature_c, 0, 30))


class Nitrification(StrEnum):
    """Which published account of nitrification is used: with or without the bacteria's own growth."""

    WITHOUT_GROWTH = "without cell growth"
    WITH_GROWTH = "with cell growth"


@dataclass(frozen=True, slots=True)
class NitrificationUse:
    """What turning ammonia into nitrate uses up: alkalinity as CaCO3 and oxygen [g]."""

    alkalinity_g_caco3: float
    oxygen_g: float


PER_GRAM_NITRIFIED = {
    Nitrification.WITHOUT_GROWTH: NitrificationUse(7.14, 4.57),
    Nitrification.WITH_GROWTH: NitrificationUse(7.05, 4.18),
}
"""Use per gram of nitrogen, as published for each account; both are right of what they count."""


def nitrification_use(nitrogen_g: float, account: Nitrification) -> NitrificationUse:
    """Alkalinity and oxygen that nitrifying bacteria use up for an amount of ammonia nitrogen.

    Args:
        nitrogen_g: ammonia turned into nitrate, as N [g], 0 or more.
        account: whether the growth of the bacteria is counted.

    Returns:
        Alkalinity as CaCO3 [g] and oxygen [g].

    Raises:
        OutOfRange: the amount is negative or not a finite number.

    Source:
        Without growth: NH4+ + 2 O2 -> NO3- + 2 H+ + H2O, as in US EPA nitrogen-control manuals.
        With growth: Ebeling, Timmons, Bisogni (2006), Aquaculture 257:346-358, abstract.
    """
    check_range(nitrogen_g=(nitrogen_g, 0, math.inf))
    per_gram = PER_GRAM_NITRIFIED[account]
    return NitrificationUse(nitrogen_g * per_gram.alkalinity_g_caco3, nitrogen_g * per_gram.oxygen_g)
