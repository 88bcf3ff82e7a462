"""What befell the invented farm is seen on its day: the farm as it was booked that evening, asked as anybody would."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import date

import pytest

from farmops.model.fish import LossCause
from farmops.model.fish_events import Feeding, Loss
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.cycling import cycling_of
from farmops.reports.evidence import conditions
from farmops.reports.fish_book import book
from farmops.reports.returns import Asked
from farmops.reports.round import round_of
from tests.every_figure import that_do_not_add_up

DARK = date(2026, 9, 22)
LATER = (
    "DELETE FROM reading WHERE day > :day",
    "DELETE FROM lot_place WHERE from_day > :day",
    "UPDATE fish_lot SET closed_day = NULL WHERE closed_day >= :day",
)


@pytest.fixture
def evening(demo_place: str, request: pytest.FixtureRequest) -> Iterator[Store]:
    """The farm on the evening of a day: what was read later and fish that came later are not there yet."""
    connection = sqlite3.connect(demo_place)
    for statement in LATER:
        connection.execute(statement, {"day": str(request.param)})
    connection.commit()
    connection.close()
    store = Store(demo_place)
    yield store
    store.close()


def held(store: Store, name: str, unit: str, on: date) -> list[str]:
    """Why a condition holds in a unit on a day."""
    found = next(one for one in conditions(store, on) if one.name == name)
    return [one.why for one in found.holds if one.unit == unit]


def lot(store: Store, code: str) -> int:
    return next(one.id for one in lists.fish_lots(store) if one.code == code)


@pytest.mark.parametrize("evening", [date(2026, 7, 12)], indirect=True)
def test_the_heat_of_july_is_dangerous_for_the_trout(evening: Store) -> None:
    why = held(evening, "reading out of limits", "TEAL", date(2026, 7, 12))
    assert "TEAL highest temperature 26.0 °C on 2026-07-12, dangerous for rainbow trout" in why
    assert any(one.startswith("TEAL oxygen 3.6 mg/L on 2026-07-12") for one in why)
    died = [one for one in book(evening, lot(evening, "TROUT-25")) if isinstance(one, Loss)]
    assert [(one.day, one.number, one.cause) for one in died] == [(date(2026, 7, 12), 12, LossCause.TEMPERATURE)]


@pytest.mark.parametrize("evening", [date(2026, 8, 11)], indirect=True)
def test_ammonia_stands_high_after_the_double_feed(evening: Store) -> None:
    why = held(evening, "reading out of limits", "ROOK", date(2026, 8, 11))
    assert "ROOK ammonia 3 mg/L as N on 2026-08-11, harmful for fish" in why
    fed = {one.day: one for one in book(evening, lot(evening, "PERCH-25")) if isinstance(one, Feeding)}
    assert fed[date(2026, 8, 9)].mass_mg > 1.7 * fed[date(2026, 8, 7)].mass_mg
    away = {one.person: (one.from_day, one.stand_in) for one in lists.absences(evening)}
    assert away == {name: (date(2026, 8, 2), "Ines") for name in ("Maren", "Tobit")}


def test_the_power_cut_took_fish_where_no_air_was(demo_store: Store) -> None:
    cut = lists.incidents(demo_store)[0]
    assert cut.ended_at is not None
    assert (cut.ended_at - cut.began_at).total_seconds() == (5 * 60 + 5) * 60
    lost = {
        code: [
            one.number for one in book(demo_store, lot(demo_store, code)) if isinstance(one, Loss) and one.day == DARK
        ]
        for code in ("PERCH-24", "PERCH-25")
    }
    assert lost == {"PERCH-24": [], "PERCH-25": [6]}


def test_siskin_stands_still_in_the_cold_and_its_kit_is_past_its_date(demo_store: Store) -> None:
    siskin = next(one.unit.id for one in lists.units(demo_store) if one.unit.code == "SISKIN")
    found = cycling_of(demo_store, siskin)
    assert found is not None
    assert not found.ready
    said = " ".join(found.stalls)
    assert "the water is cold, 11.5 °C" in said
    assert "Old drop kit was past its date" in said
    assert held(demo_store, "reading to watch", "SISKIN", date(2026, 10, 14)) == [
        "SISKIN temperature 11.5 °C on 2026-10-13, watch for the filter"
    ]


def test_the_round_of_the_last_day_explains_teal_plover_and_siskin(demo_store: Store) -> None:
    why = {(one.where, one.chore.template_key): one.why or "" for one in round_of(demo_store).due}
    assert "slower, four readings running" in why["TEAL", "fill-slower"]
    assert why["PLOVER", "water-watch"].startswith("PLOVER pH 8 on 2026-10-11, watch for plants")
    assert why["SISKIN", "water-watch"].startswith("SISKIN temperature 11.5 °C")
    assert why["all", "instrument-past"].startswith("Old drop kit past its date")


def test_every_figure_of_every_report_adds_up_down_to_the_records(demo_store: Store) -> None:
    last = date(2026, 10, 14)
    assert that_do_not_add_up(demo_store, Asked(last, date(2026, 8, 1), last)) == []
