"""`farmops costs`: money paid; what is done with it is loaded when it is called. `farmops prices` stands beside it."""

from __future__ import annotations

import click

from farmops.cli.lazy import LazyGroup
from farmops.cli.prices import prices

__all__ = ["costs", "prices"]

LISTS, EDITS = "farmops.cli.cost_lists", "farmops.cli.cost_edits"
COMMANDS = {
    "list": (f"{LISTS}:list_costs", "What was paid, oldest first."),
    "find": (f"{LISTS}:find_costs", "Find costs by words, payee, amount and days."),
    "show": (f"{LISTS}:show_cost", "One cost by its number."),
    "add": (f"{EDITS}:add_cost", "Book money paid."),
    "edit": (f"{EDITS}:edit_cost", "Correct a cost."),
    "receipt": (f"{EDITS}:receipt", "Keep the receipt of a cost, or say where it is kept."),
    "recurring": ("farmops.cli.recurring:recurring", "Costs that come again by a rule."),
    "labels": ("farmops.cli.cost_labels:labels", "Labels such as the lines of a tax form; a year by label."),
    "remove": (f"{EDITS}:remove_cost", "Remove a cost."),
}


@click.group(cls=LazyGroup, table=COMMANDS)
def costs() -> None:
    """Money paid, for a unit, a bed or fish, or shared by all; in JSON, cents are the smallest coin of the currency."""
