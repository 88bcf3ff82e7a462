"""Until when records are kept; which rule speaks to whom."""

from __future__ import annotations

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta

from farmops.farm.farm import open_farm
from farmops.model.farm import NewFarm
from farmops.quantities import METRIC, US
from farmops.records.store import Store
from farmops.reports.keeping import keeping_of
from tests.farmhand import TODAY
from tests.labels import from_memory
from tests.land import Land


@from_memory("21 CFR 112.164, two years")
def test_the_newest_is_kept_for_its_years_from_its_own_day(laid: Land) -> None:
    found = {one.rule.kind: one for one in keeping_of(laid.store).kinds}
    weighings = found["weighings"]
    assert weighings.number > 0
    assert weighings.oldest is not None
    assert weighings.until is not None
    assert weighings.until - relativedelta(years=2) >= weighings.oldest
    assert weighings.free == TODAY - relativedelta(years=2)


def test_a_leap_day_is_kept_until_the_end_of_february(laid: Land) -> None:
    kinds = keeping_of(laid.store, date(2028, 2, 29)).kinds
    assert {one.free for one in kinds} == {date(2026, 2, 28), date(2025, 2, 28)}


def test_an_empty_farm_keeps_nothing_yet(store: Store) -> None:
    open_farm(store, NewFarm("Bare Hill", US, "America/New_York"), by="Ada")
    assert all((one.number, one.oldest, one.until) == (0, None, None) for one in keeping_of(store).kinds)


def test_above_the_limit_it_says_so(laid: Land, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("farmops.reports.keeping.OUTSIDE_MINOR", 0)
    assert "Above $0.00 (adjusted since) the Produce Safety Rule" in " ".join(keeping_of(laid.store).applies)


def test_elsewhere_other_rules_hold(store: Store) -> None:
    open_farm(store, NewFarm("Alm", METRIC, "Europe/Zurich"), by="Ada")
    assert "elsewhere others hold" in " ".join(keeping_of(store).applies)


def test_it_is_said_when_the_rule_does_not_speak_to_the_farm(laid: Land) -> None:
    assert "lies outside the Produce Safety Rule" in " ".join(keeping_of(laid.store).applies)
