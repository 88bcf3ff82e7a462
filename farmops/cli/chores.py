"""`farmops chores`: the round; what is done with chores is loaded when it is called."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk
from farmops.cli.lazy import LazyGroup
from farmops.cli.options import answer_options

SETTLING, EDITS = "farmops.cli.chore_settling", "farmops.cli.chore_edits"
TEMPLATES = "farmops.cli.chore_templates"
PAPERS, HISTORY = "farmops.cli.chore_papers", "farmops.cli.chore_history"
COMMANDS = {
    "done": (f"{SETTLING}:done", "Settle chores as done."),
    "book": ("farmops.cli.chore_book:book", "Book a sheet back: many chores with minutes and readings."),
    "skip": (f"{SETTLING}:skip", "Leave chores out this time, and say why."),
    "defer": (f"{SETTLING}:defer", "Put chores off until a day."),
    "pause": (f"{SETTLING}:pause", "Let a chore rest."),
    "resume": (f"{SETTLING}:resume", "Let a paused chore go on."),
    "history": (f"{HISTORY}:history", "How chores went: done, left out, late, missed, minutes, by whom."),
    "load": (f"{HISTORY}:load", "Minutes a day ahead."),
    "month": (f"{HISTORY}:month", "A month at a glance."),
    "print": (f"{PAPERS}:print_sheet", "The round as a sheet to carry along: PDF or plain text."),
    "calendar": (f"{PAPERS}:write_calendar", "The chores as to-dos in an iCalendar file, for a phone."),
    "list": (f"{EDITS}:list_chores", "Every chore, due or not."),
    "show": (f"{EDITS}:show", "One chore with its instructions and caution."),
    "add": (f"{EDITS}:add", "Add a chore of your own."),
    "edit": (f"{EDITS}:edit", "Change a chore."),
    "remove": (f"{EDITS}:remove", "Remove a chore that was never settled."),
    "conditions": ("farmops.cli.conditions:conditions", "What chores can wait for, and what holds now."),
    "set": ("farmops.cli.chore_sets:give", "Give the chores of an occasion: dosing, treatment, a power cut."),
    "templates": (f"{TEMPLATES}:templates", "What chores are given from, and what you changed of it."),
    "template": (f"{TEMPLATES}:template", "One template: show, edit, drop, restore it."),
    "preview": (f"{EDITS}:preview", "The next days of a rule; needs no farm."),
}


@click.group(cls=LazyGroup, table=COMMANDS, invoke_without_command=True)
@click.option("--on", metavar="DAY", help="The day of the round; stands in for today. [today]")
@click.option("--days", type=click.IntRange(1, 366), default=1, show_default=True, help="Look so many days ahead.")
@click.option("--unit", metavar="CODE", help="Only one unit.")
@click.option("--for", "person", metavar="NAME", help="Only what falls to one person who is here.")
@click.option("--check", is_flag=True, help="Only life support that is overdue; exit code 4 where some is.")
@answer_options
@click.option("--plain", "as_plain", is_flag=True, help="One line a chore, fields parted by tabs.")
@click.pass_context
def chores(ctx: click.Context, /, **asked: Any) -> None:
    """The round: one look at every unit, then what is due in walking order, late and grave first.

    The same work in three units or more stands on one line, with the number of each.

    \b
    Examples: farmops chores
              farmops chores --on tomorrow --unit WREN
              farmops chores --for Ada
              farmops chores --check
              farmops chores done 12 13 --confirm
              farmops chores skip 14 --why "no fish this week"
    """
    if ctx.invoked_subcommand is None:
        from farmops.cli.chore_round import tell

        tell(ctx.ensure_object(Desk), **asked)
