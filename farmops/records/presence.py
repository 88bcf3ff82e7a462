"""Who is here on a day, and who is away for a while with somebody standing in."""

from __future__ import annotations

from datetime import date

from farmops.records.base import Row, check, link, table_options, unique, words


class PresenceRow(Row, table=True):
    """Somebody is here on a day."""

    __tablename__ = "presence"
    __table_args__ = table_options(unique("day", "person_id"))

    day: date
    person_id: int = link("person")


class AbsenceRow(Row, table=True):
    """Somebody is away, both days included; `stand_in_id` is who does the work meanwhile."""

    __tablename__ = "absence"
    __table_args__ = table_options(
        check("until_after_from", "until_day >= from_day"),
        check("somebody_else_stands_in", "stand_in_id <> person_id"),
    )

    person_id: int = link("person")
    from_day: date
    until_day: date
    stand_in_id: int | None = link("person", required=False)
    note: str | None = words(required=False)
