"""`farmops report`: a season as one file for readers outside the farm."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import span_options, word
from farmops.cli.output import emit, say
from farmops.model.costs import Basis
from farmops.reports.returns import Asked
from farmops.reports.season import season


@click.command()
@span_options
@click.option(
    "--basis",
    type=click.Choice([basis.value for basis in Basis]),
    default="full",
    show_default=True,
    help="Which costs are counted.",
)
@click.option("--out", "file", metavar="FILE", required=True, help="The file to write, such as season.html.")
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout.")
@pass_desk
def report(
    desk: Desk,
    first: str | None,
    last: str | None,
    basis: str,
    file: str,
    replace: bool,
    on: str | None,
    as_json: bool,
) -> None:
    """Write a season report: one HTML file for a partner, a bank or a market board.

    What the farm is, tables, charts, how it is counted and how complete the records are. It carries all it shows,
    opens in any browser and prints.

    \b
    Its charts need matplotlib, without which it has their numbers: pip install 'farmops[report]'
    Example: farmops report --from "1 mar" --out season.html
    """
    from farmops.exchange.season_report import write_season

    asked = Asked(desk.day(on), desk.day_or_none(first), desk.day_or_none(last), word(Basis, basis))
    done = write_season(season(desk.store, asked), file, replace=replace)
    if as_json:
        whole = done.season.whole
        told = {"from": whole.span.first, "to": whole.span.last, "basis": whole.basis}
        emit({"file": str(done.file), **told, "charts": done.charts})
    else:
        say(done.told)
