"""Figures as trees: in lines for reading, in JSON's words, and beside the numbers of any answer with `--why`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

import click

from farmops.figures import Figure, Made
from farmops.model.errors import NotUnderstood
from farmops.quantities import Measures
from farmops.reports.shown import shown, shown_value

F = TypeVar("F", bound=Callable[..., Any])
EVERY = "every"
MOST_RECORDS = 12
why_option = click.option("--why", "with_why", is_flag=True, help="With --json: each number with how it came about.")


def why_one_option(names: Sequence[str]) -> Callable[[F], F]:
    """`--why NAME` opens one number; `--why` alone, with --json, puts every tree beside its number."""
    words = "Open one of the numbers; without a name and with --json, each with how it came about."
    return click.option(
        "--why", "name", metavar="NAME", is_flag=False, flag_value=EVERY, type=click.Choice([*names, EVERY]), help=words
    )


def whys(asked: bool, figures: Mapping[str, Figure]) -> dict[str, object]:
    """`"why"`: the tree of each number by the number's key; nothing where it was not asked for."""
    return {"why": {key: plain_figure(one) for key, one in figures.items()}} if asked else {}


def only_in_json(asked: bool, as_json: bool) -> None:
    """Raises NotUnderstood where all trees are asked for and nothing is there to hold them."""
    if asked and not as_json:
        raise NotUnderstood("--why puts its trees into --json. To read one number: farmops why, then its name.")


def tree(found: Figure, measures: Measures, most: int = MOST_RECORDS, indent: str = "") -> Iterator[str]:
    """A figure as lines: its value, how it was made, its parts below it, at most so many records of each kind."""
    yield f"{indent}{found.name}: {shown(found, measures)}"
    deeper = indent + "  "
    if found.value is not None and found.made is not Made.GIVEN:
        yield f"{deeper}= {found.formula}"
    elif found.value is not None and found.formula:
        yield f"{deeper}({found.formula})"
    if found.note:
        yield f"{deeper}{found.note}"
    if found.source:
        yield f"{deeper}Source: {found.source}"
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
