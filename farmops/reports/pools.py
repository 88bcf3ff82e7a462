"""Pools of cost: what of one kind each unit bears by itself, and what is shared out by a driver."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from farmops.economics.allocation import allot
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.model.costs import Product
from farmops.model.frozen import dataclass

MONEY = "minor"


@dataclass(frozen=True, slots=True)
class Pool:
    """One kind of cost over the whole farm; `note` says what a reader should know of it."""

    own: tuple[tuple[int, Product, Figure], ...] = ()
    shared: tuple[tuple[int | None, Figure], ...] = ()
    note: str | None = None


def counted(entries: int) -> str:
    """How many entries a sum has, in words."""
    return "1 entry" if entries == 1 else f"{entries} entries"


def summed(
    name: str, kind: str, amount: int, entries: int, formula: str, fetch: Callable[[], Sequence[RecordLine]]
) -> Figure:
    """A sum of records that are fetched when somebody looks."""
    return of_records(name, amount, MONEY, f"{formula}, {counted(entries)}", Records(kind, entries, fetch))


def rounded(
    name: str,
    kind: str,
    exact: Sequence[tuple[int, str, Fraction]],
    formula: str,
    note: str | None = None,
    unit: str = MONEY,
) -> Figure:
    """A sum of exact amounts (record, words, amount), rounded once; the lines share what rounding does."""
    amount = round(sum((part for _, _, part in exact), Fraction(0)))
    parts = allot(amount, [part for _, _, part in exact]) if amount else [0] * len(exact)
    lines = [RecordLine(kind, id, words, part) for (id, words, _), part in zip(exact, parts, strict=True)]
    records = Records(kind, len(lines), lambda: lines)
    return of_records(name, amount, unit, f"{formula}, {counted(len(lines))}", records, note)
