"""Chores, how each time was settled, and when they rest."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from sqlalchemy import Index

from farmops.model.chores import AppliesTo, ChoreClass, Occasion, PartOfDay, SettledAs
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class ChoreRow(Row, table=True):
    """Work that recurs or is due once; `next_due` follows from the rest and is left out of images.

    `person_id` is who does it as a rule; None is whoever is here.
    """

    derived: ClassVar[frozenset[str]] = frozenset({"next_due"})

    __tablename__ = "chore"
    __table_args__ = table_options(
        one_of("grade", ChoreClass),
        one_of("part", PartOfDay),
        check("rule_kind_known", "rule_kind IN ('once', 'calendar', 'after', 'use', 'when')"),
        check("minutes_sensible", "minutes BETWEEN 0 AND 1440"),
        check(
            "one_place",
            "(unit_id IS NOT NULL AND bed_id IS NULL AND fish_lot_id IS NULL)"
            " OR (unit_id IS NULL AND (bed_id IS NULL OR fish_lot_id IS NULL))",
        ),
        Index(None, "next_due"),
        Index(None, "rule_kind", "rule_text"),
    )

    title: str = words()
    unit_id: int | None = link("unit", required=False)
    bed_id: int | None = link("bed", required=False)
    fish_lot_id: int | None = link("fish_lot", required=False)
    person_id: int | None = link("person", required=False)
    grade: str = words()
    rule_kind: str = words()
    rule_text: str = words()
    rule_words: str = words()
    start_day: date
    part: str = words()
    minutes: int = whole()
    instructions: str | None = words(required=False)
    caution: str | None = words(required=False)
    readings: str | None = words(required=False)
    confirmation: str | None = words(required=False)
    adults_only: bool
    months: str | None = words(required=False)
    states: str | None = words(required=False)
    with_fish: bool
    template_key: str | None = words(required=False)
    template_version: int | None = whole(required=False)
    next_due: date | None


class SettlementRow(Row, table=True):
    """One settling of a chore and the occurrence it settles."""

    __tablename__ = "settlement"
    __table_args__ = table_options(
        one_of("kind", SettledAs),
        check("until_with_deferred", "(kind = 'deferred') = (until_day IS NOT NULL)"),
        check("reason_with_skipped", "kind <> 'skipped' OR reason IS NOT NULL"),
        check("minutes_not_negative", "minutes >= 0"),
    )

    chore_id: int = link("chore")
    occurrence: date
    kind: str = words()
    on_day: date
    until_day: date | None
    reason: str | None = words(required=False)
    confirmed: str | None = words(required=False)
    minutes: int | None = whole(required=False)
    actor: str = words()


class PauseRow(Row, table=True):
    """A span in which a chore rests, both days included."""

    __tablename__ = "chore_pause"
    __table_args__ = table_options(
        unique("chore_id", "from_day"),
        check("until_after_from", "until_day >= from_day"),
    )

    chore_id: int = link("chore")
    from_day: date
    until_day: date | None


class TemplateRow(Row, table=True):
    """A template as the grower has changed it; it stands in for the packaged one of the same key.

    One that is `dropped` gives no chore any more.
    """

    __tablename__ = "chore_template"
    __table_args__ = table_options(
        unique("key"),
        one_of("applies_to", AppliesTo),
        one_of("occasion", Occasion),
        one_of("grade", ChoreClass),
        one_of("part", PartOfDay),
        check("minutes_sensible", "minutes BETWEEN 0 AND 1440"),
        check("version_positive", "version > 0"),
    )

    key: str = words()
    version: int = whole()
    title: str = words()
    applies_to: str = words()
    occasion: str = words()
    kinds: str = words()
    states: str = words()
    grade: str = words()
    rule: str = words()
    part: str = words()
    minutes: int = whole()
    instructions: str | None = words(required=False)
    caution: str | None = words(required=False)
    readings: str | None = words(required=False)
    confirmation: str | None = words(required=False)
    adults_only: bool
    months: str | None = words(required=False)
    with_fish: bool
    dropped: bool
