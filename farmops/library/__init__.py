"""Packaged read-only tables with a source per row: chore templates, crops, species, limits of the water."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from farmops.library.crop_facts import CropFacts, crop, crops
    from farmops.library.curing import BUILD_STEPS, FLOOR_HOURS, with_cure
    from farmops.library.limits import limits_for, water_limits
    from farmops.library.species_facts import SpeciesFacts, all_species, species
    from farmops.library.tables import Standing
    from farmops.library.templates import ChoreTemplate, chore_templates, of_state

HOMES = {
    "BUILD_STEPS": "curing",
    "FLOOR_HOURS": "curing",
    "with_cure": "curing",
    "CropFacts": "crop_facts",
    "crop": "crop_facts",
    "crops": "crop_facts",
    "SpeciesFacts": "species_facts",
    "all_species": "species_facts",
    "species": "species_facts",
    "Standing": "tables",
    "ChoreTemplate": "templates",
    "chore_templates": "templates",
    "of_state": "templates",
    "limits_for": "limits",
    "water_limits": "limits",
}


def __getattr__(name: str) -> object:
    """Load the table a name belongs to when it is first asked for: who asks for crops loads no limits of the water."""
    if name not in HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(f"{__name__}.{HOMES[name]}"), name)
    globals()[name] = value
    return value


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
    "water_limits",
    "with_cure",
]
