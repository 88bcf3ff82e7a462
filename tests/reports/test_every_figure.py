"""Every figure of every report opens into parts and records that add up, on a varied farm and on any other."""

from __future__ import annotations

from datetime import date

from hypothesis import HealthCheck, given, settings

from farmops.records.store import Store
from farmops.reports.returns import Asked
from tests.every_figure import every_figure, that_do_not_add_up
from tests.farmhand import TODAY, emptied
from tests.farms import LAST, Script, carry_out, scripts
from tests.land import Land
from tests.profiles import count

FIRST = date(2026, 1, 1)


def test_every_level_adds_up_down_to_the_records_and_what_is_missing_says_why(laid: Land) -> None:
    found = dict(every_figure(laid.store, Asked(TODAY, FIRST, TODAY)))
    parts = [(where, part) for where, figure in found.items() for part in figure.walk()]
    assert [f"{where}: {part.name}" for where, part in parts if not part.adds_up()] == []
    assert [f"{where}: {part.name}" for where, part in parts if part.value is None and not part.reason] == []
    assert len([one for one in found.values() if one.value is not None]) > 100
    assert {"costs", "harvests"} <= {part.records.kind for _, part in parts if part.records is not None}


@settings(
    max_examples=count(ci=3, full=200),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(script=scripts())
def test_every_level_adds_up_on_any_farm(sqlite_store: Store, script: Script) -> None:
    carry_out(emptied(sqlite_store), script)
    assert that_do_not_add_up(sqlite_store, Asked(LAST, FIRST, LAST)) == []
