"""What is shown first is what the row and the round say when each is asked by itself."""

from __future__ import annotations

import pytest

from farmops.exchange.demo import make_demo
from farmops.records.store import Store
from farmops.reports.opening import opening_of
from farmops.reports.round import round_of
from farmops.reports.row import row_of


@pytest.fixture
def demo(tmp_path) -> Store:
    """The invented farm."""
    store = Store(str(tmp_path / "demo.db"))
    make_demo(store)
    return store


def test_row_and_round_from_one_look_are_those_asked_for_apart(demo: Store):
    row, its_round = opening_of(demo)
    assert row.cards[0].due == len(its_round.due) > 0
    assert (row, its_round) == (row_of(demo), round_of(demo))
