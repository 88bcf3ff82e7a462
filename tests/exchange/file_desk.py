"""A desk at which files are taken into one farm, as tests of every kind of rows need it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from farmops.exchange.file_imports import RowsRead, Said, Taken, carry_out, foresee, read_rows
from farmops.facts import readings as reading_facts
from farmops.model.readings import Reading
from farmops.records.store import Store
from tests.farmhand import ADA, TODAY, counted, everything_stored, take_back


class Desk:
    """Takes files into one farm."""

    def __init__(self, store: Store, folder: Path) -> None:
        self.store = store
        self.path = folder / "log.csv"

    def read(self, kind: str, text: str, said: Said) -> RowsRead:
        """A file as it is understood."""
        self.path.write_text(text, encoding="utf-8")
        return read_rows(self.store, kind, self.path, said, today=TODAY)

    def take(self, kind: str, text: str, said: Said | None = None) -> Taken:
        """A file taken in by Ada, as was foreseen."""
        said = said or Said()
        read = self.read(kind, text, said)
        before = everything_stored(self.store)
        expected = foresee(self.store, read, said, by=ADA)
        assert everything_stored(self.store) == before
        taken = carry_out(self.store, read, said, by=ADA)
        assert taken == expected
        return taken

    def book_once(self, kind: str, text: str, rows: int) -> None:
        """Take a file in whose rows are all booked, see that it adds nothing twice, and that one undo restores."""
        before = everything_stored(self.store)
        taken = self.take(kind, text)
        assert taken.booked == rows, [str(one) for one in (*taken.refused, *taken.asked)]
        counts = counted(self.store)
        again = self.take(kind, text)
        assert (again.booked, again.already) == (0, rows)
        assert counted(self.store) == counts
        take_back(self.store)
        assert everything_stored(self.store) == before
        self.take(kind, text)

    def refuses(self, kind: str, heads: str, *rows: tuple[str, str]) -> None:
        """Every row of a file is refused, each with words that begin as those beside it."""
        taken = self.take(kind, heads + "".join(f"{row}\n" for row, _ in rows))
        said = {one.line: f"{one.column}: {one.reason}" if one.column else one.reason for one in taken.refused}
        for line, (row, reason) in enumerate(rows, 2):
            assert said.get(line, "").startswith(reason), f"{row}: {said.get(line)}"
        assert (taken.booked, taken.already, taken.asked) == (0, 0, ())

    def reasons(self, kind: str, text: str) -> list[str]:
        """What is refused, as it is shown."""
        return [str(one) for one in self.take(kind, text).refused]

    @property
    def readings(self) -> list[Reading]:
        """All readings."""
        with self.store.reading() as reader:
            return reading_facts.readings(reader, date.min, date.max)
