"""Values that entries are made of: a measure with what was typed, and the sign to leave a field alone."""

from __future__ import annotations

from enum import Enum
from typing import Final

from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Measured:
    """An exact whole number in the unit of storage, beside the text a person typed for it."""

    exact: int
    typed: str


class Keep(Enum):
    """Marks a field of a change that stays as it is; None clears a field."""

    KEEP = "keep"


KEEP: Final = Keep.KEEP
