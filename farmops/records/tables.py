"""All tables at once, for whoever needs the whole schema: a store, a migration, an undo."""

from __future__ import annotations

from farmops.records.base import Row, metadata
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.chores import ChoreRow, PauseRow, SettlementRow, TemplateRow
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
from farmops.records.farm import FarmRow, PersonRow
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
from farmops.records.journal import JournalRow
from farmops.records.notes import ContactRow, NoteRow
from farmops.records.plantings import CropRow, PlantingRow
from farmops.records.power import DeviceRow, MeterRow, PowerPriceRow
from farmops.records.presence import AbsenceRow, PresenceRow
from farmops.records.readings import (
    ForecastRow,
    InstrumentCheckRow,
    InstrumentRow,
    LimitRow,
    ReadingRow,
    UsageRow,
)
from farmops.records.sales import SaleLineRow, SaleRow, StandingOrderRow
from farmops.records.supplies import PaperRow, SupplyLotRow, SupplyRow, SupplyUseRow
from farmops.records.units import UnitRow, UnitStateRow
from farmops.records.water import DoseRow, SourceValueRow, TopUpRow, TreatmentRow, WaterSourceRow

ROWS: tuple[type[Row], ...] = (
    FarmRow,
    PersonRow,
    UnitRow,
    UnitStateRow,
    BedRow,
    BedSizeRow,
    CropRow,
    PlantingRow,
    FishLotRow,
    LotPlaceRow,
    HarvestRow,
    RecurringCostRow,
    CostRow,
    PriceRow,
    ChoreRow,
    SettlementRow,
    PauseRow,
    TemplateRow,
    ReadingRow,
    UsageRow,
    ForecastRow,
    NoteRow,
    ContactRow,
    PresenceRow,
    AbsenceRow,
    IncidentRow,
    IncidentStepRow,
    DriverRow,
    DriverShareRow,
    JointSplitRow,
    LabourRateRow,
    CostLabelRow,
    SaleRow,
    SaleLineRow,
    StandingOrderRow,
    SupplyRow,
    SupplyLotRow,
    SupplyUseRow,
    PaperRow,
    DeviceRow,
    MeterRow,
    PowerPriceRow,
    SampleWeighingRow,
    SampleFishRow,
    LossRow,
    TransferRow,
    FeedingRow,
    InstrumentRow,
    InstrumentCheckRow,
    LimitRow,
    DoseRow,
    WaterSourceRow,
    SourceValueRow,
    TopUpRow,
    TreatmentRow,
)
BY_TABLE = {row.table_name(): row for row in ROWS}

__all__ = ["BY_TABLE", "ROWS", "JournalRow", "metadata"]
