"""What went into the water: doses, top-ups, and the sources they came from; and treatments with their holds."""

from __future__ import annotations

from datetime import date, datetime

from sqlmodel import Field

from farmops.model.readings import Form, Measure
from farmops.model.water import SourceKind
from farmops.records.base import Instant, Row, check, link, one_of, table_options, unique, whole, words


class DoseRow(Row, table=True):
    """Something that was added to the water of a unit: milligrams or millilitres, and why."""

    __tablename__ = "dose"
    __table_args__ = table_options(
        check("held_by_known", "held_by IN ('mass', 'volume')"),
        check("amount_positive", "amount > 0"),
    )

    day: date
    unit_id: int = link("unit")
    what: str = words()
    held_by: str = words()
    amount: int = whole()
    amount_typed: str = words()
    why: str | None = words(required=False)
    supply_use_id: int | None = link("supply_use", required=False)
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)


class WaterSourceRow(Row, table=True):
    """Where water comes from."""

    __tablename__ = "water_source"
    __table_args__ = table_options(unique("name"), one_of("kind", SourceKind))

    name: str = words()
    kind: str = words()
    note: str | None = words(required=False)


class SourceValueRow(Row, table=True):
    """What the water of a source is like from a day on, in the unit of the measure."""

    __tablename__ = "source_value"
    __table_args__ = table_options(
        unique("water_source_id", "measure", "from_day"), one_of("measure", Measure), one_of("form", Form)
    )

    water_source_id: int = link("water_source")
    from_day: date
    measure: str = words()
    value: float
    form: str | None = words(required=False)
    typed: str = words()


class TopUpRow(Row, table=True):
    """Water that was put into a unit, in millilitres."""

    __tablename__ = "top_up"
    __table_args__ = table_options(check("volume_positive", "volume_ml > 0"))

    day: date
    unit_id: int = link("unit")
    volume_ml: int = whole()
    volume_typed: str = words()
    water_source_id: int | None = link("water_source", required=False)
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)


class TreatmentRow(Row, table=True):
    """Something done against a pest or a disease, and how long to keep out, not to pick and not to take fish."""

    __tablename__ = "treatment"
    __table_args__ = table_options(
        check(
            "one_place",
            "(CASE WHEN unit_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN bed_id IS NULL THEN 0 ELSE 1 END)"
            " + (CASE WHEN fish_lot_id IS NULL THEN 0 ELSE 1 END) = 1",
        ),
        check("reentry_not_negative", "reentry_hours >= 0"),
        check("harvest_not_negative", "harvest_days >= 0"),
        check("fish_not_negative", "fish_days >= 0"),
    )

    at: datetime = Field(sa_type=Instant)
    day: date
    unit_id: int | None = link("unit", required=False)
    bed_id: int | None = link("bed", required=False)
    fish_lot_id: int | None = link("fish_lot", required=False)
    product: str = words()
    active: str | None = words(required=False)
    registration: str | None = words(required=False)
    against: str | None = words(required=False)
    amount_typed: str = words()
    reentry_hours: int = whole()
    harvest_days: int = whole()
    fish_days: int | None = whole(required=False)
    actor: str = words()
    note: str | None = words(required=False)
