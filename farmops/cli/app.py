"""The command `farmops`: its groups, each loaded only when it is called."""

from __future__ import annotations

import getpass
from typing import Any

import click

from farmops import __version__
from farmops.cli.desk import Desk
from farmops.cli.lazy import LazyGroup
from farmops.model.errors import FarmopsError

COMMANDS = {
    "chores": ("farmops.cli.chores:chores", "The round: what is due, in walking order; settle and describe chores."),
    "harvest": ("farmops.cli.harvests:harvest", "Weigh a harvest."),
    "harvests": ("farmops.cli.harvests:harvests", "List and correct weighings."),
    "picks": ("farmops.cli.orders:picks", "The pick list of a day: what is ordered, what is ready, and where."),
    "forecast": ("farmops.cli.forecasts:forecast", "The weather to come: frost and heat call for chores."),
    "incident": ("farmops.cli.incidents:incident", "A power cut: minutes left, what first, all running again."),
    "farm": ("farmops.cli.farm:farm", "Open a farm, show or change its settings."),
    "units": ("farmops.cli.units:units", "The row of units and the states they are in."),
    "beds": ("farmops.cli.beds:beds", "Beds and their sizes."),
    "crops": ("farmops.cli.plantings:crops", "What the farm grows."),
    "plantings": ("farmops.cli.plantings:plantings", "Crops in beds, from sowing or transplanting to clearing."),
    "people": ("farmops.cli.people:people", "Who works here, and whom to call."),
    "notes": ("farmops.cli.notes:notes", "Notes and photos, and what was changed on units."),
    "away": ("farmops.cli.away:away", "Who is away, who stands in, and the care sheet for them."),
    "usage": ("farmops.cli.usage:usage", "How much pumps, feed and siphons worked."),
    "fish": ("farmops.cli.fish:fish", "Fish lots."),
    "water": ("farmops.cli.water:water", "Readings of the water, judged for those who live in it."),
    "instruments": ("farmops.cli.instruments:instruments", "Kits and meters: their dates and checks."),
    "doses": ("farmops.cli.doses:doses", "What was added to the water, and how much to add."),
    "treatments": ("farmops.cli.treatments:treatments", "What was done against pests, and the holds that follow."),
    "costs": ("farmops.cli.costs:costs", "Money paid, for a unit or shared."),
    "sales": ("farmops.cli.sales:sales", "What was sold to whom, line by line, and what came back."),
    "orders": ("farmops.cli.orders:orders", "What buyers take again and again."),
    "prices": ("farmops.cli.costs:prices", "What produce and fish are worth, from a day on."),
    "supplies": ("farmops.cli.supplies:supplies", "What is bought, held and used up; what to reorder."),
    "power": ("farmops.cli.power:power", "What runs, what meters show, what power costs."),
    "sharing": ("farmops.cli.sharing:sharing", "What shared costs go by, how produce and fish split them, labour."),
    "papers": ("farmops.cli.papers:papers", "Permits, insurance, seals: papers that run out."),
    "returns": ("farmops.cli.returns:returns", "Yield, cost per weight, value and net of each unit."),
    "compare": ("farmops.cli.compare:compare", "Which of two units, beds or crops is better, and is it sure."),
    "rank": ("farmops.cli.rank:rank", "The order of the units, and what it hangs on."),
    "payback": ("farmops.cli.rank:payback", "Whether a unit earns back what it took to build."),
    "why": ("farmops.cli.why:why", "Open a number down to the records behind it."),
    "report": ("farmops.cli.report:report", "Write a season as one file, for a partner, a bank or a market board."),
    "trace": ("farmops.cli.trace:trace", "Follow a lot from seed or fingerling to the buyer."),
    "import": ("farmops.cli.imports:import_group", "Take in a file."),
    "export": ("farmops.cli.exports:export", "The whole farm as CSV files with their description, or as a workbook."),
    "backup": ("farmops.cli.backups:backup", "Copy the farm, now; list the copies there are."),
    "restore": ("farmops.cli.backups:restore", "Put a backup in the place of what is there, which is kept."),
    "check": ("farmops.cli.checks:check", "Look through the whole farm: is everything there, and what was booked?"),
    "keeping": ("farmops.cli.keeping:keeping", "Until when records are kept, and by whose rule."),
    "undo": ("farmops.cli.journal:undo", "Take back the last thing you booked, or any operation."),
    "redo": ("farmops.cli.journal:redo", "Do again what was undone."),
    "journal": ("farmops.cli.journal:journal", "Who did what, when."),
    "calc": ("farmops.cli.calc:calc", "Sums of water, fish, crops and flow; needs no farm."),
    "demo": ("farmops.cli.demo:demo", "Look around on an invented farm."),
}
"""Each command: where it lives, and what it does in a line."""

SECTIONS = {
    "chores": "Every day",
    "farm": "The farm and its row",
    "fish": "Fish and water",
    "costs": "Money",
    "returns": "Answers",
    "import": "Files and safety",
    "undo": "Taking back",
    "calc": "Without a farm",
}
"""The headings in the help, by the command that each begins with."""


class Root(LazyGroup):
    """All commands; what one fails by on a damaged store is told as that."""

    def invoke(self, ctx: click.Context) -> Any:
        """Carry out the command. Raises StoreUnavailable in place of a fault that comes from damage."""
        try:
            return super().invoke(ctx)
        except click.NoSuchOption as error:
            raise (below_zero(error) if error.option_name[1:2].isdigit() else error) from None
        except (FarmopsError, click.ClickException, click.Abort, click.exceptions.Exit, OSError):
            raise
        except Exception as error:
            damaged = ctx.obj.damage() if isinstance(ctx.obj, Desk) else None
            if damaged is None:
                raise
            raise damaged from error


def below_zero(error: click.NoSuchOption) -> click.UsageError:
    """What is to be said of a number that its minus sign made an option of."""
    path = error.ctx.command_path if error.ctx else ""
    if " costs " in path:
        words = "A cost is not below zero. Money that came back makes the cost it was for smaller: farmops costs edit"
    else:
        words = "A number after a minus sign reads as an option. If it is meant to be below zero, put -- before it."
    return click.UsageError(words, error.ctx)


@click.group(
    cls=Root,
    table=COMMANDS,
    begin=SECTIONS,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, prog_name="farmops")
@click.option("--farm", "place", metavar="PLACE", help="The farm's store: a file, or a PostgreSQL URL. [FARMOPS_FARM]")
@click.option("--by", metavar="NAME", envvar="FARMOPS_BY", help="Who does it. [FARMOPS_BY, else the login name]")
@click.option("--operation", metavar="UUID", help="Id of this change: sent twice, it is carried out once.")
@click.pass_context
def cli(ctx: click.Context, place: str | None, by: str | None, operation: str | None) -> Desk | None:
    """Chores, weighings, costs and returns for a row of coupled fish-and-vegetable units.

    Without a command it opens the interface.

    \b
    Begin:    farmops farm open "Hill Farm" --weights lb-oz --currency USD --zone America/New_York
              farmops units add WREN --state running --tank "250 gal"
              farmops beds add WREN N "24 sq ft"
    Every day: farmops chores
              farmops harvest WREN-N CHARD "1 6"
    Exit codes: 0 done, 1 refused, 2 usage, 3 store busy or unreachable, 4 a check found problems.
    """
    ctx.obj = desk = Desk(place, by or login_name(), operation)
    ctx.call_on_close(desk.leave)
    return ctx.obj if ctx.invoked_subcommand is None else None


def login_name() -> str:
    """The name of whoever is logged in."""
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "somebody"
