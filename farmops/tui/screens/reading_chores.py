"""What the place of chores does with a chore that asks for readings: a line for each, right below the list."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from farmops.model.readings import NewReading
from farmops.reports.round import RoundLine
from farmops.reports.water import Taken, Waters
from farmops.tui.forms.readings import last_words, reading_field
from farmops.tui.widgets.fields import Field, Setting


def draft_key(line: RoundLine) -> str:
    """What tells the draft of a chore's readings from all other drafts."""
    return f"readings of chore {line.chore.id}"


def fields_of(line: RoundLine, waters: Waters) -> list[Field]:
    """A field for each reading that the chore asks for, in its order."""
    unit_id = line.chore.unit_id or 0

    def unit_of(setting: Setting) -> int:
        return unit_id

    return [
        reading_field(measure, waters, unit_of, hint=last_words(measure, waters, unit_id))
        for measure in line.chore.measures
    ]


def readings_in(values: Mapping[str, Any]) -> tuple[NewReading, ...]:
    """What was read, of the values of the fields, in their order."""
    return tuple(one.reading for one in values.values() if isinstance(one, Taken))


def bad_words(values: Mapping[str, Any]) -> str:
    """What is bad in what was read, the worst of it, and what to do first."""
    bad = [one for one in values.values() if isinstance(one, Taken) and one.judged.bad]
    if not bad:
        return ""
    worst = max(bad, key=lambda one: one.judged.level.gravity if one.judged.level else 0)
    return f"! {worst.reading.measure} {worst.reading.typed}: {worst.judged.brief}. {worst.judged.first}"
