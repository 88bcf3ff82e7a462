"""Removing a record: journalled, so that it can be brought back; refused while others belong to it."""

from __future__ import annotations

from farmops.farm import absences
from farmops.farm.operation import Operation, operation
from farmops.model.errors import NotFound
from farmops.model.journal import Removal, Removed
from farmops.model.text import plain
from farmops.records.base import Row
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.chores import ChoreRow, PauseRow, SettlementRow
from farmops.records.costs import (
    CostLabelRow,
    CostRow,
    DriverRow,
    DriverShareRow,
    JointSplitRow,
    LabourRateRow,
    PriceRow,
    RecurringCostRow,
)
from farmops.records.farm import PersonRow
from farmops.records.fish import (
    FeedingRow,
    FishLotRow,
    LossRow,
    LotPlaceRow,
    SampleFishRow,
    SampleWeighingRow,
    TransferRow,
)
from farmops.records.harvests import HarvestRow
from farmops.records.incidents import IncidentRow, IncidentStepRow
from farmops.records.notes import ContactRow, NoteRow
from farmops.records.plantings import CropRow, PlantingRow
from farmops.records.power import DeviceRow, MeterRow, PowerPriceRow
from farmops.records.presence import AbsenceRow, PresenceRow
from farmops.records.readings import ForecastRow, InstrumentCheckRow, InstrumentRow, LimitRow, ReadingRow, UsageRow
from farmops.records.sales import SaleLineRow, SaleRow, StandingOrderRow
from farmops.records.supplies import PaperRow, SupplyLotRow, SupplyRow, SupplyUseRow
from farmops.records.units import UnitRow, UnitStateRow
from farmops.records.water import DoseRow, SourceValueRow, TopUpRow, TreatmentRow, WaterSourceRow

KINDS: dict[str, type[Row]] = {
    "people": PersonRow,
    "units": UnitRow,
    "beds": BedRow,
    "crops": CropRow,
    "plantings": PlantingRow,
    "fish": FishLotRow,
    "samples": SampleWeighingRow,
    "losses": LossRow,
    "transfers": TransferRow,
    "feedings": FeedingRow,
    "harvests": HarvestRow,
    "costs": CostRow,
    "recurring": RecurringCostRow,
    "papers": PaperRow,
    "labels": CostLabelRow,
    "prices": PriceRow,
    "drivers": DriverRow,
    "splits": JointSplitRow,
    "labour rates": LabourRateRow,
    "devices": DeviceRow,
    "meter readings": MeterRow,
    "power prices": PowerPriceRow,
    "supplies": SupplyRow,
    "bought supplies": SupplyLotRow,
    "used supplies": SupplyUseRow,
    "sales": SaleRow,
    "orders": StandingOrderRow,
    "chores": ChoreRow,
    "settlements": SettlementRow,
    "readings": ReadingRow,
    "treatments": TreatmentRow,
    "instruments": InstrumentRow,
    "instrument checks": InstrumentCheckRow,
    "own limits": LimitRow,
    "doses": DoseRow,
    "water sources": WaterSourceRow,
    "source values": SourceValueRow,
    "top-ups": TopUpRow,
    "usage": UsageRow,
    "forecasts": ForecastRow,
    "notes": NoteRow,
    "contacts": ContactRow,
    "absences": AbsenceRow,
    "incidents": IncidentRow,
}
PARTS: dict[type[Row], tuple[type[Row], ...]] = {
    UnitRow: (UnitStateRow, ChoreRow),
    BedRow: (BedSizeRow, ChoreRow),
    FishLotRow: (LotPlaceRow, ChoreRow),
    SampleWeighingRow: (SampleFishRow,),
    ChoreRow: (PauseRow,),
    DriverRow: (DriverShareRow,),
    PersonRow: (PresenceRow,),
    SaleRow: (SaleLineRow,),
    IncidentRow: (IncidentStepRow,),
    InstrumentRow: (InstrumentCheckRow,),
    WaterSourceRow: (SourceValueRow,),
}
FREED: dict[type[Row], tuple[tuple[type[Row], str], ...]] = {
    PersonRow: ((ChoreRow, "person_id"),),
    SettlementRow: ((ReadingRow, "settlement_id"), (FeedingRow, "settlement_id"), (SupplyUseRow, "settlement_id")),
}
"""What stays when a record goes, and the column in which it forgets it."""
ALONG: dict[type[Row], tuple[type[Row], str]] = {
    SupplyLotRow: (CostRow, "cost_id"),
    FeedingRow: (SupplyUseRow, "supply_use_id"),
    DoseRow: (SupplyUseRow, "supply_use_id"),
}
"""What a record names in a column and takes along when it goes: the money paid for it, what it took from a supply."""


@operation("remove")
def remove_record(op: Operation, entry: Removal) -> Removed:
    """Remove a record and what is only a part of it. Refuses when other records belong to it."""
    kind = KINDS.get(entry.kind)
    if kind is None:
        raise NotFound(f"There is nothing called {plain(entry.kind)}. Known: {', '.join(KINDS)}.")
    row = op.get(kind, entry.id)
    if isinstance(row, AbsenceRow):
        absences.take_back(op, row)
    _free(op, row)
    _remove_parts(op, row)
    op.remove(row)
    _remove_along(op, row)
    return Removed(entry.kind, entry.id)


def _free(op: Operation, row: Row) -> None:
    freed = {kind.table_name(): (kind, column) for kind, column in FREED.get(type(row), ())}
    for table, id, _ in op.transaction.pointing_at(row.table_name(), row.id) if freed else ():
        if table in freed:
            kind, column = freed[table]
            op.change(op.get(kind, id), **{column: None})


def _remove_along(op: Operation, row: Row) -> None:
    kind, column = ALONG.get(type(row), (Row, ""))
    named = getattr(row, column, None)
    if named is not None:
        op.remove(op.get(kind, named))


def _remove_parts(op: Operation, row: Row) -> None:
    parts = PARTS.get(type(row), ())
    for part in parts:
        for table, id, _ in op.transaction.pointing_at(row.table_name(), row.id):
            if table == part.table_name():
                found = op.get(part, id)
                _remove_parts(op, found)
                op.remove(found)


def kinds() -> tuple[str, ...]:
    """The words for what can be removed."""
    return tuple(KINDS)
