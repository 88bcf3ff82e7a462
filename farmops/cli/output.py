"""What commands print: data on stdout, words on stderr, untrusted text made harmless."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any

import click

from farmops.cli.options import OUT, REPLACE
from farmops.model.codec import to_plain
from farmops.model.errors import Refused
from farmops.model.text import plain, plain_json, width

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

SCHEMA = 1
GAP = "  "


def say(words: str) -> None:
    """Words for a person, on stderr."""
    click.echo(plain_lines(words), err=True)


def emit(value: dict[str, Any], chart: Callable[[], Chart] | None = None) -> None:
    """One JSON object on stdout, with the number of its schema; in a file, or as its chart, where --out names one."""
    kept = click.get_current_context().meta
    if OUT in kept:
        _write(kept[OUT], {"schema": SCHEMA, **value}, chart, replace=REPLACE in kept)
        return
    import json

    click.echo(plain_json(json.dumps({"schema": SCHEMA, **to_plain(value)}, ensure_ascii=False)))


def _write(place: str, value: dict[str, Any], chart: Callable[[], Chart] | None, *, replace: bool) -> None:
    from farmops.exchange.tables import SVG

    if not place.lower().endswith(SVG):
        from farmops.exchange.answers import write_answer

        say(write_answer(place, value, replace=replace).told)
    elif chart is None:
        raise Refused("There is no chart of this. Let the file end in .csv, .json or .xlsx.")
    else:
        from farmops.exchange.charts import write_chart

        say(f"Written: {write_chart(place, chart(), replace=replace)}, a chart.")


def line(words: str = "") -> None:
    """A line of data on stdout."""
    click.echo(plain_lines(words))


def plain_lines(words: str) -> str:
    """Text whose control signs are made visible, line ends kept."""
    return "\n".join(plain(part) for part in words.split("\n"))


def tabbed(rows: Iterable[Sequence[str]]) -> None:
    """Rows for other programs: one a line, fields parted by tabs."""
    for row in rows:
        click.echo("\t".join(plain(cell) for cell in row))


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], *, right: Sequence[int] = ()) -> None:
    """Rows under heads, aligned by what a terminal shows; `right` names columns of numbers."""
    cells = [[plain(cell) for cell in row] for row in (heads, *rows)]
    widths = [max(width(row[at]) for row in cells) for at in range(len(heads))]
    for row in cells:
        padded = (_pad(cell, widths[at], right=at in right) for at, cell in enumerate(row))
        click.echo(GAP.join(padded).rstrip())


def table_width(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> int:
    """How many columns of a terminal the table takes."""
    widest = [max(width(plain(row[at])) for row in (heads, *rows)) for at in range(len(heads))]
    return sum(widest) + len(GAP) * (len(heads) - 1)


def terminal_width() -> int:
    """Columns of the terminal, or those named in COLUMNS; 80 where there is none."""
    return shutil.get_terminal_size((80, 24)).columns


def _pad(cell: str, size: int, *, right: bool) -> str:
    blanks = " " * (size - width(cell))
    return blanks + cell if right else cell + blanks
