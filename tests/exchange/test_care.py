"""Care sheets and wall cards as papers: all that is to be known is on them, in text and as pages read back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from farmops.exchange import card_text, cards, care, care_text
from farmops.exchange.pages.papers import SIZES, Paper
from farmops.exchange.written import How, Written
from farmops.farm.absences import go_away
from farmops.farm.contacts import add_contact
from farmops.farm.farm import add_person
from farmops.farm.units import change_unit
from farmops.model.absences import NewAbsence
from farmops.model.chores import ChoreClass
from farmops.model.contacts import NewContact
from farmops.model.errors import Refused
from farmops.model.farm import NewPerson
from farmops.model.text import width
from farmops.model.units import Unit, UnitChange
from farmops.records.store import Store
from farmops.reports.care import care_sheet
from farmops.reports.wall_card import wall_card
from tests.exchange.printed import pages_read, size_of, text_read
from tests.farmhand import ADA, TODAY, a_chore, a_unit, on, read, stock, volume
from tests.frozen import frozen

FIRST, LAST = on(10, 19), on(10, 25)


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def wren(sqlite_store: Store) -> Unit:
    """Trout in a farm that goes away next week, with all that a stand-in looks for."""
    store = _opened(sqlite_store)
    unit = a_unit(store, tank=volume("250 gal"))
    change_unit(store, UnitChange(unit.id, breaker="barn box, No. 3", valve="red tap"), by=ADA)
    stock(store, unit, "T-1", on(10, 1), 40, species="rainbow trout", mean="100 g")
    read(store, unit, on(10, 14), temperature="15 C")
    ada, bo = (add_person(store, NewPerson(name), by=ADA) for name in ("Ada", "Bo"))
    add_contact(store, NewContact("Dr Reed", "555 0100", "vet"), by=ADA)
    a_chore(
        store,
        "Look round",
        "day",
        on(10, 1),
        grade=ChoreClass.LIFE_SUPPORT,
        instructions="Walk the row.",
        caution="Dry hands.",
        confirmation="flow seen",
        readings=("temperature",),
        adults_only=True,
    )
    a_chore(store, "Clear the intake", "3 days after", on(10, 16), unit_id=unit.id, grade=ChoreClass.LIFE_SUPPORT)
    go_away(store, NewAbsence(ada.id, FIRST, LAST, bo.id, "no signal"), by=ADA)
    return unit


def _opened(store: Store) -> Store:
    from tests.farmhand import open_farm

    open_farm(store)
    return store


ON_THE_SHEET = (
    "For Bo, while Ada is away",
    "Ada: no signal",
    "Dr Reed",
    "555 0100",
    "Look round",
    "adults only",
    "every unit",
    "Caution: Dry hands.",
    "Walk the row.",
    "Not done without: flow seen",
    "Read and write down: temperature",
    "Clear the intake",
    "bag 1: WREN Mon 64 g",
    "bag 7: WREN Sun 64 g",
    "40 rainbow trout",
    "no feed at 53.6 °F and colder, or 62.6 °F and warmer",
    "Fish gasp at the surface",
    "Never make up a feed that was missed",
    "A tank drowns a child in silence",
    "barn box, No. 3",
    "red tap",
)


def write_care(store: Store, how: How, first: date | None = None, last: date | None = None) -> Written:
    return care.written(care_sheet(store, first, last), how)


def write_card(store: Store, unit: Unit, how: How) -> Written:
    return cards.written(wall_card(store, unit), how)


def test_all_a_stand_in_needs_is_in_the_text(sqlite_store: Store, wren: Unit) -> None:
    text = care_text.text_of(care_sheet(sqlite_store))
    flowing = " ".join(text.split())
    assert [words for words in ON_THE_SHEET if words not in flowing] == []
    assert flowing.startswith("CARE SHEET, HOLLOW LANE HOLDING Monday 19 October to Sunday 25 October 2026")
    assert "[ ] Mon [ ] Tue [ ] Wed [ ] Thu [ ] Fri [ ] Sat [ ] Sun" in flowing
    assert max(width(line) for line in text.splitlines()) <= 72


def test_all_a_stand_in_needs_is_on_the_page(sqlite_store: Store, wren: Unit, tmp_path: Path) -> None:
    done = write_care(sqlite_store, How(str(tmp_path / "care.pdf")))
    read_back = text_read(done.file.read_bytes())
    assert [words for words in ON_THE_SHEET if words not in read_back] == []
    assert (done.pages, done.paper, done.lacking) == (1, Paper.LETTER, "")
    assert size_of(done.file.read_bytes()) == tuple(round(side, 1) for side in SIZES[Paper.LETTER])
    assert done.told.startswith("Care sheet, Hollow Lane Holding, Monday 19 October to Sunday 25 October 2026: 1 page")


def test_each_week_has_a_page_of_its_own(sqlite_store: Store, wren: Unit, tmp_path: Path) -> None:
    done = write_care(sqlite_store, How(str(tmp_path / "care.pdf"), Paper.A4), FIRST, on(11, 1))
    pages = pages_read(done.file.read_bytes())
    assert len(pages) == 2
    assert ["Mon 19 Oct" in page for page in pages] == [True, False]
    assert ["Mon 26 Oct" in page for page in pages] == [False, True]
    assert all("Never make up a feed" in page and "Dr Reed" in page for page in pages)


def test_a_single_day_is_one_column(sqlite_store: Store, wren: Unit, tmp_path: Path) -> None:
    done = write_care(sqlite_store, How(str(tmp_path / "care.pdf")), on(10, 20))
    assert "Tuesday 20 October 2026" in text_read(done.file.read_bytes())
    text = care_text.text_of(care_sheet(sqlite_store, on(10, 20)))
    assert "Clear the intake" not in text
    assert "  [ ]\n" in text


def test_what_is_missing_leaves_a_blank(sqlite_store: Store, tmp_path: Path) -> None:
    store = _opened(sqlite_store)
    unit = a_unit(store, "ROOK")
    stock(store, unit, "P-1", on(10, 1))
    text = " ".join(care_text.text_of(care_sheet(store, FIRST)).split())
    assert "whom? write it here: ____" in text
    assert "breaker ______" in text
    assert "bag 1: ROOK Mon ____ g" in text
    read_back = text_read(write_care(store, How(str(tmp_path / "care.pdf")), FIRST).file.read_bytes())
    assert "not worked out, weigh what you give yourself" in read_back
    card = card_text.text_of(wall_card(store, unit))
    assert "How long cannot be said: how much water the tank holds is not written down." in " ".join(card.split())
    assert "Call ____" in card


ON_THE_CARD = (
    "WREN",
    "57.2 °F",
    "60.8 °F",
    "64.4 °F",
    "Battery bubbler",
    "never into the house wiring",
    "Ground-fault device",
    "barn box, No. 3",
    "red tap",
    "Dr Reed",
    "555 0100",
    "Printed 14 October 2026",
    "Worked out from 40 fish",
    "weighed on 1 October 2026",
    "250 gal of water",
    "oxygen not below 6 mg/L",
)


def test_all_of_the_card_is_in_the_text_and_on_its_one_page(sqlite_store: Store, wren: Unit, tmp_path: Path) -> None:
    text = card_text.text_of(wall_card(sqlite_store, wren))
    flowing = " ".join(text.split())
    assert [words for words in ON_THE_CARD if words.lower() not in flowing.lower()] == []
    assert max(width(line) for line in text.splitlines()) <= 72
    done = write_card(sqlite_store, wren, How(str(tmp_path / "card.pdf")))
    read_back = text_read(done.file.read_bytes())
    assert [words for words in ON_THE_CARD if words not in read_back] == []
    assert done.pages == 1


def test_names_are_never_markup(sqlite_store: Store, wren: Unit, tmp_path: Path) -> None:
    change_unit(sqlite_store, UnitChange(wren.id, breaker="<b>x</b> & y"), by=ADA)
    for done in (
        write_care(sqlite_store, How(str(tmp_path / "care.pdf"))),
        write_card(sqlite_store, wren, How(str(tmp_path / "card.pdf"))),
    ):
        assert "<b>x</b> & y" in text_read(done.file.read_bytes())


@pytest.mark.parametrize("as_text", [False, True])
def test_a_file_that_is_there_is_not_written_over_unasked(
    sqlite_store: Store, wren: Unit, tmp_path: Path, as_text: bool
) -> None:
    place = str(tmp_path / "paper")
    write_card(sqlite_store, wren, How(place, as_text=as_text))
    with pytest.raises(Refused, match="is there already"):
        write_care(sqlite_store, How(place, as_text=as_text))
    assert write_care(sqlite_store, How(place, as_text=as_text, replace=True)).file == Path(place)
    assert Path(place).stat().st_mode & 0o777 == 0o600
