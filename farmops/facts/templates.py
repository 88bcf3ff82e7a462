"""Templates in force: the grower's own where there is one, the packaged one otherwise."""

from __future__ import annotations

from farmops.library import ChoreTemplate, Standing, chore_templates
from farmops.model.templates import OwnTemplate
from farmops.model.units import UnitKind, UnitState
from farmops.records.reading import Reader

OWN = """
    SELECT key, version, title, applies_to, occasion, kinds, states, grade, rule, part, minutes, instructions, caution,
        readings, confirmation, adults_only, months, with_fish, dropped
    FROM chore_template
"""
OWN_SOURCE = "none: changed on this farm"


def own_templates(reader: Reader) -> list[OwnTemplate]:
    """The templates that the grower has changed or dropped, by key."""
    return sorted(reader.all(OwnTemplate, OWN), key=lambda one: one.key)


def templates(reader: Reader) -> tuple[ChoreTemplate, ...]:
    """Every template that gives chores, in the order of the packaged table."""
    own = {one.key: one for one in own_templates(reader)}
    dropped = {key for key, one in own.items() if one.dropped}
    found = {one.key: one for one in chore_templates()} | {key: template_of(one) for key, one in own.items()}
    return tuple(one for key, one in found.items() if key not in dropped)


def template_of(own: OwnTemplate) -> ChoreTemplate:
    """A template of the grower's in the form of the packaged ones."""
    return ChoreTemplate(
        key=own.key,
        version=own.version,
        title=own.title,
        applies_to=own.applies_to,
        occasion=own.occasion,
        kinds=tuple(UnitKind(word) for word in _words(own.kinds)),
        states=tuple(UnitState(word) for word in _words(own.states)),
        grade=own.grade,
        rule=own.rule,
        part=own.part,
        minutes=own.minutes,
        instructions=own.instructions or "",
        caution=own.caution,
        readings=tuple(_words(own.readings)),
        confirmation=own.confirmation,
        adults_only=own.adults_only,
        months=tuple(int(word) for word in _words(own.months)),
        with_fish=own.with_fish,
        source=OWN_SOURCE,
        standing=Standing.COMMON_PRACTICE,
    )


def _words(listed: str | None) -> list[str]:
    return listed.split(",") if listed else []
