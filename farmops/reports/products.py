"""From the name of a product to the crop, or the species of fish, that it means."""

from __future__ import annotations

from collections.abc import Mapping

from farmops import library
from farmops.facts.reading import Store
from farmops.model.errors import NotFound
from farmops.model.nearness import near_names
from farmops.model.text import plain
from farmops.reports import lists


def product(store: Store, what: str) -> tuple[int | None, str | None]:
    """The id of the crop of that name, else the species of a fish lot. Raises NotFound."""
    crops = {one.name: one.id for one in lists.crops(store)}
    return product_among(crops, {one.species for one in lists.fish_lots(store)}, what)


def product_among(crops: Mapping[str, int], kept: set[str], what: str) -> tuple[int | None, str | None]:
    """The id of the crop of that name among some, else the species among those kept. Raises NotFound."""
    name = " ".join(what.split()).upper()
    if name in crops:
        return crops[name], None
    facts = library.species(what)
    species = (facts.name if facts else name).lower()
    if species in kept:
        return None, species
    known = [*crops, *(one.upper() for one in sorted(kept))]
    near = near_names(name, known)
    hint = f"Did you mean {' or '.join(near)}? " if near else ""
    raise NotFound(
        f"There is no crop {plain(what)}, and no fish lot of that species. {hint}"
        "Add a crop (farmops crops add) or a fish lot (farmops fish add) first."
    )
