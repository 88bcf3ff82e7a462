"""Taking in a file of one kind of rows: read, rehearsed row by row, and booked in one operation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

from farmops.exchange.cells import Cells, RefusedRow, RowRefusedError
from farmops.exchange.columns import BY_NUMBER, Table, read_table
from farmops.exchange.customs import Decimals, Order, customs_of
from farmops.exchange.file_goods import FileGoods
from farmops.exchange.file_kinds import KINDS, Kind, Take
from farmops.exchange.file_names import FileNames
from farmops.exchange.harvest_rows import OVERFULL
from farmops.exchange.import_questions import QuestionedRow
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.farm.file_rows import Aside, FileRow, FileRows, RowsBooked, book_rows
from farmops.farm.progress import Watch, watched
from farmops.model.errors import CheckFailed, Refused
from farmops.model.frozen import dataclass
from farmops.model.journal import Through
from farmops.model.lines import Stretch
from farmops.model.readings import Form


@dataclass(frozen=True, slots=True)
class Said:
    """What the grower says of a whole file: what heads mean, which number of a day is first, how decimals are
    written, what kits report, which sheet of a workbook it is.

    Unlikely rows are booked when `sure`; `whole` books nothing where one row cannot be.
    """

    meant: Mapping[str, str] | None = None
    order: Order | None = None
    decimals: Decimals | None = None
    form: Form | None = None
    sure: bool = False
    whole: bool = False
    sheet: str | None = None


@dataclass(frozen=True, slots=True)
class RowsRead:
    """A file as it is understood: what its rows book, those that say nothing clear, and heads left aside.

    `told` says how the file was read where it could be read otherwise.
    """

    kind: str
    rows: tuple[FileRow, ...]
    refused: tuple[RefusedRow, ...]
    ignored: tuple[str, ...]
    told: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of a file, by the lines of its rows; those `asked` about are not booked until the grower is sure."""

    booked: int
    already: int
    refused: tuple[RefusedRow, ...]
    asked: tuple[QuestionedRow, ...]
    whole: bool = False
    booked_lines: tuple[Stretch, ...] = ()
    already_lines: tuple[Stretch, ...] = ()

    @property
    def exit_code(self) -> int:
        """1 when rows that cannot be booked kept everything out, 4 when they stand beside rows the farm holds."""
        if not self.refused and not self.asked:
            return 0
        held_any = (self.booked or self.already) and not self.whole
        return CheckFailed.exit_code if held_any else Refused.exit_code


def read_rows(
    store: Store, kind: str, file: str | Path, said: Said, *, today: date, watch: Watch | None = None
) -> RowsRead:
    """A file of `readings`, `costs`, ... row by row; nothing is changed. `watch` is told how far it has come.

    Raises:
        NoFarm: the store holds no farm.
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no such file, lacks a column, has one twice, or a head names no unit or is not there.
    """
    wanted = KINDS[kind]
    rows: list[FileRow] = []
    refused: list[RefusedRow] = []
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        beside, parts = wanted.beside, wanted.gathered
        table = read_table(file, wanted.columns, said.meant, beside=beside, parts=parts, wanted=said.sheet)
        customs, told = customs_of(table, farm.measures, today, said.order, said.decimals)
        customs = replace(customs, zone=farm.time_zone)
        told = (*told, *_told_of_numbers(table))
        take = Take(FileNames(reader), FileGoods(reader), said.form, said.sure)
        for row in watched(table.rows, watch):
            try:
                rows += _read(wanted, Cells(row, customs), take)
            except RowRefusedError as error:
                refused.append(RefusedRow(row.line, error.column, error.reason))
    return RowsRead(kind, tuple(rows), tuple(refused), table.ignored, told)


def _told_of_numbers(table: Table) -> Iterator[str]:
    numbered = [column for column, unit in table.units.items() if unit == BY_NUMBER and column != "time"]
    if numbered:
        yield f"Numbers stand for records of this farm, as it numbers them: {', '.join(numbered)}."


def _read(kind: Kind, cells: Cells, take: Take) -> list[FileRow]:
    if cells.row.overfull:
        raise RowRefusedError(None, OVERFULL)
    return list(kind.read(cells, take))


def foresee(store: Store, read: RowsRead, said: Said, *, by: str, watch: Watch | None = None) -> Taken:
    """What taking the file in would bring now; nothing of it is kept."""
    found = book_rows.rehearse(store, FileRows(read.kind, read.rows, watch=watch), by=by, through=Through.FILE)
    taken = _taken(found, read, said)
    return replace(taken, booked=0, booked_lines=()) if _kept_out(taken) else taken


def carry_out(
    store: Store,
    read: RowsRead,
    said: Said,
    *,
    by: str,
    operation: str | None = None,
    watch: Watch | None = None,
) -> Taken:
    """Book the rows of a file in one operation, or none of them where it is to be whole and one cannot be booked.

    Raises:
        Refused, NotFound: what rows belong to was changed since the file was read; nothing is booked.
    """
    if said.whole:
        expected = foresee(store, read, said, by=by)
        if _kept_out(expected):
            return expected
    entry = FileRows(read.kind, read.rows, said.whole, watch)
    return _taken(book_rows(store, entry, by=by, operation=operation, through=Through.FILE), read, said)


def _kept_out(taken: Taken) -> bool:
    return taken.whole and bool(taken.refused or taken.asked)


def _taken(found: RowsBooked, read: RowsRead, said: Said) -> Taken:
    refused = sorted((*read.refused, *map(_refused, found.refused)), key=lambda one: one.line)
    asked = tuple(QuestionedRow(one.line, one.reason) for one in found.asked)
    lines = found.booked_lines, found.already_lines
    return Taken(found.booked, found.already, tuple(refused), asked, said.whole, *lines)


def _refused(one: Aside) -> RefusedRow:
    return RefusedRow(one.line, one.column, one.reason)
