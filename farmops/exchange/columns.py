"""The columns of a file: found by their heads in any order and letter case, or by what the grower says a head means."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from functools import cached_property
from pathlib import Path

from farmops.exchange.sheets import Line, Sheet, read_sheet
from farmops.exchange.stored_cells import unguarded
from farmops.exchange.tables_beside import Gathered, gathered, joined
from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.text import plain

BRACKETED = re.compile(r"(?P<name>.+?) *(?:\((?P<round>.+)\)|\[(?P<square>.+)\])")
BARE_UNIT = re.compile(r"[a-z ]+[23]?")
TYPED = " typed"
MOST_NAMED = 30
LONGEST_HEAD = 200
"""Signs of a head that may name a unit; to look for brackets in a longer one takes too long."""
BY_NUMBER = "by number"
"""What stands for the unit of a column whose cells name records by their numbers on this farm."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a kind of file and the other heads people write for it.

    `unit_of` gives the unit that a head may name beside it, `weight (lb)`; it raises NotUnderstood for no such unit.
    `numbered` are heads below which records stand by their numbers on this farm, as an export writes them.
    """

    name: str
    needed: bool = False
    also: tuple[str, ...] = ()
    unit_of: Callable[[str], str] | None = None
    numbered: tuple[str, ...] = ()

    @property
    def heads(self) -> tuple[str, ...]:
        """Every head that means it, in small letters."""
        return (self.name.lower(), *self.also, *self.numbered)


@dataclass(frozen=True, slots=True)
class Head:
    """What a head means: a column, and the unit in which its cells are written where they name none."""

    column: Column
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the file: the line it begins on, its cells by column, and whether it has more cells than heads.

    `head` is the one it stands under where a line of the file makes several rows.
    """

    line: int
    cells: Mapping[str, str]
    overfull: bool = False
    head: str | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """A file by its columns; `ignored` heads mean nothing here, `units` are those that heads name, by column.

    `told` says how it was read where it could be read otherwise, `point` that its numbers have a decimal point.
    """

    name: str
    rows: tuple[Row, ...]
    ignored: tuple[str, ...] = ()
    units: Mapping[str, str] = field(default_factory=dict)
    told: tuple[str, ...] = ()
    point: bool = False


def read_table(
    path: str | Path,
    columns: Sequence[Column],
    meant: Mapping[str, str] | None = None,
    wide: Callable[[Sequence[str]], Sequence[Column]] = lambda heads: (),
    beside: Sequence[tuple[str, str]] = (),
    parts: Gathered | None = None,
    wanted: str | None = None,
) -> Table:
    """The rows of a file by its columns. `meant` says of heads of the file what they mean: `{"kilos": "weight (kg)"}`.
    `wide` gives other columns for a sheet with such heads, in small letters, where it is made otherwise. `beside` names
    tables of an export that go on with a row, by the head of their number; `parts` one whose rows make a column. Of a
    workbook the `wanted` sheet is read, else the one whose heads fit best.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no such file, lacks a column, has one twice, or a head names no unit or is not there.
    """
    reading = _Heads(columns, meant or {})
    sheet = read_sheet(Path(path), lambda head: reading.column(head) is not None or bool(wide([folded(head)])), wanted)
    sheet = gathered(Path(path), joined(Path(path), sheet, beside), parts)
    others = wide([reading.meant.get(folded(head), folded(head)) for head in sheet.heads])
    reading = _Heads(others or columns, meant or {}, sheet.heads)
    reading.check(sheet)
    heads = [reading.head(text) for text in sheet.heads]
    ignored = tuple(plain(text) for text, head in zip(sheet.heads, heads, strict=True) if not head and text)
    units = {head.column.name: head.unit for head in heads if head and head.unit}
    names = [head.column.name if head else None for head in heads]
    return Table(sheet.name, tuple(_row(line, names) for line in sheet.lines), ignored, units, sheet.told, sheet.point)


def folded(head: str) -> str:
    """A head in small letters, blanks for underscores."""
    return " ".join(head.replace("_", " ").split()).lower()


class _Heads:
    """The columns of a kind, looked up by head; `there` are all heads of the sheet."""

    def __init__(self, columns: Sequence[Column], meant: Mapping[str, str], there: Sequence[str] = ()) -> None:
        self.columns = columns
        self.by_head = {head: column for column in columns for head in column.heads}
        self.meant = {folded(head): folded(text) for head, text in meant.items()}
        self.there = {folded(head) for head in there}

    def head(self, text: str) -> Head | None:
        """What a head means; None for one that means nothing here."""
        found = self._meaning(text)
        if found is None:
            return None
        column, unit = found
        if unit == BY_NUMBER:
            return Head(column, unit)
        return Head(column, column.unit_of(unit) if unit and column.unit_of else None)

    def column(self, text: str) -> Column | None:
        """The column a head means, whatever unit it names."""
        found = self._meaning(text)
        return found[0] if found else None

    def _meaning(self, text: str) -> tuple[Column, str | None] | None:
        """What a head is said to mean goes before what another one means by itself; and what was typed, in an export,
        before the exact number beside it.
        """
        said = self.meant.get(folded(text))
        if said is not None:
            return self._split(said)
        found = self._split(folded(text))
        if found is None or found[0].name in self._taken:
            return None
        return None if folded(text) not in self._typed and found[0].name in self._typed.values() else found

    @cached_property
    def _taken(self) -> set[str]:
        return {found[0].name for said in self.meant.values() if (found := self._split(said))}

    @cached_property
    def _typed(self) -> dict[str, str]:
        """The heads of what was typed, such as `amount_typed`, and their columns."""
        heads = [head for head in self.there if head.endswith(TYPED)]
        return {head: found[0].name for head in heads if (found := self._split(head))}

    def _split(self, text: str) -> tuple[Column, str | None] | None:
        if text in self.by_head:
            column = self.by_head[text]
            return column, BY_NUMBER if text in column.numbered else None
        match = BRACKETED.fullmatch(text) if len(text) <= LONGEST_HEAD else None
        named = self.by_head.get(match["name"]) if match else None
        if match and named and named.unit_of:
            return named, match["round"] or match["square"]
        for head, other in self.by_head.items():
            rest = text.removeprefix(f"{head} ")
            if rest != text and BARE_UNIT.fullmatch(rest) and _is_unit(other, rest):
                return other, rest
        return None

    def check(self, sheet: Sheet) -> None:
        """Raise NotUnderstood where a column is lacking or there twice, or a head that was named is not there."""
        self._check_meant(sheet)
        counted = Counter(column.name for head in sheet.heads if (column := self.column(head)))
        absent = [column.name for column in self.columns if column.needed and column.name not in counted]
        if absent:
            raise NotUnderstood(
                f"{sheet.name} has no column {' and no column '.join(absent)}. Found: {_found(sheet)}. "
                f"{self._known()} Say what a head means: --column 'picked=weight'."
            )
        twice = [name for name, times in counted.items() if times > 1]
        if twice:
            raise NotUnderstood(f"{sheet.name} has more than one column {' and '.join(twice)}. Keep one of each.")

    def _check_meant(self, sheet: Sheet) -> None:
        there = {folded(head) for head in sheet.heads}
        for head, text in self.meant.items():
            if head not in there:
                raise NotUnderstood(f"{sheet.name} has no head {plain(head)}. Found: {_found(sheet)}.")
            if self._split(text) is None:
                raise NotUnderstood(f"{plain(text)} is no column here. {self._known()}")

    def _known(self) -> str:
        needed = ", ".join(column.name for column in self.columns if column.needed)
        others = ", ".join(column.name for column in self.columns if not column.needed)
        return f"Needed: {needed}; {others} if you like."


def _is_unit(column: Column, text: str) -> bool:
    if column.unit_of is None:
        return False
    try:
        return bool(column.unit_of(text))
    except NotUnderstood:
        return False


def _found(sheet: Sheet) -> str:
    heads = [plain(head) for head in sheet.heads if head.strip()]
    more = f" and {len(heads) - MOST_NAMED} more" if len(heads) > MOST_NAMED else ""
    return ", ".join(heads[:MOST_NAMED]) + more


def _row(line: Line, columns: Sequence[str | None]) -> Row:
    cells = {column: unguarded(cell) for column, cell in zip(columns, line.cells, strict=False) if column}
    return Row(line.number, cells, overfull=len(line.cells) > len(columns))


def with_unit(text: str, unit: str | None) -> str:
    """An amount, of several parts perhaps, with a unit where a part names none."""
    if unit is None:
        return text
    parts = [part.strip() for part in text.split("+")]
    return " + ".join(f"{part} {unit}" if part and not any(map(str.isalpha, part)) else part for part in parts)
