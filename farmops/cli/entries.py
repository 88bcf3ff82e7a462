"""What many commands do with what was typed: numbers of records, counts, and `-` for nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Any, Protocol, TypeVar

import click

from farmops.model.errors import NotFound, Refused, Unlikely

NOTHING = "-"
LARGEST = 2**63 - 1


class WholeNumber(click.IntRange):
    """A whole number within limits, called so where something else was typed."""

    name = "whole number"

    def _describe_range(self) -> str:
        """The limits that mean something to a person; the largest number a store keeps is none of them."""
        return f"x>={self.min}" if self.max == LARGEST else super()._describe_range()


NUMBER = WholeNumber(1, LARGEST)


class Numbered(Protocol):
    """A record that a list shows by its number."""

    @property
    def id(self) -> int:
        """The number."""
        ...


N = TypeVar("N", bound=Numbered)


class CountOrNothing(click.ParamType[Any]):
    """A whole number of 1 or more, or `-` for none."""

    name = "number"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The number, or `-` as it stands."""
        return value if value == NOTHING else NUMBER.convert(value, param, ctx)


def emptied(given: dict[str, Any], *names: str) -> dict[str, Any]:
    """The changes, with None for those of the named fields that were typed as `-`."""
    return {name: None if name in names and value == NOTHING else value for name, value in given.items()}


@contextmanager
def asked() -> Iterator[None]:
    """Where something unlikely is asked about, say how to answer."""
    try:
        yield
    except Unlikely as error:
        raise Refused(f"{error} If it is, say so: --sure") from None


def numbered(found: Iterable[N], number: int, kind: str, see: str) -> N:
    """The record of that number. Raises NotFound, naming the command that lists them."""
    one = next((one for one in found if one.id == number), None)
    if one is None:
        raise NotFound(f"There is no {kind} {number}. See: {see}")
    return one
