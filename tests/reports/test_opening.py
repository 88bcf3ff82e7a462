"""What is shown first is what the row and the round say when each is asked by itself."""

from __future__ import annotations

from farmops.records.store import Store
from farmops.reports.opening import opening_of
from farmops.reports.round import round_of
from farmops.reports.row import row_of


def test_row_and_round_from_one_look_are_those_asked_for_apart(invented: Store):
    row, its_round = opening_of(invented)
    assert row.cards[0].due == len(its_round.due) > 0
    assert (row, its_round) == (row_of(invented), round_of(invented))
