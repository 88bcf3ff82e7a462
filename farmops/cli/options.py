"""Options that many commands share."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import Any, TypeVar

import click

F = TypeVar("F", bound=Callable[..., Any])
json_option = click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout.")
on_option = click.option("--on", metavar="DAY", help="The day it happened; stands in for today. [today]")
from_option = click.option("--from", "first", metavar="DAY", help="First day. [the first record]")
to_option = click.option("--to", "last", metavar="DAY", help="Last day. [today]")
note_option = click.option("--note", metavar="TEXT", help="A note.")


def one_of(words: type[StrEnum]) -> click.Choice[str]:
    """A choice among an enum's words, typed with dashes for blanks."""
    return click.Choice([word.value.replace(" ", "-") for word in words], case_sensitive=False)


def word(kind: type[StrEnum], typed: str | None) -> Any:
    """The member of an enum that was chosen, or None."""
    return kind(typed.replace("-", " ")) if typed is not None else None


def span_options(command: F) -> F:
    """--from and --to."""
    return from_option(to_option(command))
