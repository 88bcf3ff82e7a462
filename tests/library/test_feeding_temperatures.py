"""Where species are fed: stops outside the best range, and only for species whose table tells no temperatures."""

from __future__ import annotations

import pytest

from farmops.library import all_species, tables
from farmops.library.feeding_temperatures import fed_between
from tests.labels import common_practice

KEYS = [row["key"] for row in tables.read("feeding_temperatures.csv")]


@common_practice("the full ration between the best temperatures, less outside of them, none at the stops")
@pytest.mark.parametrize("key", KEYS)
def test_stops_lie_outside_the_best_range(key: str) -> None:
    one = fed_between(key)
    assert one is not None
    assert one.stop_below_c < one.best_low_c < one.best_high_c < one.stop_above_c
    assert one.source
    assert one.standing


def test_it_speaks_of_known_species_whose_own_row_is_silent() -> None:
    silent = {one.key for one in all_species() if one.best_low_c is None}
    assert set(KEYS) == silent
    assert fed_between("nile-tilapia") is None
