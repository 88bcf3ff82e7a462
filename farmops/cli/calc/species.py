"""What the packaged table says of a species, asked for by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from farmops.model.errors import NotFound
from farmops.quantities.wording import quoted

if TYPE_CHECKING:
    from farmops.library import SpeciesFacts


def facts_of(name: str) -> SpeciesFacts:
    """The facts of a species by its key, name or Latin name. Raises NotFound."""
    from farmops.library import all_species, species

    found = species(name)
    if found is None:
        known = ", ".join(facts.key for facts in all_species())
        raise NotFound(f"No facts about {quoted(name)}. Known: {known}.")
    return found
