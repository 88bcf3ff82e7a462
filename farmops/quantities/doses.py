"""Amounts of what is added to water: weighed or measured, as a grower types them."""

from __future__ import annotations

from farmops.model.errors import NotUnderstood
from farmops.model.supplies import HeldBy
from farmops.model.text import plain
from farmops.model.values import Measured
from farmops.model.water import Amount, Dose
from farmops.quantities.dimensions import MASS, VOLUME
from farmops.quantities.measures import Measures


def parse_amount(text: str, measures: Measures) -> Amount:
    """The amount typed, a weight or a volume; a bare number is a weight. Raises NotUnderstood, OutOfRange."""
    for held_by, dimension in ((HeldBy.MASS, MASS), (HeldBy.VOLUME, VOLUME)):
        try:
            return Amount(held_by, Measured(dimension.parse(text, measures), text.strip()))
        except NotUnderstood:
            continue
    raise NotUnderstood(f"{plain(text)!r} is no amount. Understood: a weight or a volume, such as 65 g, 2 oz, 500 ml.")


def show_dose(one: Dose, measures: Measures) -> str:
    """How much was added, as the farm weighs and measures."""
    return (MASS if one.held_by is HeldBy.MASS else VOLUME).show(one.amount, measures)
