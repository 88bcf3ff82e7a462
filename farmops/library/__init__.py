"""Packaged read-only tables with a source per row: chore templates, crops, species, limits of the water."""

from __future__ import annotations

from farmops.library.crop_facts import CropFacts, crop, crops
from farmops.library.curing import BUILD_STEPS, FLOOR_HOURS, with_cure
from farmops.library.species_facts import SpeciesFacts, all_species, species, species_near
from farmops.library.tables import Standing
from farmops.library.templates import ChoreTemplate, chore_templates, of_state
from farmops.library.water_limits import limits_for, water_limits

__all__ = [
    "BUILD_STEPS",
    "FLOOR_HOURS",
    "ChoreTemplate",
    "CropFacts",
    "SpeciesFacts",
    "Standing",
    "all_species",
    "chore_templates",
    "crop",
    "crops",
    "limits_for",
    "of_state",
    "species",
    "species_near",
    "water_limits",
    "with_cure",
]
