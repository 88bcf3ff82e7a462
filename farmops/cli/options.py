"""Options that many commands share."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import Any, TypeVar

import click

F = TypeVar("F", bound=Callable[..., Any])
OUT, REPLACE = "farmops.out", "farmops.replace"
"""Where a command keeps which file its answer goes to, and whether that may be written over."""
json_option = click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout.")
on_option = click.option("--on", metavar="DAY", help="The day it happened; stands in for today. [today]")
from_option = click.option("--from", "first", metavar="DAY", help="First day. [the first record]")
to_option = click.option("--to", "last", metavar="DAY", help="Last day. [today]")
note_option = click.option("--note", metavar="TEXT", help="A note.")
sure_option = click.option("--sure", is_flag=True, help="Book an unlikely value all the same.")


def one_of(words: type[StrEnum]) -> click.Choice[str]:
    """A choice among an enum's words, typed with dashes for blanks."""
    return click.Choice([word.value.replace(" ", "-") for word in words], case_sensitive=False)


def word(kind: type[StrEnum], typed: str | None) -> Any:
    """The member of an enum that was chosen, or None."""
    return kind(typed.replace("-", " ")) if typed is not None else None


def span_options(command: F) -> F:
    """--from and --to."""
    return from_option(to_option(command))


def answer_options(command: F) -> F:
    """--json; and --out, which puts what --json prints into a file, with --replace."""
    return _answered(command, ".csv, .json or .xlsx", _take)


def chart_options(command: F) -> F:
    """The same for a command that has a curve: --out takes .svg, too."""
    return _answered(command, ".csv, .json, .xlsx; or .svg, the chart", _take_drawn)


def _answered(command: F, endings: str, take: Callable[[click.Context, click.Parameter, bool], bool]) -> F:
    file = click.option(
        "--out",
        metavar="FILE",
        is_eager=True,
        expose_value=False,
        callback=_keep(OUT),
        help=f"The same as a file: {endings}.",
    )
    replace = click.option(
        "--replace",
        is_flag=True,
        is_eager=True,
        expose_value=False,
        callback=_keep(REPLACE),
        help="Write over a file that is there.",
    )
    json = click.option("--json", "as_json", is_flag=True, callback=take, help="One JSON object on stdout.")
    return json(file(replace(command)))


def _keep(key: str) -> Callable[[click.Context, click.Parameter, Any], None]:
    def keep(ctx: click.Context, parameter: click.Parameter, value: Any) -> None:
        if value:
            ctx.meta[key] = value

    return keep


def _take(ctx: click.Context, parameter: click.Parameter, as_json: bool, *, drawn: bool = False) -> bool:
    """Whether the command makes its object, for stdout or for a file; what is wrong with the file is said first."""
    place = ctx.meta.get(OUT)
    if place is not None and not ctx.resilient_parsing:
        from farmops.exchange.answers import check

        check(place, replace=REPLACE in ctx.meta, drawn=drawn)
    return as_json or place is not None


def _take_drawn(ctx: click.Context, parameter: click.Parameter, as_json: bool) -> bool:
    return _take(ctx, parameter, as_json, drawn=True)
