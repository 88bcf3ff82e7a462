"""What the tables say of rations: which lots have one, what holds it down, what was fed, and from which supply."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, timedelta

from farmops.facts import feed_supplies, fish_events, rations
from farmops.model.rations import Cap, LotRation
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.chores import ChoreRow, SettlementRow
from farmops.records.fish import FeedingRow, FishLotRow
from farmops.records.readings import ReadingRow
from farmops.records.supplies import SupplyRow, SupplyUseRow
from tests.facts.of_fish import feeding_of, number_on
from tests.facts.tables import DAYS, Answer, Tables, says


@says(rations.rations)
def ration_of_each_lot(rows: Tables) -> Iterator[Answer]:
    read = [row.day for row in rows[ReadingRow]]
    for day in sorted({*DAYS, *read, *(one + timedelta(days=14) for one in read), date(2026, 9, 10)}):
        yield (day,), Rations(rows, day)


class Rations:
    """Rations equal to what can be told of them row by row."""

    def __init__(self, rows: Tables, day: date) -> None:
        self.rows, self.day = rows, day

    def __eq__(self, said: object) -> bool:
        assert isinstance(said, list)
        alive = {row.id for row in self.rows[FishLotRow] if self._alive(row)}
        return {one.lot_id for one in said} == alive and all(self._right(one) for one in said)

    def _alive(self, row: FishLotRow) -> bool:
        open_still = row.closed_day is None or row.closed_day >= self.day
        return row.stocked_day <= self.day and open_still and number_on(self.rows, row, self.day) > 0

    def _right(self, one: LotRation) -> bool:
        place = self.rows.place_on(one.lot_id, self.day)
        fed = sum(row.mass_mg for row in self.rows[FeedingRow] if (row.fish_lot_id, row.day) == (one.lot_id, self.day))
        here = place is not None and place.unit_id == one.unit_id
        return here and one.fed_g == fed / 1000 and (self._unknown(one) if one.grams is None else self._held(one))

    def _warmth(self, unit: int) -> bool:
        first = self.day - timedelta(days=14)
        read = [row for row in self.rows[ReadingRow] if row.unit_id == unit and row.measure == "temperature"]
        return any(first <= row.day <= self.day for row in read)

    def _unknown(self, one: LotRation) -> bool:
        return one.missing is not None and (not self._warmth(one.unit_id) or "not in the tables" in one.missing)

    def _held(self, one: LotRation) -> bool:
        caps = dict(one.caps)
        beds = [row for row in self.rows[BedRow] if row.unit_id == one.unit_id and self._area(row)]
        most = sum(self._area(row) * (100 if row.kind == "raft" else 80) for row in beds)
        tomorrow = [row for row in self.rows[ChoreRow] if row.next_due == self.day + timedelta(days=1)]
        handled = any((row.unit_id, row.template_key) == (one.unit_id, "fish-sample") for row in tomorrow)
        return (
            (self._warmth(one.unit_id) or one.out is not None)
            and one.grams == math.floor(min(caps.values()))
            and (Cap.BEDS in caps) is bool(beds)
            and caps.get(Cap.BEDS, 0) <= most * 1.000001
            and (Cap.HANDLING in caps) is handled
            and (Cap.READING in caps) is (one.out is not None)
        )

    def _area(self, bed: BedRow) -> float:
        sizes = [row for row in self.rows[BedSizeRow] if row.bed_id == bed.id and row.from_day <= self.day]
        return max(sizes, key=lambda row: row.from_day).area_mm2 / 1e6 if sizes else 0.0


@says(feed_supplies.feed_supply)
def feed_of_each_lot(rows: Tables) -> Iterator[Answer]:
    feeds = [row.id for row in rows[SupplyRow] if (row.category, row.held_by) == ("feed", "mass")]
    for lot in rows[FishLotRow]:
        drawn = [row for row in rows[FeedingRow] if row.fish_lot_id == lot.id and row.supply_use_id is not None]
        last = max(drawn, key=lambda row: (row.day, row.id), default=None)
        only = feeds[0] if len(feeds) == 1 else None
        yield (lot.id,), rows.get(SupplyUseRow, last.supply_use_id).supply_id if last else only


@says(fish_events.fed_with)
def fed_with_each_doing(rows: Tables) -> Iterator[Answer]:
    for wanted in ([], [row.id for row in rows[SettlementRow]], [row.id for row in rows[SettlementRow]][-1:]):
        yield (wanted,), [feeding_of(rows, row) for row in rows[FeedingRow] if row.settlement_id in wanted]
