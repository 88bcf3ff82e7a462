"""Hostile names in every file that leaves the farm: no formula, no script, no escape; for its owner alone."""

from __future__ import annotations

import csv
import io
import json
import os
from collections.abc import Callable, Iterator, Mapping
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import icalendar
import pytest
from openpyxl import load_workbook

from farmops.exchange.packages import export
from farmops.records.store import Store
from tests.cli.hand import Hand
from tests.cli.tree import Leaf, walk
from tests.farmhand import TODAY
from tests.faults.hostile_names import HOSTILE, MARKUP, hostile_farm, obeyed, swallowed
from tests.frozen import frozen
from tests.profiles import count

OWNER_ALONE = 0o077
NO_RECORDS = ("calc", "chores preview", "demo")
WRITING = [
    one
    for one in walk()
    if not one.name.startswith(NO_RECORDS) and any("--out" in given.opts for given in one.command.params)
]
ENDINGS = ("pdf", "csv", "json", "xlsx", "svg", "html", "ics", "txt")
EVERY = count(ci=4, full=1)
LONGEST_LINE = 75
"""Bytes of a line of a calendar file (RFC 5545, 3.1)."""


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture(autouse=True)
def _open_to_all() -> Iterator[None]:
    """A person whose files are everybody's unless a program says otherwise."""
    before = os.umask(0)
    yield
    os.umask(before)


@pytest.fixture(scope="module")
def place(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A farm of hostile names."""
    return hostile_farm(sqlite_template, tmp_path_factory.mktemp("hostile") / "farm.db", HOSTILE)


@pytest.fixture
def hand(place: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Hand:
    """A hand at a copy of it."""
    found = Hand(tmp_path / "farm.db", capsys)
    found.become(place)
    return found


class Tags(HTMLParser):
    """What a page holds: its tags, their attributes, its text."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the tag."""
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data: str) -> None:
        """Keep the text."""
        self.text += data


def page(content: bytes) -> None:
    """A page of the season: nothing that runs, the names as text."""
    text = content.decode()
    found = Tags(text)
    assert not found.tags & {"script", "iframe", "object", "embed", "link"}
    assert not [name for name in found.attributes if name.startswith("on")]
    assert MARKUP in found.text
    assert obeyed(text) == []
    assert swallowed(found.text) == []


def drawing(content: bytes) -> None:
    """A chart."""
    assert obeyed(content.decode()) == []
    tags = {one.tag.rpartition("}")[2] for one in ElementTree.fromstring(content).iter()}  # noqa: S314 - made by us a moment ago
    assert "script" not in tags


def rows_of_text(content: bytes) -> None:
    """A table in which no cell is a formula or obeyed."""
    text = content.decode("utf-8-sig")
    assert obeyed(text, harmless="\r\n") == []
    for row in csv.reader(io.StringIO(text, newline="")):
        assert [cell for cell in row if is_formula(cell)] == []


def is_formula(cell: str) -> bool:
    """Whether a spreadsheet would reckon what it is to show."""
    try:
        float(cell)
    except ValueError:
        return cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    return False


def workbook(content: bytes) -> None:
    """Cells of text and numbers."""
    for sheet in load_workbook(io.BytesIO(content)):
        for one in (cell for row in sheet.iter_rows() for cell in row):
            assert one.data_type != "f"
            assert not isinstance(one.value, str) or (not is_formula(one.value) and obeyed(one.value) == [])


def calendar(content: bytes) -> None:
    """To-dos with their lines folded."""
    assert all(len(line) <= LONGEST_LINE for line in content.split(b"\r\n"))
    assert obeyed(content.decode(), harmless="\r\n") == []
    found = icalendar.Calendar.from_ical(content)
    assert any(MARKUP in str(one["SUMMARY"]) for one in found.walk("VTODO"))


def printed(content: bytes) -> None:
    """Pages to print."""
    assert content.startswith(b"%PDF")


def data(content: bytes) -> None:
    """JSON."""
    json.loads(content)


def text(content: bytes) -> None:
    """Plain text."""
    assert obeyed(content.decode()) == []
    assert swallowed(content.decode()) == []


CHECKS: Mapping[str, Callable[[bytes], None]] = {
    "pdf": printed,
    "csv": rows_of_text,
    "json": data,
    "xlsx": workbook,
    "svg": drawing,
    "html": page,
    "ics": calendar,
    "txt": text,
}
LOOKS = ((b"%PDF", "pdf"), (b"BEGIN:VCALENDAR", "ics"), (b"<!doctype html", "html"), (b"<!DOCTYPE html", "html"))


def kind_of(content: bytes, ending: str) -> str:
    """What a file is; some commands write one kind only, whatever its name."""
    return next((kind for start, kind in LOOKS if content.startswith(start)), ending)


FITTING = {"code": "WREN", "unit": "WREN", "number": "1", "bed": "WREN-N", "lot": "PERCH-24"}


@pytest.mark.parametrize(("at", "leaf"), list(enumerate(WRITING)), ids=[one.name for one in WRITING])
def test_what_a_command_writes_is_only_text(hand: Hand, tmp_path: Path, at: int, leaf: Leaf) -> None:
    needed = {one.name for one in leaf.command.params if one.required}
    given = {name: word for name, word in FITTING.items() if name in needed}
    wrote: list[str] = []
    for ending in ("csv", *ENDINGS[at % EVERY :: EVERY]):
        out = tmp_path / f"{len(wrote)}-{ending}.{ending}"
        plain = ["--text"] if ending == "txt" and any("--text" in one.opts for one in leaf.command.params) else []
        said = hand.types(*leaf.path, *leaf.with_words({**given, **_out(leaf, out)}), *plain)
        assert "has a fault" not in said.err, f"{leaf.name} {ending}: {said.err}"
        if out.exists():
            wrote.append(ending)
            assert out.stat().st_mode & OWNER_ALONE == 0
            CHECKS[kind_of(out.read_bytes(), ending)](out.read_bytes())
        else:
            assert said.code in (1, 2, 4), f"{leaf.name} {ending}: {said}"
    assert wrote or hand.types(*leaf.path, *leaf.with_words(given)).code, f"{leaf.name} answers, and wrote nothing"


def _out(leaf: Leaf, out: Path) -> dict[str, str]:
    name = next(one.name for one in leaf.command.params if "--out" in one.opts)
    return {name or "": str(out)}


@pytest.mark.parametrize("ending", ["", ".xlsx"])
def test_the_whole_farm_goes_out_without_formulas_for_its_owner_alone(place: Path, tmp_path: Path, ending: str) -> None:
    store = Store(str(place))
    out = tmp_path / f"out{ending}"
    export(store, str(out))
    written = [out, *out.rglob("*")] if out.is_dir() else [out]
    assert {one.stat().st_mode & OWNER_ALONE for one in written} == {0}
    for one in out.glob("*.csv"):
        with one.open(newline="", encoding="utf-8") as file:
            assert [cell for row in csv.reader(file) for cell in row if is_formula(cell)] == []
    if out.is_file():  # it comes in again as it was
        assert "f" not in {one.data_type for sheet in load_workbook(out) for row in sheet.iter_rows() for one in row}
    store.close()
