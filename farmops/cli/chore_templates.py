"""`farmops chores templates` and `farmops chores template show|edit|drop|restore`: what chores are given from."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.chore_edits import CLASS_HELP
from farmops.cli.desk import Desk, changes, cleared, pass_desk
from farmops.cli.options import answer_options, json_option, one_of, word
from farmops.cli.output import emit, line, say, table
from farmops.model.chores import ChoreClass, Occasion, PartOfDay
from farmops.model.templates import (
    Following,
    TemplateChange,
    TemplateChanged,
    TemplateDropping,
    TemplateRestoring,
)
from farmops.model.units import UnitKind, UnitState
from farmops.reports.templates import FIELD_WORDS, TemplateLine, template_line, template_lines

KEY_NAMES = {"grade": "class"}
NOTES = ("instructions", "caution", "confirmation")


@click.command()
@click.option("--occasion", type=one_of(Occasion), help="Only those that one occasion gives.")
@click.option("--changed", is_flag=True, help="Only those that differ from the packaged ones.")
@answer_options
@pass_desk
def templates(desk: Desk, occasion: str | None, changed: bool, as_json: bool) -> None:
    """What chores are given from: every template, what gives it, and what you changed.

    \b
    Examples: farmops chores templates
              farmops chores templates --occasion power-cut
              farmops chores templates --changed
    """
    wanted = word(Occasion, occasion)
    found = [one for one in template_lines(desk.store) if wanted in (None, one.template.occasion)]
    found = [one for one in found if one.own or not changed]
    if as_json:
        emit({"templates": [template_object(one) for one in found]})
    elif not found:
        say("No template differs from the packaged ones. Change one: farmops chores template edit feed --minutes 4")
    else:
        heads = ["template", "chore", "for", "given by", "rule", "min", "changed"]
        table(heads, [_row(one) for one in found], right=[5])


def _row(one: TemplateLine) -> list[str]:
    template = one.template
    cells = (template.applies_to, one.given_by, template.rule, str(template.minutes), one.changed_words)
    return [template.key, template.title, *cells]


def template_object(one: TemplateLine) -> dict[str, object]:
    """A template in JSON's words."""
    template = one.template
    return {
        "template": template.key,
        "version": template.version,
        "title": template.title,
        "for": template.applies_to,
        "occasion": template.occasion,
        "kinds": template.kinds,
        "states": template.states,
        "class": template.grade,
        "rule": template.rule,
        "part": template.part,
        "minutes": template.minutes,
        "instructions": template.instructions or None,
        "caution": template.caution,
        "readings": template.readings,
        "confirmation": template.confirmation,
        "adults_only": template.adults_only,
        "months": template.months,
        "with_fish": template.with_fish,
        "source": template.source,
        "standing": template.standing,
        "own": one.own,
        "dropped": one.dropped,
        "packaged": {KEY_NAMES.get(differs.field, differs.field): differs.packaged for differs in one.differences},
        "open_chores": one.open_chores,
    }


@click.group()
def template() -> None:
    """One template: show it, change it, drop it, restore the packaged one."""


@template.command("show")
@click.argument("key")
@answer_options
@pass_desk
def show_template(desk: Desk, key: str, as_json: bool) -> None:
    """One template with all its words, and what the packaged one says where yours differs.

    \b
    Example: farmops chores template show feed
    """
    one = template_line(desk.store, key)
    if as_json:
        emit(template_object(one))
        return
    template = one.template
    adults = ", adults only" if template.adults_only else ""
    line(f"{template.title}, {template.grade}, {template.minutes} min{adults}")
    line(f"{template.rule}; for a {template.applies_to}; given by: {one.given_by}")
    for words in (template.instructions, template.caution, _readings(one), _confirmation(one)):
        if words:
            line(words)
    line(f"Source: {template.source} ({template.standing})")
    if one.dropped:
        line(f"Dropped: it gives no chore. farmops chores template restore {template.key}")
    for differs in one.differences:
        line(f"Yours; packaged {FIELD_WORDS.get(differs.field, differs.field)}: {_said(differs.packaged)}")
    line(f"Open chores made from it: {one.open_chores}")


def _readings(one: TemplateLine) -> str:
    return f"Read: {', '.join(one.template.readings)}" if one.template.readings else ""


def _confirmation(one: TemplateLine) -> str:
    return f"Not done without: {one.template.confirmation}" if one.template.confirmation else ""


def _said(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(map(str, value)) or "none"
    return str(value) if value is not None else "none"


follow_option = click.option(
    "--follow/--leave", default=None, help="Whether the open chores made from it follow. Needed where there are any."
)
also_option = click.option(
    "--also", type=int, multiple=True, metavar="NUMBER", help="A chore edited by hand that follows all the same."
)


@template.command("edit")
@click.argument("key")
@click.option("--title", metavar="TEXT")
@click.option("--every", metavar="WORDS", help='When: "14 days after", "day 5 times", "once +3" (3 days after).')
@click.option("--class", "grade", type=one_of(ChoreClass), help=CLASS_HELP)
@click.option("--part", type=one_of(PartOfDay), help="Part of the day.")
@click.option("--minutes", type=click.IntRange(0, 1440))
@click.option("--instructions", metavar="TEXT", help="- clears it.")
@click.option("--caution", metavar="TEXT", help="- clears it.")
@click.option("--confirmation", metavar="TEXT", help="What must be confirmed; - clears it.")
@click.option("--reading", "readings", metavar="NAME", multiple=True, help="A reading it asks for; - for none.")
@click.option("--adults-only/--anybody", default=None)
@click.option("--month", "months", type=click.IntRange(1, 12), multiple=True, help="Only in this month; repeatable.")
@click.option("--kind", "kinds", type=one_of(UnitKind), multiple=True, help="For units of this kind; repeatable.")
@click.option("--in-state", "states", type=one_of(UnitState), multiple=True, help="In this state; repeatable.")
@click.option("--with-fish/--fish-or-not", default=None, help="Only where live fish are.")
@follow_option
@also_option
@json_option
@pass_desk
def edit_template(
    desk: Desk, /, key: str, follow: bool | None, also: tuple[int, ...], as_json: bool, **typed: Any
) -> None:
    """Change a template: what it gives from now on, and with --follow the open chores made from it.

    A chore that you edited by hand keeps what you edited, unless you name it with --also.

    \b
    Examples: farmops chores template edit feed --minutes 4 --follow
              farmops chores template edit filter-pad-change --every "10 days after" --leave
    """
    from farmops.farm.own_templates import change_template

    typed = {name: None if value == () else value for name, value in typed.items()}
    named_alone = also and all(value is None for value in typed.values())
    given = {} if named_alone else _given(changes(**typed))
    entry = TemplateChange(_key(desk, key), **given, existing=Following(follow, also))
    _told(change_template(desk.store, entry, **desk.hand), "changed", as_json)


def _given(typed: dict[str, Any]) -> dict[str, Any]:
    """What was typed, words as members of their enums, `-` as nothing."""
    found = dict(typed)
    if "every" in found:
        found["rule"] = found.pop("every")
    for name, kind in (("grade", ChoreClass), ("part", PartOfDay)):
        if name in found:
            found[name] = word(kind, found[name])
    for name, each in (("kinds", UnitKind), ("states", UnitState)):
        if name in found:
            found[name] = tuple(word(each, one) for one in found[name])
    for name in NOTES:
        if name in found:
            found[name] = cleared(found[name])
    if found.get("readings") == ("-",):
        found["readings"] = ()
    return found


def _key(desk: Desk, key: str) -> str:
    return template_line(desk.store, key).template.key


@template.command("drop")
@click.argument("key")
@json_option
@pass_desk
def drop(desk: Desk, key: str, as_json: bool) -> None:
    """A template gives no chore any more; chores made from it stay.

    \b
    Example: farmops chores template drop leaf-look
    """
    from farmops.farm.own_templates import drop_template

    entry = TemplateDropping(_key(desk, key))
    _told(drop_template(desk.store, entry, **desk.hand), "dropped: it gives no chore any more", as_json)


@template.command("restore")
@click.argument("key")
@follow_option
@also_option
@json_option
@pass_desk
def restore(desk: Desk, key: str, follow: bool | None, also: tuple[int, ...], as_json: bool) -> None:
    """A template is the packaged one again.

    \b
    Example: farmops chores template restore feed --follow
    """
    from farmops.farm.own_templates import restore_template

    entry = TemplateRestoring(_key(desk, key), Following(follow, also))
    _told(restore_template(desk.store, entry, **desk.hand), "restored: it is the packaged one", as_json)


def _told(changed: TemplateChanged, done: str, as_json: bool) -> None:
    if as_json:
        emit(
            {
                "template": changed.key,
                "version": changed.version,
                "title": changed.title,
                "followed": changed.followed,
                "left": [
                    {"id": one.chore_id, "title": one.title, "where": one.where, "fields": one.fields}
                    for one in changed.left
                ],
            }
        )
        return
    follow = {0: "", 1: " 1 chore follows."}.get(changed.followed, f" {changed.followed} chores follow.")
    say(f"{changed.title} {done}.{follow}")
    for one in changed.left:
        fields = ", ".join(FIELD_WORDS.get(field, field) for field in one.fields)
        say(f"Kept as you edited it, {fields}: {one.title} ({one.where}). --also {one.chore_id} changes that, too.")
