"""Templates changed, dropped and restored by the grower, who says whether the chores made from them follow."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from farmops.facts import templates as template_facts
from farmops.farm.chore_rows import listed, minutes_of, months_of, rule_columns, states_of
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation
from farmops.farm.template_followers import changed_chores
from farmops.library import ChoreTemplate, chore_templates
from farmops.library.templates import ONCE
from farmops.model.chores import AppliesTo
from farmops.model.errors import NotFound, OutOfRange, Refused
from farmops.model.templates import TemplateChange, TemplateChanged, TemplateDropping, TemplateRestoring
from farmops.model.text import LONGEST_NAME, name_of, note_of, plain
from farmops.records.chores import TemplateRow
from farmops.schedule.parts import read_parts
from farmops.schedule.rules import ByUse, OnCalendar, Once
from farmops.schedule.words import parse_words

LONGEST_WAIT_DAYS = 366
FIELDS = (
    *("title", "rule", "grade", "part", "minutes", "instructions", "caution", "readings", "confirmation"),
    *("adults_only", "months", "kinds", "states", "with_fish"),
)


@operation("change template")
def change_template(op: Operation, entry: TemplateChange) -> TemplateChanged:
    """From now on its chores are given like this; those that were made from it follow or stay, as the grower says."""
    row, old = _row(op, entry.key), _template(op, entry.key)
    if row is not None and row.dropped:
        raise Refused(f"Not changed: {old.title} is dropped. First: farmops chores template restore {old.key}")
    new = replace(old, version=old.version + 1, **_changes(op, entry, old))
    if replace(new, version=old.version) == old and not entry.existing.also:
        raise Refused(f"Nothing to change: {old.title} is like this already.")
    changed = changed_chores(op, old, new, entry.existing)
    _keep(op, row, new)
    return changed


@operation("drop template")
def drop_template(op: Operation, entry: TemplateDropping) -> TemplateChanged:
    """It gives no chore any more; those that were made from it stay, to be paused or removed one by one."""
    row, old = _row(op, entry.key), _template(op, entry.key)
    if row is not None and row.dropped:
        raise Refused(f"Not dropped: {old.title} gives no chore already.")
    version = old.version + 1
    _keep(op, row, replace(old, version=version), dropped=True)
    return TemplateChanged(old.key, version, old.title, 0, ())


@operation("restore template")
def restore_template(op: Operation, entry: TemplateRestoring) -> TemplateChanged:
    """It is the packaged one again; the chores that were made from it follow or stay, as the grower says."""
    row, old = _row(op, entry.key), _template(op, entry.key)
    packaged = next((one for one in chore_templates() if one.key == entry.key), None)
    if row is None or packaged is None:
        raise Refused(f"Not restored: {old.title} {'is the packaged one' if row is None else 'has no packaged one'}.")
    changed = changed_chores(op, old, packaged, entry.existing)
    op.remove(row)
    return changed


def _row(op: Operation, key: str) -> TemplateRow | None:
    found = op.reader.value("SELECT id FROM chore_template WHERE key = :key", key=key)
    return None if found is None else op.get(TemplateRow, int(found))


def _template(op: Operation, key: str) -> ChoreTemplate:
    """The template of that key as it is now, a dropped one included. Raises NotFound."""
    own = next((one for one in template_facts.own_templates(op.reader) if one.key == key), None)
    if own is not None:
        return template_facts.template_of(own)
    packaged = next((one for one in chore_templates() if one.key == key), None)
    if packaged is None:
        raise NotFound(f"There is no template {plain(key[:LONGEST_NAME])}. See: farmops chores templates")
    return packaged


def _changes(op: Operation, entry: TemplateChange, old: ChoreTemplate) -> dict[str, Any]:
    values = mapped(
        given(entry, *FIELDS),
        title=lambda text: name_of(text, "title"),
        rule=lambda text: rule_of_template(text, op),
        minutes=minutes_of,
        instructions=lambda text: note_of(text, "instructions") or "",
        caution=note_of,
        readings=lambda words: tuple(name_of(word, "list") for word in words),
        confirmation=note_of,
        months=lambda months: tuple(sorted(set(months))),
    )
    months_of(values.get("months", ()))
    if values.get("kinds", old.kinds) == ():
        raise Refused(f"Not changed: {old.title} would be for no kind of unit. To give it no more: drop it.")
    new = replace(old, rule=values.get("rule", old.rule))
    if old.applies_to is AppliesTo.FARM and isinstance(parse_words(new.words, op.today), ByUse):
        raise Refused(f"Not changed: use is counted unit by unit, and {old.title} is one chore for the whole farm.")
    return values


def rule_of_template(text: str, op: Operation) -> str:
    """The rule of a template in its short form. Refuses one that is bound to days of the calendar it would outlive."""
    words, _, wait = " ".join(text.strip(" .").split()).partition(" +")
    if wait and not (re.fullmatch("[0-9]{1,3}", wait) and int(wait) <= LONGEST_WAIT_DAYS):
        raise OutOfRange(f"+{plain(wait)} is no number of days to wait. Understood: +0 to +{LONGEST_WAIT_DAYS}.")
    rule_columns(words, op.today, literal=False, zone=None)
    rule = parse_words(words, op.today)
    words = ONCE if words.lower() == ONCE else words
    if isinstance(rule, Once) and words != ONCE:
        raise Refused("Not changed: a template is due so long after its occasion: once, or once +3 for 3 days after.")
    if isinstance(rule, OnCalendar) and read_parts(rule.rrule).until is not None:
        raise Refused("Not changed: a template outlives a day. Say how many times instead: day 14 times.")
    return f"{words} +{int(wait)}" if wait and int(wait) else words


def _keep(op: Operation, row: TemplateRow | None, template: ChoreTemplate, *, dropped: bool = False) -> None:
    values = {**_columns(template), "dropped": dropped}
    if row is None:
        op.add(TemplateRow(**values))
    else:
        op.change(row, **values)


def _columns(template: ChoreTemplate) -> Mapping[str, Any]:
    return {
        "key": template.key,
        "version": template.version,
        "title": template.title,
        "applies_to": template.applies_to.value,
        "occasion": template.occasion.value,
        "kinds": listed(tuple(kind.value for kind in template.kinds)),
        "states": states_of(template.states) or "",
        "grade": template.grade.value,
        "rule": template.rule,
        "part": template.part.value,
        "minutes": template.minutes,
        "instructions": template.instructions or None,
        "caution": template.caution,
        "readings": listed(template.readings),
        "confirmation": template.confirmation,
        "adults_only": template.adults_only,
        "months": months_of(template.months),
        "with_fish": template.with_fish,
    }
