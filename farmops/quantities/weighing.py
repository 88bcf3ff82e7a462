"""One weighing at the scale: what stood on it, less the container."""

from __future__ import annotations

import re

from farmops.model.errors import FarmopsError
from farmops.model.frozen import dataclass
from farmops.quantities.dimensions import MASS
from farmops.quantities.measures import Measures
from farmops.quantities.wording import not_understood


@dataclass(frozen=True, slots=True)
class Weighing:
    """The weight that counts and the tare taken off, in milligrams."""

    net_mg: int
    tare_mg: int


def weigh(gross: str, tare: str | None, measures: Measures) -> Weighing:
    """What was weighed, less the tare; the tare comes off once, however many weighings are joined with `+`.

    Args:
        gross: what the scale said.
        tare: the empty container; None, blank or 0 for none.
        measures: of the farm.

    Raises:
        NotUnderstood: either text is unclear, or the tare is not less than the gross weight.
        OutOfRange: either weight is too large.
    """
    gross_mg = MASS.parse(gross, measures)
    tare_mg = MASS.parse(tare, measures, zero_ok=True) if tare and tare.strip() else 0
    if tare_mg >= gross_mg:
        shown = MASS.show(gross_mg, measures)
        why = f"as tare leaves nothing of {shown}; the tare is the empty container alone"
        raise not_understood(tare or "", why, MASS.examples(measures))
    return Weighing(gross_mg - tare_mg, tare_mg)


ALONE = re.compile(r"\s*([0-9][0-9.,]*)\s*[A-Za-z.]*\s*")
OFTEN_TAKEN = ("lb", "kg", "oz", "g")


def other_reading(typed: str, low_mg: float, high_mg: float, measures: Measures) -> str:
    """The same number in another unit of weight that lies between two weights, such as `6 lb`; else nothing."""
    number = ALONE.fullmatch(typed)
    if number is None:
        return ""
    others = [f"{number[1]} {unit}" for unit in OFTEN_TAKEN]
    try:
        return next((one for one in others if low_mg <= MASS.parse(one, measures) <= high_mg), "")
    except FarmopsError:
        return ""
