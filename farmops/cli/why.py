"""`farmops why`: a number as a tree, down to the records behind it."""

from __future__ import annotations

import click
from click.shell_completion import CompletionItem

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, span_options, word
from farmops.cli.output import emit, line
from farmops.cli.trees import plain_figure, tree
from farmops.model.costs import Basis
from farmops.model.errors import NotUnderstood
from farmops.reports.returns import Asked
from farmops.reports.why import Of, Thing, figure, known_of

OPTIONS = {"unit": Of.UNIT, "bed": Of.BED, "crop": Of.CROP, "lot": Of.LOT, "supply": Of.SUPPLY}
"""The options that name what a number is of."""


def _names(context: click.Context, parameter: click.Parameter, begun: str) -> list[CompletionItem]:
    """The figures of what was named so far; of everything where nothing was."""
    chosen = [of for option, of in OPTIONS.items() if context.params.get(option)]
    return [CompletionItem(name) for name in known_of(chosen or Of) if name.startswith(begun)]


@click.command()
@click.argument("name", metavar="FIGURE", shell_complete=_names)
@click.option("--unit", metavar="CODE", help="Of one unit. [the whole farm]")
@click.option("--bed", metavar="CODE", help="Of one bed, such as WREN-N.")
@click.option("--crop", metavar="NAME", help="Of one crop.")
@click.option("--lot", metavar="CODE", help="Of one fish lot.")
@click.option("--supply", metavar="NAME", help="Of one supply.")
@span_options
@click.option("--basis", type=click.Choice([basis.value for basis in Basis]), default="full", show_default=True)
@click.option("--records", type=click.IntRange(0), default=12, show_default=True, help="At most so many of each kind.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@answer_options
@pass_desk
def why(
    desk: Desk,
    /,
    name: str,
    first: str | None,
    last: str | None,
    basis: str,
    records: int,
    on: str | None,
    as_json: bool,
    **named: str | None,
) -> None:
    """Open a number: how it was made, from what, down to weighings and receipts.

    \b
    Of a unit also its balance, power and payback; of a fish lot its number, weight and growth; of a supply its worth.
    Examples: farmops why cost-per-pound --unit WREN
              farmops why yield --bed WREN-N --from "1 mar" --records 50
              farmops why mean-weight --lot PERCH-24
    """
    thing = _thing(named)
    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last), word(Basis, basis))
    found = figure(desk.store, name.strip().lower(), asked, thing)
    if as_json:
        told = {option: _plain(thing) if thing.of is of else None for option, of in OPTIONS.items()}
        emit({"figure": name, "basis": basis, **told, "why": plain_figure(found)})
        return
    for text in tree(found, desk.measures, records):
        line(text)


def _plain(thing: Thing) -> str:
    """Codes and crops as the farm writes them; a supply as it was typed."""
    return thing.name if thing.of is Of.SUPPLY else thing.name.strip().upper()


def _thing(named: dict[str, str | None]) -> Thing:
    """What the number is of. Raises NotUnderstood for more than one thing."""
    given = {option: value for option, value in named.items() if value is not None}
    if len(given) > 1:
        raise NotUnderstood(f"A number is of one thing: name only one of {', '.join(f'--{one}' for one in given)}.")
    return next((Thing(OPTIONS[option], value) for option, value in given.items()), Thing())
