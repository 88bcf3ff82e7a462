"""Results go into the journal as JSON and come back as what they were."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Settlement
from farmops.model.codec import from_plain, to_plain
from farmops.model.farm import Farm
from farmops.model.fish import FishLot
from farmops.model.harvests import Harvest
from farmops.model.journal import JournalLine
from farmops.model.plantings import Planting
from farmops.model.units import StateFrom, Unit, UnitState
from farmops.quantities import METRIC, US

MADE = {Farm: st.builds(Farm, measures=st.sampled_from((US, METRIC)))}
MODELS = (Farm, FishLot, Harvest, JournalLine, Planting, Settlement, StateFrom, Unit)


@dataclass(frozen=True)
class Nested:
    """One of everything that a result may hold."""

    states: tuple[StateFrom, ...]
    days: list[date]
    by_name: dict[str, UnitState]
    maybe: Unit | None
    anything: Any


@pytest.mark.parametrize("kind", MODELS)
@given(data=st.data())
def test_a_model_comes_back_from_json_as_it_was(kind: type, data: st.DataObject):
    value = data.draw(MADE.get(kind, st.from_type(kind)).filter(_has_json))
    assert from_plain(kind, json.loads(json.dumps(to_plain(value)))) == value


def _has_json(value: Any) -> bool:
    return "\\ud" not in json.dumps(to_plain(value)).lower()


def test_nested_values_come_back():
    state = StateFrom(date(2026, 5, 1), UnitState.RUNNING)
    value = Nested((state, state), [date(2026, 1, 1)], {"WREN": UnitState.RESTING}, None, {"free": [1, None]})
    assert from_plain(Nested, json.loads(json.dumps(to_plain(value)))) == value
    assert to_plain(value)["states"][0] == {"from_day": "2026-05-01", "state": "running"}


def test_instants_keep_their_zone():
    at = datetime(2026, 10, 14, 16, 0, 0, 123456, tzinfo=UTC)
    assert to_plain(at) == "2026-10-14T16:00:00.123456+00:00"
    assert from_plain(datetime, to_plain(at)) == at


def test_a_word_that_is_no_longer_known_is_not_passed_on():
    with pytest.raises(ValueError, match="flying"):
        from_plain(StateFrom, {"from_day": "2026-05-01", "state": "flying"})
