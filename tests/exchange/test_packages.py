"""The whole farm goes out as CSV files and comes in again row by row, journal included; what was altered does not."""

from __future__ import annotations

import csv
import io
import json
import shutil
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from farmops.exchange import kept_files, workbooks
from farmops.exchange.packages import DESCRIPTOR, export, take_in
from farmops.exchange.stored_cells import BITES, cell, value_of
from farmops.exchange.workbooks import in_cell, of_cell
from farmops.facts.soundness import damage
from farmops.farm.farm import add_person, open_farm
from farmops.farm.notes import add_note
from farmops.farm.plantings import add_crop
from farmops.farm.removal import remove_record
from farmops.model.errors import NoFarm, NotFound, Refused
from farmops.model.farm import NewFarm, NewPerson
from farmops.model.journal import Removal
from farmops.model.notes import NewNote
from farmops.model.plantings import NewCrop
from farmops.quantities import US
from farmops.records.store import Store
from farmops.records.whole import TABLES, rows
from tests.land import Land, laid, land

__all__ = ["laid", "land"]

DAY = date(2026, 10, 14)
FORMULA = "=HYPERLINK(1)"
Harm = Callable[[Path], object]


def everything(store: Store) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table, the journal among them."""
    with store.reading() as reader:
        return {name: list(rows(reader, table)) for name, table in TABLES.items()}


@given(st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text())
def test_a_value_comes_back_from_its_cell_and_no_text_in_it_is_a_formula(value: Any) -> None:
    text = cell(value)
    assert value_of(type(value), text) == value if value is not None else text == ""
    if isinstance(value, str):
        assert not text.startswith(BITES[:-1])


@given(st.dates() | st.datetimes(timezones=st.just(UTC)))
def test_days_and_instants_come_back(value: date | datetime) -> None:
    assert value_of(type(value), cell(value)) == value


@pytest.fixture(params=["a file", "a server"])
def fresh(request: pytest.FixtureRequest, tmp_path: Path) -> Store:
    """A place where nothing is, and a database that holds no farm."""
    return elsewhere(tmp_path) if request.param == "a file" else request.getfixturevalue("postgres_store")


def test_a_farm_comes_in_as_it_went_out_on_each_database(land: Land, fresh: Store, tmp_path: Path) -> None:
    found = export(land.store, str(tmp_path / "out"))
    assert (found.tables, found.rows) == (len(TABLES), sum(map(len, everything(land.store).values())))
    assert take_in(fresh, str(tmp_path / "out")) == found.rows
    assert everything(fresh) == everything(land.store)
    with fresh.reading() as reader:
        assert damage(reader) == []
    fresh.close()


def test_numbers_that_were_given_are_not_given_again(farm_store: Store, sqlite_template: Path, tmp_path: Path) -> None:
    person = add_person(farm_store, NewPerson("Cy"), by="Ada")
    remove_record(farm_store, Removal("people", person.id), by="Ada")
    export(farm_store, str(tmp_path / "out"))
    other = Store(str(shutil.copy(sqlite_template, tmp_path / "other.db")))
    take_in(other, str(tmp_path / "out"))
    assert add_person(other, NewPerson("Di"), by="Ada").id == person.id + 1
    other.close()


@pytest.fixture
def small(sqlite_store: Store, tmp_path: Path) -> Path:
    """A package of a small farm with a text like a formula and a photo."""
    open_farm(sqlite_store, NewFarm("Hollow Lane", US, "UTC"), by="Ada")
    add_crop(sqlite_store, NewCrop(FORMULA, note='-1, "so" and so'), by="Ada")
    (tmp_path / "photo.jpg").write_bytes(b"a bed")
    add_note(sqlite_store, NewNote(DAY, file=kept_files.keep(sqlite_store, str(tmp_path / "photo.jpg"))), by="Ada")
    assert export(sqlite_store, str(tmp_path / "out")).files == 1
    return tmp_path / "out"


def elsewhere(tmp_path: Path) -> Store:
    return Store(str(tmp_path / "elsewhere" / "farm.db"))


def test_a_spreadsheet_finds_no_formula_and_the_farm_finds_its_words_again(small: Path, tmp_path: Path) -> None:
    with (small / "crop.csv").open(newline="", encoding="utf-8") as file:
        (row,) = csv.DictReader(file)
    assert (row["name"], row["note"]) == ("'" + FORMULA.upper(), "'" + '-1, "so" and so')
    store = elsewhere(tmp_path)
    take_in(store, str(small))
    assert everything(store)["crop"][0]["name"] == FORMULA.upper()
    store.close()


def test_photos_go_along_and_all_is_for_its_owner_alone(small: Path, tmp_path: Path) -> None:
    store = elsewhere(tmp_path)
    take_in(store, str(small / DESCRIPTOR))
    assert [one.read_bytes() for one in kept_files.folder_of(store).iterdir()] == [b"a bed"]
    assert {one.stat().st_mode & 0o077 for one in (small, *small.rglob("*"), Path(store.place))} == {0}
    store.close()


def test_the_descriptor_names_every_file_its_columns_and_its_links(small: Path) -> None:
    told = json.loads((small / DESCRIPTOR).read_text(encoding="utf-8"))
    assert told["$schema"].startswith("https://datapackage.org/profiles/2.0/")
    assert {one["path"] for one in told["resources"]} == {one.name for one in small.glob("*.csv")}
    for one in told["resources"]:
        with (small / one["path"]).open(newline="", encoding="utf-8") as file:
            assert next(csv.reader(file)) == [field["name"] for field in one["schema"]["fields"]]
        assert one["bytes"] == (small / one["path"]).stat().st_size
    (bed,) = (one for one in told["resources"] if one["name"] == "bed")
    assert bed["schema"]["foreignKeys"] == [
        {"fields": ["unit_id"], "reference": {"resource": "unit", "fields": ["id"]}}
    ]


def test_a_workbook_has_a_sheet_for_each_table_and_no_formula(sqlite_store: Store, small: Path, tmp_path: Path) -> None:
    export(sqlite_store, str(tmp_path / "out.xlsx"))
    book = load_workbook(tmp_path / "out.xlsx")
    assert book.sheetnames == ["about", *TABLES, "long_texts"]
    assert "It lacks photos and receipts" in "".join(str(row[1]) for row in book["about"].values)
    heads, crop = book["crop"].iter_rows(values_only=True)
    assert dict(zip(heads, crop, strict=True))["name"] == "'" + FORMULA.upper()
    assert {one.data_type for row in book["crop"].iter_rows() for one in row} <= {"s", "n"}
    assert (tmp_path / "out.xlsx").stat().st_mode & 0o077 == 0


def test_a_workbook_comes_in_as_it_went_out(
    land: Land, fresh: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workbooks, "LONGEST", 300)
    found = export(land.store, str(tmp_path / "out.xlsx"))
    assert load_workbook(tmp_path / "out.xlsx")["long_texts"].max_row > 100
    assert take_in(fresh, str(tmp_path / "out.xlsx")) == found.rows
    assert everything(fresh) == everything(land.store)
    with fresh.reading() as reader:
        assert damage(reader) == []
    fresh.close()


TEXTS = st.text(max_size=30) | st.sampled_from(["=1", "'", "_x000D_", "a\r\nb", "\x00", "\ufffe", " a ", "_x0041_x"])
VALUES = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | TEXTS
DAYS = st.dates() | st.datetimes(timezones=st.just(UTC))


@given(st.lists(VALUES | DAYS, min_size=1, max_size=8))
def test_every_value_comes_back_from_a_sheet_to_the_last_digit(values: list[Any]) -> None:
    book, file = Workbook(write_only=True), io.BytesIO()
    book.create_sheet().append([in_cell(value) for value in values])
    book.save(file)
    (row,) = load_workbook(file).worksheets[0].iter_rows(max_row=1, max_col=len(values))
    assert [of_cell(type(value), one.value) for value, one in zip(values, row, strict=True) if value is not None] == [
        value for value in values if value is not None
    ]
    assert not any(one.data_type == "f" for one in row)


def changed(place: Path, change: Callable[[Any], None]) -> None:
    """Open a workbook as a spreadsheet would, change it, and save it."""
    book = load_workbook(place)
    change(book)
    book.save(place)


def of_another_schema(book: Any) -> None:
    next(row for row in book["about"].iter_rows() if row[0].value == "schema")[1].value = "9999"


BOOKS: list[tuple[Callable[[Any], None], str]] = [
    (lambda book: book["crop"].__setitem__("B2", "HYPPO"), "not whole. Crop 1 is not"),
    (lambda book: book.remove(book["crop"]), "the sheet crop is missing"),
    (lambda book: book.remove(book["about"]), "no workbook of a whole farm|the sheet about is missing"),
    (lambda book: book["crop"].__setitem__("A1", "no"), "has other columns"),
    (lambda book: book["crop"].__setitem__("A2", "one"), "the sheet crop cannot be read near row 2"),
    (lambda book: book["farm"].delete_rows(2), "no farm in the package"),
    (of_another_schema, "the workbook has schema 9999"),
]


@pytest.mark.parametrize(("harm", "words"), BOOKS, ids=[words for _, words in BOOKS])
def test_a_workbook_that_is_not_what_it_was_is_refused(
    sqlite_store: Store, small: Path, tmp_path: Path, harm: Callable[[Any], None], words: str
) -> None:
    export(sqlite_store, str(tmp_path / "out.xlsx"))
    changed(tmp_path / "out.xlsx", harm)
    store = elsewhere(tmp_path)
    with pytest.raises(Refused, match=words):
        take_in(store, str(tmp_path / "out.xlsx"))
    store.close()


def test_what_is_no_workbook_is_refused_in_words(tmp_path: Path) -> None:
    (tmp_path / "out.xlsx").write_bytes(b"PK\x03\x04 no")
    with pytest.raises(Refused, match="is no workbook of a whole farm"):
        take_in(elsewhere(tmp_path), str(tmp_path / "out.xlsx"))


def test_nothing_is_written_over_and_nothing_half(sqlite_store: Store, small: Path, tmp_path: Path) -> None:
    before = sorted(one.name for one in tmp_path.iterdir())
    for place, error in ((small, Refused), (tmp_path / "no" / "out", NotFound), (tmp_path / "no" / "x.xlsx", NotFound)):
        with pytest.raises(error):
            export(sqlite_store, str(place))
    assert sorted(one.name for one in tmp_path.iterdir()) == before
    with pytest.raises(NoFarm):
        export(elsewhere(tmp_path), str(tmp_path / "nothing"))


def resealed(folder: Path, name: str, change: Callable[[str], str]) -> None:
    """Change a file, and its sum in the descriptor with it."""
    import hashlib

    file = folder / name
    content = change(file.read_text(encoding="utf-8")).encode()
    told = json.loads((folder / DESCRIPTOR).read_text(encoding="utf-8"))
    for one in told["resources"]:
        if one["path"] == name:
            one["hash"] = f"sha256:{hashlib.sha256(content).hexdigest()}"
    file.write_bytes(content)
    (folder / DESCRIPTOR).write_text(json.dumps(told), encoding="utf-8")


def another_schema(folder: Path) -> None:
    told = json.loads((folder / DESCRIPTOR).read_text(encoding="utf-8"))
    told["farmops"]["schema"] = "9999"
    (folder / DESCRIPTOR).write_text(json.dumps(told), encoding="utf-8")


HARMS: list[tuple[Harm, str]] = [
    (lambda one: (one / "crop.csv").write_text("id\n"), "crop.csv was altered"),
    (lambda one: (one / "crop.csv").unlink(), "crop.csv is missing"),
    (lambda one: resealed(one, "crop.csv", lambda text: text.replace("id,", "no,")), "other columns"),
    (lambda one: resealed(one, "crop.csv", lambda text: text.replace("\n1,", "\none,")), "cannot be read near line 2"),
    (lambda one: resealed(one, "crop.csv", lambda text: text + "7\n"), "cannot be read near line"),
    (lambda one: resealed(one, "crop.csv", lambda text: text.replace("HYPER", "HYPPO")), "not whole. Crop 1 is not"),
    (
        lambda one: resealed(one, "crop.csv", lambda text: text.partition("\n")[0] + "\n"),
        "Crop 1 was booked and is gone",
    ),
    (lambda one: resealed(one, "farm.csv", lambda text: text.partition("\n")[0] + "\n"), "no farm in the package"),
    (lambda one: resealed(one, "journal.csv", lambda text: text.replace("Ada", "Eve")), "was altered after it was"),
    (another_schema, "has schema 9999"),
    (lambda one: (one / DESCRIPTOR).write_text("{}"), "not of a whole farm"),
    (lambda one: (one / DESCRIPTOR).write_text("[" * 5000), "cannot be read"),
]


@pytest.mark.parametrize(("harm", "words"), HARMS, ids=[words for _, words in HARMS])
def test_a_package_that_is_not_what_it_was_is_refused_and_lays_nothing(
    small: Path, tmp_path: Path, harm: Harm, words: str
) -> None:
    harm(small)
    store = elsewhere(tmp_path)
    with pytest.raises(Refused, match=words):
        take_in(store, str(small))
    if store.has_schema():
        assert not any(everything(store).values())
    store.close()


def test_a_package_is_not_taken_into_a_store_that_holds_a_farm(sqlite_store: Store, small: Path) -> None:
    before = everything(sqlite_store)
    with pytest.raises(Refused, match="there is a farm in this store already"):
        take_in(sqlite_store, str(small))
    assert everything(sqlite_store) == before
    with pytest.raises(NotFound, match=r"no datapackage\.json"):
        take_in(sqlite_store, str(small.parent))
