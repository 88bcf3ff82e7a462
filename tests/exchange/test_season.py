"""A season report carries everything it shows, says what the figures say, and takes no text for markup."""

from __future__ import annotations

import base64
import re
import shutil
import sys
from collections.abc import Iterator
from datetime import date
from html.parser import HTMLParser
from pathlib import Path

import pytest

from farmops.exchange.season_page import page
from farmops.exchange.season_report import write_season
from farmops.farm.farm import change_farm, open_farm
from farmops.farm.plantings import add_crop
from farmops.model.costs import Basis
from farmops.model.errors import Refused
from farmops.model.farm import FarmChange, NewFarm
from farmops.model.plantings import NewCrop
from farmops.records.store import Store
from farmops.reports.returns import Asked
from farmops.reports.season import Season, season
from farmops.reports.shown import shown
from tests.farmhand import TODAY, US
from tests.frozen import frozen
from tests.land import Land, lay

HOSTILE = "<script>alert(1)</script> & [red]"


class Read(HTMLParser):
    """What a browser makes of a page: its tags with their attributes, its words by the tag they stand in."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[tuple[str, str]] = []
        self.inside: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in ("meta", "img"):
            self.inside.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.inside.pop() == tag

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.words.append((self.inside[-1], data))

    def of(self, tag: str) -> list[str]:
        return [words for inside, words in self.words if inside == tag]


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    """It is 14 October 2026 here."""
    with frozen(TODAY):
        yield


@pytest.fixture(scope="module")
def laid(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Land]:
    """The varied farm, only read here."""
    store = Store(str(shutil.copy(sqlite_template, tmp_path_factory.mktemp("season") / "farm.db")))
    yield lay(store)
    store.close()


def told(store: Store, basis: Basis = Basis.FULL) -> Season:
    return season(store, Asked(TODAY, date(2026, 3, 1), TODAY, basis))


def test_every_cell_of_the_units_is_its_figure(laid: Land) -> None:
    found = told(laid.store)
    cells, measures = Read(page(found)).of("td"), found.whole.settings.measures
    for line in found.lines():
        row = cells[cells.index(line.unit, cells.index(line.unit) + (line is not found.whole.farm)) :][:8]
        figures = (line.marketable, line.yield_per_area, line.cost_per_mass, line.fish, line.value, line.cost, line.net)
        assert row[1:] == ["-" if one.value is None else shown(one, measures) for one in figures]


def test_what_is_missing_is_said_with_its_units(laid: Land) -> None:
    found = told(laid.store)
    said = Read(page(found)).of("li")
    gaps = found.missing()
    assert gaps
    assert all(f"{', '.join(units)}: {reason}." in said for reason, units in gaps.items())
    assert all(any(note in one for one in said) for note in found.notes())


def test_nothing_is_fetched_from_elsewhere(laid: Land) -> None:
    text = page(told(laid.store))
    images = [attributes for tag, attributes in Read(text).tags if tag == "img"]
    assert len(images) == 5
    for one in images:
        kind, _, content = (one["src"] or "").partition(",")
        assert kind == "data:image/svg+xml;base64"
        drawing = base64.b64decode(content).decode("utf-8")
        assert "<svg" in drawing
        assert not re.findall(r'(?:href|src)="(?!#)[^"]+"', drawing)
        assert one["alt"]
    assert not {"script", "link", "iframe"} & {tag for tag, _ in Read(text).tags}
    assert "url(" not in text


def test_the_same_season_gives_the_same_bytes(laid: Land) -> None:
    assert page(told(laid.store)) == page(told(laid.store))


def test_names_are_never_markup(sqlite_store: Store) -> None:
    land = lay(sqlite_store)
    change_farm(land.store, FarmChange(name=HOSTILE), by="Ada")
    add_crop(land.store, NewCrop("<b>kale</b>"), by="Ada")
    read = Read(page(told(land.store)))
    assert read.of("h1") == [HOSTILE]
    assert not {"script", "b", "red"} & {tag for tag, _ in read.tags}


def test_an_empty_farm_and_each_basis_are_told(sqlite_store: Store, laid: Land) -> None:
    open_farm(sqlite_store, NewFarm("Bare Hill", US, "America/New_York"), by="Ada")
    empty = Read(page(season(sqlite_store, Asked(TODAY))))
    assert empty.of("h2")[0] == "The farm"
    for basis in Basis:
        assert f"2026-03-01 to {TODAY}, {basis} cost." in page(told(laid.store, basis))


def test_the_file_is_the_owners_alone_and_never_over_another(laid: Land, tmp_path: Path) -> None:
    place = tmp_path / "season.html"
    done = write_season(told(laid.store), str(place))
    assert done.file == place
    assert place.stat().st_mode & 0o777 == 0o600
    with pytest.raises(Refused, match="is there already"):
        write_season(told(laid.store), str(place))


def test_without_the_library_of_charts_it_has_their_numbers_in_words(
    laid: Land, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    alt = [attributes["alt"] for tag, attributes in Read(page(told(laid.store))).tags if tag == "img"]
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    done = write_season(told(laid.store), str(tmp_path / "season.html"))
    read = Read(done.file.read_text(encoding="utf-8"))
    assert [words for words in read.of("p") if words.removesuffix(".") in alt] == [f"{words}." for words in alt]
    assert not {"img", "figure"} & {tag for tag, _ in read.tags}
    assert not any("The line on a bar" in words for words in read.of("p"))
    assert "pip install 'farmops[report]'" in done.told
    assert not done.charts
