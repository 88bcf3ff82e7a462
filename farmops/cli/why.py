"""`farmops why`: a number as a tree, down to the records behind it."""

from __future__ import annotations

from collections.abc import Iterator

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import span_options, word
from farmops.cli.output import emit, line
from farmops.figures import Figure, Made
from farmops.model.costs import Basis
from farmops.quantities import Measures
from farmops.reports.returns import Asked
from farmops.reports.shown import shown, shown_value
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


def tree(found: Figure, measures: Measures, most: int, indent: str = "") -> Iterator[str]:
    """A figure as lines: its value, how it was made, its parts below it, at most so many records of each kind."""
    yield f"{indent}{found.name}: {shown(found, measures)}"
    deeper = indent + "  "
    if found.value is not None and found.made is not Made.GIVEN:
        yield f"{deeper}= {found.formula}"
    elif found.value is not None and found.formula:
        yield f"{deeper}({found.formula})"
    if found.note:
        yield f"{deeper}{found.note}"
    for part in found.parts:
        yield from tree(part, measures, most, deeper)
    yield from _records(found, measures, most, deeper)


def _records(found: Figure, measures: Measures, most: int, indent: str) -> Iterator[str]:
    if found.records is None or not found.records.count:
        return
    lines = found.records.lines()
    for one in lines[:most]:
        yield f"{indent}{one.kind} {one.id}: {one.words}  {shown_value(one.amount, found.unit, measures)}"
    if len(lines) > most:
        rest = sum(one.amount for one in lines[most:])
        yield f"{indent}and {len(lines) - most} more  {shown_value(rest, found.unit, measures)}"


def plain_figure(found: Figure) -> dict[str, object]:
    """A figure and all below it in JSON's words; values in the unit of storage named beside them."""
    return {
        "name": found.name,
        "value": None if found.value is None else _plain_number(found.value),
        "unit": found.unit,
        "made": found.made,
        "formula": found.formula,
        "reason": found.reason,
        "note": found.note,
        "source": found.source,
        "parts": [plain_figure(part) for part in found.parts],
        "records": [
            {"kind": one.kind, "id": one.id, "words": one.words, "amount": _plain_number(one.amount)}
            for one in (found.records.lines() if found.records else ())
        ],
    }


def _plain_number(value: object) -> int | float:
    return value if isinstance(value, int) else float(value)  # type: ignore[arg-type]
