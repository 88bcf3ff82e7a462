"""The invented farm: made the same every time, loaded whole, alive on its day, and wrong where it means to be."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from farmops.economics.comparison import Verdict, compare
from farmops.exchange import demo, demo_files
from farmops.exchange.demo import keep_demo, make_demo
from farmops.facts import journal as journal_facts
from farmops.model.costs import Basis
from farmops.model.errors import NotFound, Refused, StoreUnavailable
from farmops.model.readings import Measure
from farmops.model.units import UnitState
from farmops.records.chain import breaks
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE
from farmops.reports import lists
from farmops.reports.returns import Asked, monthly, returns
from farmops.reports.round import Round, round_of
from farmops.reports.suspicious import Suspect, suspicious
from farmops.reports.water import series_of
from farmops.reports.yields import By, yields
from tests.farmhand import counted, everything_stored

ROOT = Path(__file__).parents[2]
LAST = date(2026, 10, 14)
SINCE = date(2026, 3, 1)
OZ = 28_349.523125
AWAY = (
    ("2025-04-20", "2025-04-26"),
    ("2025-08-03", "2025-08-16"),
    ("2026-04-19", "2026-04-25"),
    ("2026-08-02", "2026-08-15"),
)
WEIGHINGS = """
    SELECT harvest.id, harvest.day, unit.code AS unit, crop.name AS crop, harvest.planting_id, harvest.fish_lot_id,
        fish_lot.code AS lot, harvest.mass_mg, harvest.mass_typed, harvest.tare_mg, harvest.number, journal.actor
    FROM harvest
    JOIN journal ON journal.operation = harvest.operation
    LEFT JOIN planting ON planting.id = harvest.planting_id
    LEFT JOIN crop ON crop.id = planting.crop_id
    LEFT JOIN bed ON bed.id = planting.bed_id
    LEFT JOIN fish_lot ON fish_lot.id = harvest.fish_lot_id
    LEFT JOIN unit ON unit.id = bed.unit_id
"""


@pytest.fixture(scope="module", params=["sqlite", "postgres"])
def quillet(request: pytest.FixtureRequest) -> Iterator[Store]:
    """The demo, made once on each kind of database for the tests that only read."""
    if request.param == "sqlite":
        yield request.getfixturevalue("invented")
        return
    with request.getfixturevalue("postgres_server").database() as url:
        store = Store(url)
        keep_demo(store)
        yield store
        store.close()


def asked(basis: Basis = Basis.FULL) -> Asked:
    return Asked(LAST, SINCE, LAST, basis)


def rows(store: Store, sql: str, **given: object) -> list[dict[str, object]]:
    """What a careful reader would ask of the records; days as text on both databases."""
    with store.reading() as reader:
        return [{**row, **({"day": str(row["day"])} if "day" in row else {})} for row in reader.rows(sql, **given)]


def run_maker(into: Path) -> None:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-B", str(ROOT / "demo_data" / "make.py"), "--into", str(into)]
    subprocess.run(command, check=True, env=environment, cwd=into.parent)


class TestFiles:
    def test_the_maker_makes_the_same_bytes_again(self, tmp_path: Path) -> None:
        run_maker(tmp_path / "again")
        shipped = {path.name: path.read_bytes() for path in (ROOT / "demo_data").glob("*.csv")}
        assert {path.name: path.read_bytes() for path in (tmp_path / "again").iterdir()} == shipped

    def test_there_are_as_many_weighings_as_two_years_bring(self) -> None:
        assert 900 <= len(demo_files.rows("harvests")) <= 1500

    def test_missing_files_are_told_in_words(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(demo_files, "FOLDER", "nowhere")
        with pytest.raises(NotFound, match="Install farmops again"):
            demo_files.folder()

    def test_who_booked_keeps_a_year_together_and_the_last_week_apart(self) -> None:
        found = [
            {"day": "2025-03-01", "by": "Maren"},
            {"day": "2025-11-30", "by": "Maren"},
            {"day": "2025-11-30", "by": "Tobit"},
            {"day": "2026-10-07", "by": "Maren"},
            {"day": "2026-10-08", "by": "Maren"},
        ]
        together = [(by, [row["day"] for row in own]) for by, own in demo_files.batches(found, "day", LAST)]
        assert together == [
            ("Maren", ["2025-03-01", "2025-11-30"]),
            ("Tobit", ["2025-11-30"]),
            ("Maren", ["2026-10-07"]),
            ("Maren", ["2026-10-08"]),
        ]


class TestLoading:
    def test_every_row_of_every_file_is_there(self, quillet: Store) -> None:
        held = counted(quillet)
        tables = {"people": "person", "units": "unit", "unit_states": "unit_state", "beds": "bed_size"}
        tables |= {"crops": "crop", "fish": "fish_lot", "prices": "price", "plantings": "planting"}
        tables |= {"harvests": "harvest", "costs": "cost", "settlements": "settlement"}
        tables |= {
            "devices": "device",
            "doses": "dose",
            "feedings": "feeding",
            "sales": "sale_line",
            "bought": "supply_lot",
        }
        paid = sum(1 for row in demo_files.rows("bought") if row["paid"])
        assert {name: held[table] for name, table in tables.items()} == {
            name: len(demo_files.rows(name)) + (paid if name == "costs" else 0) for name in tables
        }

    def test_the_chain_of_its_journal_is_whole(self, quillet: Store) -> None:
        with quillet.reading() as reader:
            assert breaks(journal_facts.chain(reader)) == []

    def test_no_row_is_without_its_operation(self, quillet: Store) -> None:
        with quillet.reading() as reader:
            known = {row["operation"] for row in reader.rows("SELECT operation FROM journal")}
        assert {row["operation"] for table in everything_stored(quillet).values() for row in table} <= known

    def test_its_clock_stands_on_its_last_day(self, quillet: Store) -> None:
        farm = lists.farm(quillet)
        assert (farm.name, farm.today(), farm.time_zone) == ("Quillet Bank", LAST, "America/New_York")
        assert farm.altitude_um == 440_000_000

    def test_nothing_is_booked_after_its_last_day(self, quillet: Store) -> None:
        newest = "SELECT MAX(day) AS day FROM (SELECT day FROM harvest UNION ALL SELECT day FROM cost) AS booked"
        assert rows(quillet, newest)[0]["day"] < str(LAST)  # type: ignore[operator]
        assert not rows(quillet, "SELECT id FROM settlement WHERE on_day >= :last", last=LAST)

    def test_the_row_of_units_and_their_states(self, quillet: Store) -> None:
        found = {line.unit.code: line.states[-1] for line in lists.units(quillet)}
        assert list(found) == ["WREN", "ROOK", "TEAL", "PLOVER", "SISKIN", "DIPPER"]
        assert (found["SISKIN"].state, found["SISKIN"].from_day) == (UnitState.CYCLING, date(2026, 9, 21))
        assert found["DIPPER"].state is UnitState.BUILDING
        running = next(one for one in lists.units(quillet)[0].states if one.state is UnitState.RUNNING)
        assert running.from_day == date(2024, 7, 14)

    def test_a_store_that_holds_a_farm_stays_as_it_is(self, farm_store: Store) -> None:
        before = everything_stored(farm_store)
        with pytest.raises(Refused, match="already holds the farm Hollow Lane Holding"):
            make_demo(farm_store)
        assert everything_stored(farm_store) == before


class TestWhoBooks:
    def test_both_sharers_and_the_helper_book(self, quillet: Store) -> None:
        booked = Counter(row["actor"] for row in rows(quillet, WEIGHINGS))
        assert set(booked) == {"Maren", "Tobit", "Ines"}
        assert booked["Maren"] > booked["Tobit"] > booked["Ines"] > 50

    def test_the_helper_books_when_the_sharers_are_away_and_only_then(self, quillet: Store) -> None:
        for row in rows(quillet, WEIGHINGS):
            away = any(first <= str(row["day"]) <= last for first, last in AWAY)
            assert (row["actor"] == "Ines") is away

    def test_settling_names_who_did_it(self, quillet: Store) -> None:
        sql = "SELECT settlement.actor, journal.actor AS booked FROM settlement JOIN journal USING (operation)"
        found = rows(quillet, sql)
        assert found
        assert all(row["actor"] == row["booked"] for row in found)


class TestFigures:
    @pytest.mark.parametrize("by", [By.BED, By.CROP])
    def test_yields_and_returns_tell_of_the_same_produce(self, quillet: Store, by: By) -> None:
        farm = returns(quillet, asked()).farm
        assert sum(one.marketable.value or 0 for one in yields(quillet, asked(), by).lines) == farm.marketable.value

    def test_the_units_bear_every_cent_that_was_paid(self, quillet: Store) -> None:
        paid = rows(quillet, "SELECT amount_minor FROM cost WHERE day BETWEEN :a AND :b", a=SINCE, b=LAST)
        assert returns(quillet, asked(Basis.CASH)).farm.cost.value == sum(int(str(row["amount_minor"])) for row in paid)

    def test_the_months_add_up_to_the_span(self, quillet: Store) -> None:
        whole, months = returns(quillet, asked(Basis.OPERATING)).farm, monthly(quillet, asked(Basis.OPERATING))
        assert sum(one.farm.harvest.value or 0 for one in months) == whole.harvest.value
        assert sum(one.farm.cost.value or 0 for one in months) == whole.cost.value

    def test_every_weighing_that_counts_has_a_price(self, quillet: Store) -> None:
        assert returns(quillet, Asked(LAST)).farm.value.value is not None

    def test_goldfish_are_not_eaten_and_trout_are_gone_from_may_on(self, quillet: Store) -> None:
        assert not [row for row in rows(quillet, WEIGHINGS) if str(row["lot"]).startswith(("GOLD", "LENT"))]
        trout = [str(row["day"]) for row in rows(quillet, WEIGHINGS) if str(row["lot"]).startswith("TROUT")]
        assert all(int(day[5:7]) in (10, 11, 12, 1, 2, 3, 4, 5) for day in trout)


def weekly_pounds(store: Store, unit: str, crop: str | None = None) -> list[float]:
    """What a unit brought in each week of the season, in lb."""
    weeks = [0.0] * ((LAST - SINCE).days // 7 + 1)
    for row in rows(store, WEIGHINGS):
        day = date.fromisoformat(str(row["day"]))
        if row["unit"] == unit and SINCE <= day <= LAST and crop in (None, row["crop"]):
            weeks[(day - SINCE).days // 7] += int(str(row["mass_mg"])) / OZ / 16
    return weeks


class TestStory:
    def test_wren_is_the_best_for_its_area_and_plover_the_poorest(self, quillet: Store) -> None:
        found = {one.unit: one.yield_per_area.value for one in returns(quillet, asked()).units}
        best = sorted((unit for unit, value in found.items() if value), key=lambda unit: found[unit] or 0)
        assert (best[0], best[-1]) == ("PLOVER", "WREN")

    def test_rook_and_teal_are_too_close_to_call(self, quillet: Store) -> None:
        twins = compare(weekly_pounds(quillet, "ROOK"), weekly_pounds(quillet, "TEAL"), paired=True)
        assert twins.verdict is Verdict.TOO_CLOSE

    def test_chard_of_wren_is_clearly_better_than_chard_of_plover(self, quillet: Store) -> None:
        chard = [weekly_pounds(quillet, unit, "CHARD") for unit in ("WREN", "PLOVER")]
        assert compare(*chard, paired=True).verdict is Verdict.CLEARLY_BETTER

    def test_the_dark_months_bring_little(self, quillet: Store) -> None:
        by_month = Counter(str(row["day"])[5:7] for row in rows(quillet, WEIGHINGS))
        dark = sum(by_month[month] for month in ("12", "01", "02"))
        assert 0 < dark < 0.05 * sum(by_month.values())

    def test_a_bed_grew_longer_and_earlier_answers_did_not_move(self, quillet: Store) -> None:
        sizes = next(line.sizes for line in lists.beds(quillet) if line.bed.code == "WREN-S")
        assert [size.area_typed for size in sizes] == ["10 sq ft", "12.5 sq ft"]

    def test_the_first_leak_test_of_dipper_failed_and_was_put_off_with_a_reason(self, quillet: Store) -> None:
        chore = next(
            one for one in lists.chores(quillet) if (one.unit, one.template_key) == ("DIPPER", "leak-test-read")
        )
        (put_off,) = lists.settled(quillet, chore.id)
        assert (put_off.kind, put_off.until_day) == ("deferred", date(2026, 10, 18))
        assert "drip at the bed's outlet" in (put_off.reason or "")


@pytest.fixture(scope="module")
def morning(quillet: Store) -> Round:
    """The round of the farm's last day."""
    return round_of(quillet)


class TestRound:
    def test_it_is_of_the_last_day_alive_and_calm(self, morning: Round) -> None:
        assert morning.on == LAST
        assert 8 <= len(morning.due) <= 20
        assert morning.settled == ()

    def test_the_pump_intake_of_teal_and_the_pad_of_rook_are_late(self, morning: Round) -> None:
        late = [(one.where, one.chore.template_key, one.days_late) for one in morning.late]
        assert late == [("TEAL", "pump-intake", 2), ("ROOK", "filter-pad-change", 4)]

    def test_what_is_due_belongs_to_the_day(self, morning: Round) -> None:
        due = {(one.where, one.chore.template_key or one.chore.title) for one in morning.due if not one.days_late}
        assert due == {
            ("all", "look-round-morning"),
            ("all", "look-round-evening"),
            ("all", "Ask the kitchen what it takes tomorrow"),
            ("WREN", "feed"),
            ("ROOK", "feed"),
            ("TEAL", "feed"),
            ("TEAL", "stock-test"),
            ("TEAL", "fill-slower"),
            ("SISKIN", "cycle-ammonia"),
            ("SISKIN", "cycle-baseline"),
            ("all", "instrument-past"),
            ("PLOVER", "water-watch"),
            ("SISKIN", "water-watch"),
            ("PLOVER-N", "treat-test"),
            *((bed, "pick-ready") for bed in ("WREN-N", "ROOK-N", "TEAL-S")),
        }

    def test_what_holds_says_why(self, morning: Round) -> None:
        why = {one.where: one.why for one in morning.due if one.chore.rule_kind == "when"}
        assert why["WREN-N"] == "CHARD ready"
        slower = next(one for one in morning.due if one.chore.template_key == "fill-slower")
        assert slower.due == date(2026, 9, 24)
        assert (slower.why or "").startswith(
            "Bed fills in 14.6 min, usual 11.5 to 12.2: slower, four readings running. A blocked intake"
        )
        assert why["SISKIN"] == "SISKIN with 3 of 10 fill times read since Mon 21 Sep"
        assert morning.undated == ()

    def test_frost_is_forecast_for_the_end_of_the_week(self, quillet: Store) -> None:
        ahead = [one for one in round_of(quillet, LAST, days=3).lines if one.chore.template_key == "frost-ready"]
        assert [(one.due, one.why) for one in ahead] == [
            (date(2026, 10, 15), "frost to come, low of 1.5 °C on Fri 16 Oct from Thu 15 Oct")
        ]

    def test_the_fills_of_teal_get_slower_while_its_intake_clogs(self, quillet: Store) -> None:
        unit = next(line.unit for line in lists.units(quillet) if line.unit.code == "TEAL")
        fills = [one.reading.value for one in series_of(quillet, date.min, LAST, unit.id, Measure.FILL_TIME)]
        assert len(fills) >= 10
        assert min(fills[-4:]) > max(fills[:-4])

    def test_the_days_after_are_no_flood(self, quillet: Store) -> None:
        ahead = Counter(one.due for one in round_of(quillet, LAST, days=7).lines if one.due > LAST)
        assert set(ahead) == {LAST + timedelta(days=step) for step in range(1, 7)}
        assert max(ahead.values()) <= 20


class TestHiddenSlips:
    def test_a_week_of_crates_from_rook_was_weighed_without_tare(self, quillet: Store) -> None:
        crated = ("CHARD", "PAK CHOI", "CELERY", "CUCUMBER")
        found = [
            row
            for row in rows(quillet, WEIGHINGS)
            if row["crop"] in crated and row["day"] >= "2025-06-01" and not row["tare_mg"]  # type: ignore[operator]
        ]
        assert {row["unit"] for row in found} == {"ROOK"}
        assert len(found) >= 4
        days = sorted(str(row["day"]) for row in found)
        assert "2026-07-20" <= days[0] <= days[-1] <= "2026-07-26"

    def test_the_scale_read_3_percent_high_for_five_months_until_it_was_checked(self, quillet: Store) -> None:
        chore = next(one for one in lists.chores(quillet) if one.template_key == "scale-check")
        checks = sorted(
            (one for one in lists.settled(quillet, chore.id) if one.kind == "done"), key=lambda one: one.on_day
        )
        at = next(at for at, one in enumerate(checks) if "3 % high" in (one.reason or ""))
        last_true, high = checks[at - 1].on_day, checks[at].on_day
        assert (last_true, high) == (date(2026, 2, 1), date(2026, 6, 30))
        between = [row for row in rows(quillet, WEIGHINGS) if str(last_true) < str(row["day"]) <= str(high)]
        assert len(between) > 100

    def test_six_kilograms_of_trout_were_typed_as_six_pounds(self, quillet: Store) -> None:
        counted_out = [row for row in rows(quillet, WEIGHINGS) if row["lot"] == "TROUT-25"]
        means = {str(row["day"]): int(str(row["mass_mg"])) / int(str(row["number"])) / OZ for row in counted_out}
        odd = {day for day, ounces in means.items() if ounces < 0.6 * max(means.values())}
        assert odd == {"2026-05-23"}
        slip = next(row for row in counted_out if row["day"] == "2026-05-23")
        assert slip["mass_typed"] == "6 lb"
        assert 8 < 6_000_000 / int(str(slip["number"])) / OZ < 10

    def test_one_weighing_was_booked_by_both_sharers(self, quillet: Store) -> None:
        alike: dict[tuple[object, ...], set[object]] = {}
        for row in rows(quillet, WEIGHINGS):
            key = (row["day"], row["planting_id"], row["fish_lot_id"], row["mass_mg"])
            alike.setdefault(key, set()).add(row["actor"])
        twice = [key for key, actors in alike.items() if len(actors) > 1]
        assert [key[0] for key in twice] == ["2026-08-26"]
        assert alike[twice[0]] == {"Maren", "Tobit"}

    def test_one_receipt_was_booked_twice(self, quillet: Store) -> None:
        sql = """
            SELECT day, payee, amount_minor, COUNT(*) AS entries, COUNT(DISTINCT journal.actor) AS people
            FROM cost JOIN journal ON journal.operation = cost.operation
            GROUP BY day, payee, amount_minor HAVING COUNT(*) > 1
        """
        found = [(row["day"], row["amount_minor"], row["entries"], row["people"]) for row in rows(quillet, sql)]
        assert found == [("2026-04-17", 3490, 2, 2)]


class TestKeeping:
    def test_it_is_kept_whole_in_a_new_file(self, tmp_path: Path) -> None:
        place = tmp_path / "deep" / "quillet.db"
        assert keep_demo(Store(str(place))).name == "Quillet Bank"
        assert [path.name for path in place.parent.iterdir()] == ["quillet.db"]
        assert counted(Store(str(place)))["harvest"] == len(demo_files.rows("harvests"))

    def test_a_copy_that_does_not_fit_the_disk_is_taken_away_again(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def full(_: int) -> None:
            raise OSError(errno.ENOSPC, "No space left on device")

        made, place = tmp_path / "made.db", tmp_path / "farm.db"
        made.write_text("whole")
        monkeypatch.setattr("os.fsync", full)
        with pytest.raises(StoreUnavailable, match="No space left"):
            demo._put_in_place(made, place)
        assert [path.name for path in tmp_path.iterdir()] == ["made.db"]

    @pytest.mark.parametrize("ending", ["", "-wal", "-journal"])
    def test_what_is_there_already_is_left_alone(self, tmp_path: Path, ending: str) -> None:
        there = tmp_path / f"farm.db{ending}"
        there.write_text("mine")
        with pytest.raises(Refused, match="exists already"):
            keep_demo(Store(str(tmp_path / "farm.db")))
        assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [(there.name, "mine")]

    def test_a_place_that_cannot_be_is_told_in_words(self, tmp_path: Path) -> None:
        (tmp_path / "file").write_text("mine")
        with pytest.raises(StoreUnavailable, match="cannot be made"):
            keep_demo(Store(str(tmp_path / "file" / "farm.db")))

    def test_a_farm_that_is_there_already_is_not_made_again(self, quillet: Store) -> None:
        before = counted(quillet)
        with pytest.raises(Refused, match=r"exists already|already holds the farm Quillet Bank"):
            keep_demo(quillet)
        assert counted(quillet) == before


UNTOLD = frozenset(["chore_pause", "cost_label", "driver_share", "meter", "presence", "transfer"])
"""What the invented farm does not tell of."""


def test_no_other_table_of_the_farm_stays_empty(quillet: Store) -> None:
    held = counted(quillet)
    assert {name for name in BY_TABLE if not held[name]} == UNTOLD


def test_what_is_wrong_on_purpose_is_found(quillet: Store) -> None:
    found = [(one.suspect, one.day) for one in suspicious(quillet)]
    assert (Suspect.COST_TWICE, date(2026, 4, 17)) in found
    assert (Suspect.WEIGHED_TWICE, date(2026, 8, 26)) in found
    assert (Suspect.NO_TARE, date(2026, 7, 22)) in found
    assert (Suspect.UNUSUAL, date(2026, 5, 23)) in found
    off = next(one for one in suspicious(quillet) if one.suspect is Suspect.SCALE_OFF)
    assert off.words.startswith("The scale was found 3 % high on 2026-06-30: ")
    assert off.day > date(2026, 2, 1)
    assert any(one.words.endswith("Typed 6 lb; 6 kg would be usual.") for one in suspicious(quillet))
    assert len(found) < len(lists.harvests(quillet, date.min, date.max)) / 40
