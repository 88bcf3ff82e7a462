"""What chores follow from, on the screen: why they stand on the round, and the lists they come from in Records."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.farm.chores import add_chore
from farmops.model.chores import NewChore
from farmops.model.errors import FarmopsError
from farmops.quantities import METRIC, US
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.round import round_of
from farmops.tui.forms.chores import read_rule, rule_told
from farmops.tui.screens.record_kinds import KINDS
from farmops.tui.widgets.fields import Setting
from farmops.tui.widgets.round_lines import details, lines_of
from tests.tui.demo import go_to, listing_of, press, running, until_seen
from tests.tui.stage import TODAY

TITLES = [kind.title for kind in KINDS]


def told(store: Store, title: str) -> str:
    """The details of the first line of the round that begins like this."""
    line = next(one for one in lines_of(round_of(store)) if title in " ".join(getattr(one, "cells", ())))
    return str(details(line.data))  # type: ignore[union-attr]


def test_the_details_say_why_below_the_caution(demo_store: Store) -> None:
    said = told(demo_store, "Ten siphon cycles").splitlines()
    assert said[0].startswith("Ten siphon cycles: the baseline · when a unit has no baseline yet")
    assert said[1].startswith("! ")
    assert said[2] == "SISKIN with 3 of 10 fill times read since Mon 21 Sep, until the tenth fill time"
    picking = told(demo_store, "Pick what is ready").splitlines()
    assert picking[1].startswith("! ")
    assert picking[2].startswith("WREN-N: CHARD ready; ROOK-N: MINT ready; ")
    assert picking[2].endswith(", until a weighing from it, or clearing")


def test_what_holds_is_told_in_whole_sentences(demo_store: Store) -> None:
    kind = next(one for one in KINDS if one.title == "What holds")
    cells = [kind.line(one, US).cells for one in kind.read(demo_store, TODAY, None)]
    slower = next(one for one in cells if one[0] == "filling slower")
    assert "would explain it. Until a reading as usual again" in str(slower[3])
    assert str(slower[3]).endswith("was changed.")


async def test_a_chore_that_waits_for_a_record_of_use_stands_at_the_end_of_the_round(
    demo_place: str, demo_store: Store
) -> None:
    unit = next(line.unit for line in lists.units(demo_store) if line.unit.code == "SISKIN")
    add_chore(demo_store, NewChore("Empty the bin", "5 kg fed", TODAY, unit_id=unit.id), by="Maren")
    async with running(demo_place) as pilot:
        await press(pilot, "end")
        await until_seen(pilot, "No day", "Empty the bin · no feed booked yet", "Book it in Records, Use: n.")
        await press(pilot, "space")
        await until_seen(pilot, "There is no chore under the cursor that is still to do.")


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("Use", ("2026-10-11", "168 pump hours")),
        ("Forecasts", ("Fri 2026-10-16", "1.5 °C", "clear night")),
        ("What holds", ("planting ready", "WREN-N", "CHARD ready, until a weighing", "heat to come", "not now")),
    ],
)
async def test_records_list_what_chores_follow_from(demo_place: str, kind: str, words: tuple[str, ...]) -> None:
    async with running(demo_place, size=(120, 40)) as pilot:
        await go_to(pilot, "records")
        await press(pilot, *["comma"] * (len(TITLES) - TITLES.index(kind)))
        await until_seen(pilot, f"[{kind}]", *words)
        await press(pilot, "5")
        await until_seen(pilot, f"[{kind}]", "┏ 5 ━")
        assert "WREN" not in listing_of(pilot.app).as_text("table")


SETTING = Setting(US, date(2026, 10, 14))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2000 pump hours or 6 months", "every 2000 pump hours or 6 months: it is due by what is booked as used"),
        ("3 fed", "every 3 lb fed: it is due by what is booked as used"),
        ("when frost to come", "when frost to come: it is due while that holds"),
        ("14 days after", "14 days after doing: Wed 14 Oct, Wed 28 Oct, Wed 11 Nov"),
    ],
)
def test_the_form_says_what_a_rule_means_and_why_no_days_can_be_told(text: str, said: str) -> None:
    assert rule_told(read_rule(text, SETTING), SETTING) == said


@pytest.mark.parametrize("text", ["when planting raedy", "0 pump hours", "when", "3 ft fed"])
def test_the_form_refuses_a_rule_that_cannot_be_before_it_is_booked(text: str) -> None:
    with pytest.raises(FarmopsError):
        read_rule(text, SETTING)


def test_the_form_takes_weights_in_the_farms_measures() -> None:
    assert read_rule("3 fed", Setting(METRIC, date(2026, 10, 14))).words == "every 3 kg fed"
