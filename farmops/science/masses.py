"""Atomic and molar masses of what is measured in the water and added to it [g/mol].

Source: IUPAC standard atomic weights 2021, abridged values.
"""

from __future__ import annotations

HYDROGEN = 1.008
CARBON = 12.011
NITROGEN = 14.007
OXYGEN = 15.999
SODIUM = 22.990
SULFUR = 32.06
CHLORINE = 35.45
POTASSIUM = 39.098
CALCIUM = 40.078

WATER = 2 * HYDROGEN + OXYGEN
HYDROXIDE = OXYGEN + HYDROGEN
CARBONATE = CARBON + 3 * OXYGEN
BICARBONATE = HYDROGEN + CARBONATE
THIOSULFATE = 2 * SULFUR + 3 * OXYGEN

NH3 = NITROGEN + 3 * HYDROGEN
NH4 = NITROGEN + 4 * HYDROGEN
NO2 = NITROGEN + 2 * OXYGEN
NO3 = NITROGEN + 3 * OXYGEN

CALCIUM_CARBONATE = CALCIUM + CARBONATE
CACO3_PER_EQUIVALENT = CALCIUM_CARBONATE / 2
"""Grams of CaCO3 that make one equivalent of alkalinity."""
