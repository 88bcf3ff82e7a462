"""Chores that were made from a template and follow it when it changes; what was edited by hand stays unless named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from typing import Any

from farmops.facts import chores as chore_facts
from farmops.facts.sets import Place
from farmops.farm.chore_rows import rule_columns
from farmops.farm.operation import Operation
from farmops.farm.templates import made_from
from farmops.library import ChoreTemplate
from farmops.library.templates import ONCE
from farmops.model.chores import Chore
from farmops.model.errors import Refused
from farmops.model.templates import Following, LeftChore, TemplateChanged
from farmops.records.chores import ChoreRow
from farmops.schedule.stored import rule_text
from farmops.schedule.words import parse_words

TEXTS = (
    *("title", "grade", "part", "minutes", "instructions", "caution", "readings", "confirmation"),
    *("adults_only", "months", "states", "with_fish"),
)
RULE = "rule"


def changed_chores(op: Operation, old: ChoreTemplate, new: ChoreTemplate, existing: Following) -> TemplateChanged:
    """Let the open chores made from a template follow, or stay; tells which of them keep words of their own.

    A chore was edited by hand where it differs from what the template said before. It keeps that, and follows in
    the rest; one that is named follows in all. What is settled stays, and so does a chore that is settled for good.
    """
    chores = _open_chores(op, old.key)
    if not _same(old, new) or existing.also:
        _check_decided(old, chores, existing)
    following = [one for one in chores if existing.follow or one.id in existing.also]
    kept = {one.id: _follow(op, one, old, new, whole=one.id in existing.also) for one in following}
    left = tuple(LeftChore(one.id, one.title, _where(one), kept[one.id]) for one in following if kept[one.id])
    return TemplateChanged(new.key, new.version, new.title, len(following) - len(left), left)


def _same(old: ChoreTemplate, new: ChoreTemplate) -> bool:
    """Whether both give the same chore."""
    return replace(new, version=old.version, source=old.source, standing=old.standing) == old


def _open_chores(op: Operation, key: str) -> list[Chore]:
    ids = [row["id"] for row in op.reader.rows("SELECT id FROM chore WHERE template_key = :key", key=key)]
    over = {plan.chore_id for plan in chore_facts.plans(op.reader, ids) if plan.over}
    return [one for one in chore_facts.with_ids(op.reader, ids) if one.id not in over]


def _check_decided(template: ChoreTemplate, chores: Sequence[Chore], existing: Following) -> None:
    strangers = set(existing.also) - {one.id for one in chores}
    if strangers:
        raise Refused(f"Not changed: chore {min(strangers)} is no open chore made from {template.title}.")
    if chores and existing.follow is None and not existing.also:
        raise Refused(
            f"Not changed: say what becomes of {_counted(len(chores))} made from {template.title}: follow or leave."
        )


def _counted(number: int) -> str:
    return "the chore that was" if number == 1 else f"the {number} chores that were"


def _where(chore: Chore) -> str:
    return chore.bed or chore.unit or "all"


def _follow(op: Operation, chore: Chore, old: ChoreTemplate, new: ChoreTemplate, *, whole: bool) -> tuple[str, ...]:
    """Write what the chore takes over; gives back the fields that it keeps as they were edited by hand."""
    row = op.get(ChoreRow, chore.id)
    before, after = (_texts(one, row) for one in (old, new))
    changed = [name for name in TEXTS if whole or before[name] != after[name]]
    kept = [name for name in changed if not whole and getattr(row, name) != before[name]]
    values = {name: after[name] for name in changed if name not in kept}
    if whole or old.rule != new.rule:
        rule = _rule(row, old, new, whole=whole)
        values |= rule or {}
        kept += [] if rule else [RULE]
    version = {} if kept else {"template_version": new.version}
    if any(getattr(row, name) != value for name, value in {**values, **version}.items()):
        op.change(row, **values, **version)
    return tuple(kept)


def _texts(template: ChoreTemplate, row: ChoreRow) -> dict[str, Any]:
    made = made_from(template, Place(row.unit_id, row.bed_id), row.start_day)
    return {name: getattr(made, name) for name in TEXTS}


def _rule(row: ChoreRow, old: ChoreTemplate, new: ChoreTemplate, *, whole: bool) -> dict[str, Any] | None:
    """The columns of the rule as the template has it now; None where the chore has a rule of its own.

    Work due once keeps the distance from its occasion: it moves by as many days as the template.
    """
    if old.words == new.words == ONCE == row.rule_kind:
        moved = row.start_day + timedelta(days=new.wait_days - old.wait_days)
        return rule_columns(ONCE, moved, literal=False, zone=None)
    if not whole and not _as_given(row, old):
        return None
    return rule_columns(new.words, row.start_day, literal=False, zone=None)


def _as_given(row: ChoreRow, template: ChoreTemplate) -> bool:
    """Whether the chore has the rule that the template gave it."""
    if template.words == ONCE:
        return row.rule_kind == ONCE
    return (row.rule_kind, row.rule_text) == rule_text(parse_words(template.words, row.start_day))
