"""`farmops why`: a number as a tree, down to the records behind it."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import span_options, word
from farmops.cli.output import emit, line
from farmops.cli.trees import plain_figure, tree
from farmops.model.costs import Basis
from farmops.reports.returns import Asked
from farmops.reports.why import NAMES, figure


@click.command()
@click.argument("name", metavar="FIGURE", type=click.Choice(list(NAMES)))
@click.option("--unit", metavar="CODE", help="Of one unit. [the whole farm]")
@span_options
@click.option("--basis", type=click.Choice([basis.value for basis in Basis]), default="full", show_default=True)
@click.option("--records", type=click.IntRange(0), default=12, show_default=True, help="At most so many of each kind.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout.")
@pass_desk
def why(
    desk: Desk,
    name: str,
    unit: str | None,
    first: str | None,
    last: str | None,
    basis: str,
    records: int,
    on: str | None,
    as_json: bool,
) -> None:
    """Open a number: how it was made, from what, down to weighings and receipts.

    \b
    Examples: farmops why cost-per-pound --unit WREN
              farmops why yield --unit WREN --from "1 mar" --records 50
    """
    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last), word(Basis, basis))
    found = figure(desk.store, name, asked, unit)
    if as_json:
        emit({"figure": name, "basis": basis, "unit": unit.upper() if unit else None, "why": plain_figure(found)})
        return
    for text in tree(found, desk.measures, records):
        line(text)
