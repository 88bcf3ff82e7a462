"""The forms that write files: what is offered, what is written, what is refused at its field, and nothing cut."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from farmops.exchange.tables import Table
from farmops.farm.farm import add_person
from farmops.model.costs import Basis
from farmops.model.farm import NewPerson
from farmops.records.store import Store
from farmops.reports import lists, names
from farmops.reports.returns import Asked
from farmops.tui.forms import FILES, file_form, load_context
from farmops.tui.widgets.listing_tables import GoesOut
from tests.exchange.calendars import todos
from tests.exchange.printed import size_of, text_read
from tests.farmhand import TODAY
from tests.tui.stage import NARROW, WIDE, Stage, book, fill, laid_copy, last_entry, lay, screen_text, settle_down, shown


@pytest.fixture(scope="session")
def laid_for_papers(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The laid farm that tests copy."""
    folder = tmp_path_factory.mktemp("papers")
    with laid_copy(sqlite_template, folder) as store:
        lay(store)
    return folder / "stage.db"


@pytest.fixture
def store(laid_for_papers: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """A copy of the laid farm, in a folder where the files go."""
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: tmp_path)
    monkeypatch.chdir(tmp_path)
    with laid_copy(laid_for_papers, tmp_path) as found:
        yield found


def form(store: Store, kind: str, unit: str | None = None) -> Stage:
    abouts = {"card": names.unit(store, unit or "WREN"), "season": Asked(TODAY, date(2026, 3, 1), None, Basis.CASH)}
    about = GoesOut("Costs", lambda: [Table("rows", ("day",), [[TODAY]])]) if kind == "list" else abouts.get(kind)
    return Stage(store, file_form(kind, about, load_context(store, unit)))


async def test_enter_prints_the_round_to_the_place_that_is_offered(store: Store, tmp_path: Path) -> None:
    before, stage = last_entry(store).seq, form(store, "round")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        assert stage.here.field.name == "file"
        await pilot.press("enter")
        await settle_down(pilot)
    content = (tmp_path / "round-2026-10-14.pdf").read_bytes()
    assert size_of(content) == (612.0, 792.0)
    assert "Quillet Bank Wednesday 14 October 2026" in text_read(content)
    assert stage.said[0] is not None
    assert stage.said[0].endswith(f"(letter) in {tmp_path / 'round-2026-10-14.pdf'}.")
    assert last_entry(store).seq == before


async def test_paper_day_and_place_are_ones_own(store: Store, tmp_path: Path) -> None:
    stage = form(store, "round", "WREN")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        assert "Print the round of WREN" in "\n".join(screen_text(stage))
        await fill(pilot, on="tomorrow", paper="a4", file=str(tmp_path / "mine  own.pdf"))
        await book(pilot)
    content = (tmp_path / "mine  own.pdf").read_bytes()
    assert size_of(content) == (595.3, 841.9)
    assert "Quillet Bank, WREN Thursday 15 October 2026" in text_read(content)


async def test_plain_text_has_its_own_name(store: Store, tmp_path: Path) -> None:
    stage = form(store, "round", "WREN")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, paper="plain text")
        assert stage.form.box("file").text == str(tmp_path / "round-2026-10-14-wren.txt")
        await book(pilot)
    text = (tmp_path / "round-2026-10-14-wren.txt").read_text(encoding="utf-8")
    assert text.startswith("Quillet Bank, WREN\nWednesday 14 October 2026\n")


async def test_the_round_of_one_person(store: Store, tmp_path: Path) -> None:
    person = add_person(store, NewPerson("Cy"), by="Ada")
    stage = Stage(store, file_form("round", person, load_context(store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        assert "Print the round for Cy" in "\n".join(screen_text(stage))
        await book(pilot)
    assert "Quillet Bank, for Cy" in text_read((tmp_path / "round-2026-10-14.pdf").read_bytes())


async def test_the_chores_go_into_a_calendar(store: Store, tmp_path: Path) -> None:
    stage = form(store, "calendar", "WREN")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, days="7")
        await book(pilot)
    count = len(todos((tmp_path / "chores.ics").read_bytes()))
    assert stage.said == [f"{count} chores to come and 0 settled in {tmp_path / 'chores.ics'}."]


async def test_a_wall_card_and_a_care_sheet_go_to_the_places_that_are_offered(store: Store, tmp_path: Path) -> None:
    before = last_entry(store).seq
    absence = lists.absences(store)[0]
    for spec, name, words in (
        (form(store, "card", "WREN").specs[0], "wall-card-wren.pdf", "WREN"),
        (file_form("care", absence, load_context(store)), f"care-{absence.from_day}.pdf", "Quillet Bank"),
    ):
        stage = Stage(store, spec)
        async with stage.run_test(size=WIDE) as pilot:
            await pilot.pause()
            await pilot.press("enter")
            await settle_down(pilot)
        assert words in text_read((tmp_path / name).read_bytes())
        assert stage.said[0] is not None
        assert str(tmp_path / name) in stage.said[0]
    assert "Missing on it: " in stage.said[0]
    assert last_entry(store).seq == before


async def test_plain_text_changes_the_place_that_is_offered(store: Store, tmp_path: Path) -> None:
    stage = form(store, "card", "WREN")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, paper="plain text")
        await book(pilot)
    assert "WREN" in (tmp_path / "wall-card-wren.txt").read_text(encoding="utf-8")


async def test_a_season_report_begins_with_what_is_on_screen(store: Store, tmp_path: Path) -> None:
    stage = form(store, "season")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, basis="full")
        await book(pilot)
    told = f"Season report of 2026-03-01 to {TODAY} in {tmp_path / 'season.html'}. It opens in any browser, and prints."
    assert stage.said == [told]
    assert "full cost" in (tmp_path / "season.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", FILES)
async def test_a_file_that_is_there_is_told_at_its_field_and_replaced_on_demand(
    store: Store, tmp_path: Path, kind: str
) -> None:
    place = tmp_path / ("there.csv" if kind == "list" else "there")
    place.write_text("mine", encoding="utf-8")
    stage = form(store, kind)
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, file=str(place))
        await book(pilot)
        assert "is there already" in shown(stage.form.box("file"))
        assert place.read_text(encoding="utf-8") == "mine"
        await fill(pilot, replace="yes")
        await book(pilot)
    assert place.read_bytes()[:5] in (b"%PDF-", b"BEGIN", b"<!doc", b"day\r\n")


@pytest.mark.parametrize(
    ("kind", "name", "typed", "words"),
    [
        ("round", "file", "/no/such/folder/round.pdf", "There is no folder /no/such/folder"),
        ("round", "font", "/etc/hostname", "is no font that can be printed"),
        ("round", "on", "someday", "is no day"),
        ("calendar", "days", "0", "Understood: 1 to 366"),
        ("calendar", "days", "many", "Understood: 1 to 366"),
        ("calendar", "file", "", "This is needed"),
        ("card", "file", "/no/such/folder/card.pdf", "There is no folder /no/such/folder"),
        ("care", "until_day", "someday", "is no day"),
        ("care", "until_day", "13 oct 2026", "before it begins"),
    ],
)
async def test_what_cannot_be_is_told_at_its_field(store: Store, kind: str, name: str, typed: str, words: str) -> None:
    stage = form(store, kind)
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, **{name: typed})
        await book(pilot)
        assert words in shown(stage.form.box(name))
        assert stage.here.field.name == name


@pytest.mark.parametrize("size", [WIDE, NARROW])
@pytest.mark.parametrize("kind", FILES)
async def test_nothing_is_cut(store: Store, kind: str, size: tuple[int, int]) -> None:
    stage = form(store, kind)
    async with stage.run_test(size=size) as pilot:
        await pilot.pause()
        for box in stage.form.boxes:
            box.focus_input()
            await pilot.pause()
            await pilot.pause()
            text = "\n".join(screen_text(stage))
            assert "…" not in text
            for words in (box.field.label, *box.field.words):
                assert words in text
