"""Incidents and the steps taken in them."""

from __future__ import annotations

from datetime import datetime

from sqlmodel import Field

from farmops.model.incidents import IncidentKind
from farmops.records.base import Instant, Row, check, link, one_of, table_options, words


class IncidentRow(Row, table=True):
    """Something went wrong at an instant and is over at another."""

    __tablename__ = "incident"
    __table_args__ = table_options(one_of("kind", IncidentKind), check("ends_after_it_began", "ended_at >= began_at"))

    kind: str = words()
    began_at: datetime = Field(sa_type=Instant)
    ended_at: datetime | None = Field(default=None, sa_type=Instant)
    note: str | None = words(required=False)


class IncidentStepRow(Row, table=True):
    """A step that was taken, for one unit or for all, and by whom."""

    __tablename__ = "incident_step"
    __table_args__ = table_options()

    incident_id: int = link("incident")
    unit_id: int | None = link("unit", required=False)
    step: str = words()
    at: datetime = Field(sa_type=Instant)
    actor: str = words()
    note: str | None = words(required=False)
