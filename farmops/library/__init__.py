"""Packaged read-only tables with a source per row: chore templates, crops, species."""

from __future__ import annotations

from farmops.library.crop_facts import CropFacts, crop, crops
from farmops.library.species_facts import SpeciesFacts, all_species, species
from farmops.library.tables import Standing
from farmops.library.templates import (
    ChoreTemplate,
    chore_templates,
    farm_templates,
    templates_for,
)

__all__ = [
    "ChoreTemplate",
    "CropFacts",
    "SpeciesFacts",
    "Standing",
    "all_species",
    "chore_templates",
    "crop",
    "crops",
    "farm_templates",
    "species",
    "templates_for",
]
