"""The form for a template: what its chores are like from now on, and whether those that are open follow."""

from __future__ import annotations

import re
from typing import Any

from farmops.model.chores import ChoreClass, PartOfDay
from farmops.model.errors import NotUnderstood
from farmops.model.templates import Following, TemplateChange, TemplateChanged, TemplateDropping, TemplateRestoring
from farmops.model.text import LONGEST_NOTE, plain
from farmops.model.units import UnitKind
from farmops.model.values import KEEP
from farmops.reports.store import Store
from farmops.reports.templates import FIELD_WORDS, TemplateLine
from farmops.tui.forms import making
from farmops.tui.forms.chores import MONTH_NAMES, read_list, read_months, read_states
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

AS_BELOW, AS_PACKAGED, NO_CHORE = "as below", "as packaged", "no chore"
STAY, FOLLOW = "stay", "follow"
NAMED = 3
"""How many chores that were edited by hand a preview names."""


def edit(record: TemplateLine, context: Context) -> FormSpec:
    """Change a template, drop it, or restore the packaged one."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        function, entry = _asked(record, values)
        return told(function(store, entry, **making.hand_of(hand, operation)))

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        function, entry = _asked(record, values)
        changed = function.rehearse(store, entry, by=hand.by)
        stay = record.open_chores and not changed.followed and not changed.left
        return f"{told(changed)}{' Open chores stay as they are.' if stay else ''}"

    return FormSpec(
        f"Template {record.template.key}: {record.template.title}",
        (*_deciding(record), *_fields(record)),
        save,
        context.setting,
        edits=True,
        about=_about(record),
        verb="Change",
        start="minutes",
        preview=preview,
    )


def _about(record: TemplateLine) -> str:
    changed = f" Yours: {record.changed_words}." if record.own else ""
    open_chores = {0: "No open chore is", 1: "1 open chore is"}.get(
        record.open_chores, f"{record.open_chores} open chores are"
    )
    return f"For a {record.template.applies_to}; given by: {record.given_by}. {open_chores} made from it.{changed}"


def _deciding(record: TemplateLine) -> tuple[Field, ...]:
    """What it is to give, and what becomes of the chores there are."""
    kept = (NO_CHORE,) if record.dropped else (AS_BELOW,)
    packaged = (AS_PACKAGED,) if record.own and record.packaged is not None else ()
    options = tuple(dict.fromkeys((*kept, *packaged, *(() if record.dropped else (NO_CHORE,)))))
    found = [Field("gives", "It gives", Kind.CHOICE, kept[0], options, blamed=("is dropped",))]
    if record.open_chores:
        found.append(Field("existing", "Open chores", Kind.CHOICE, STAY, (STAY, FOLLOW)))
        hint = "numbers of chores edited by hand that follow, too"
        found.append(Field("also", "Also", Kind.TEXT, hint=hint, read=_numbers, blamed=("no open chore",)))
    return tuple(found)


def _numbers(text: str, setting: Setting) -> tuple[int, ...]:
    parts = re.split(r"[\s,]+", text.strip())
    if not all(part.isascii() and part.isdigit() and len(part) < 19 for part in parts):
        raise NotUnderstood(f"{plain(text)!r} are no numbers of chores. Understood: 12, 15.")
    return tuple(int(part) for part in parts)


def _fields(record: TemplateLine) -> tuple[Field, ...]:
    one = record.template
    months = " ".join(MONTH_NAMES[month - 1] for month in one.months)
    return (
        Field("title", "Chore", Kind.TEXT, one.title, required=True, blamed=("title",)),
        Field("rule", "Due", Kind.TEXT, one.rule, required=True, hint=RULES, blamed=RULE_WORDS),
        Field("minutes", "Minutes", Kind.COUNT, str(one.minutes), required=True, zero_ok=True, blamed=("minutes is",)),
        Field("part", "Part of day", Kind.CHOICE, one.part.value, making.words_of(PartOfDay)),
        Field("grade", "Class", Kind.CHOICE, one.grade.value, making.words_of(ChoreClass)),
        making.note(one.instructions, name="instructions", label="How"),
        making.note(one.caution, name="caution", label="Caution"),
        Field("readings", "Read", Kind.TEXT, ", ".join(one.readings), longest=LONGEST_NOTE, read=read_list),
        making.note(one.confirmation, name="confirmation", label="Confirm", hint="such as flow seen"),
        Field("adults_only", "Adults only", Kind.YES, _yes(one.adults_only)),
        Field("months", "Months", Kind.TEXT, months, hint="apr-sep; empty: all the year", read=read_months),
        Field("kinds", "Kinds", Kind.TEXT, ", ".join(one.kinds), longest=LONGEST_NOTE, read=read_kinds),
        Field("states", "In states", Kind.TEXT, ", ".join(one.states), longest=LONGEST_NOTE, read=read_states),
        Field("with_fish", "Only with fish", Kind.YES, _yes(one.with_fish)),
    )


RULES = "14 days after; day 5 times; once +3 is 3 days later"
RULE_WORDS = ("not understood", "days to wait", "so long after", "how many times", "no day", "condition")


def read_kinds(text: str, setting: Setting) -> tuple[UnitKind, ...]:
    """Kinds of units, or how their names begin, parted by commas. Raises NotUnderstood."""
    return tuple(dict.fromkeys(_kind(" ".join(part.lower().split())) for part in text.split(",") if part.strip()))


def _kind(text: str) -> UnitKind:
    found = [kind for kind in UnitKind if kind.value.startswith(text)]
    if len(found) != 1:
        raise NotUnderstood(f"{plain(text)!r} is no kind of unit. Understood: {', '.join(making.words_of(UnitKind))}.")
    return found[0]


def _yes(value: bool) -> str:
    return "yes" if value else "no"


def _asked(record: TemplateLine, values: dict[str, Any]) -> tuple[Any, Any]:
    """The change that the fields ask for, and its entry."""
    from farmops.farm.own_templates import change_template, drop_template, restore_template

    given = dict(values)
    gives, existing = given.pop("gives"), _existing(given)
    if gives == NO_CHORE:
        return drop_template, TemplateDropping(record.template.key)
    if gives == AS_PACKAGED:
        return restore_template, TemplateRestoring(record.template.key, existing)
    lists = {name: () for name in ("readings", "months", "kinds", "states") if given[name] is None}
    fields = making.mapped({**given, **lists}, part=PartOfDay, grade=ChoreClass)
    return change_template, TemplateChange(record.template.key, **fields, existing=existing)


def _existing(given: dict[str, Any]) -> Following:
    also = given.pop("also", None)
    return Following(given.pop("existing", STAY) == FOLLOW, () if also is KEEP or also is None else also)


def told(changed: TemplateChanged) -> str:
    """What a template is now, how many chores follow, which keep what was edited by hand."""
    follow = {0: "", 1: " 1 chore follows."}.get(changed.followed, f" {changed.followed} chores follow.")
    kept = [
        f"{one.chore_id} {one.where} ({', '.join(FIELD_WORDS.get(field, field) for field in one.fields)})"
        for one in changed.left[:NAMED]
    ]
    others = f" and {len(changed.left) - NAMED} others" if len(changed.left) > NAMED else ""
    left = f" Kept as edited by hand: {', '.join(kept)}{others}." if kept else ""
    return f"{changed.title}: version {changed.version}.{follow}{left}"
