"""Units of the row and the states they passed through."""

from __future__ import annotations

from datetime import date

from farmops.model.units import UnitKind, UnitState
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class UnitRow(Row, table=True):
    """One coupled system, or a hydroponic, fish-only or holding one; tank volume in millilitres.

    `breaker` and `valve` say in words where the power and the water of the unit are shut off.
    """

    __tablename__ = "unit"
    __table_args__ = table_options(
        unique("code"),
        one_of("kind", UnitKind),
        check("tank_positive", "tank_ml > 0"),
    )

    code: str = words()
    kind: str = words()
    position: int = whole()
    tank_ml: int | None = whole(required=False)
    tank_typed: str | None = words(required=False)
    breaker: str | None = words(required=False)
    valve: str | None = words(required=False)
    note: str | None = words(required=False)


class UnitStateRow(Row, table=True):
    """The state of a unit from a day on."""

    __tablename__ = "unit_state"
    __table_args__ = table_options(unique("unit_id", "from_day"), one_of("state", UnitState))

    unit_id: int = link("unit")
    state: str = words()
    from_day: date
