"""Where the rows of each table are: a booking loads the tables it writes and those they point to, not all there are."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib import import_module

from sqlalchemy import Table

from farmops.records.base import Row

HOMES = {
    "farm": "farm:FarmRow",
    "person": "farm:PersonRow",
    "unit": "units:UnitRow",
    "unit_state": "units:UnitStateRow",
    "bed": "beds:BedRow",
    "bed_size": "beds:BedSizeRow",
    "crop": "plantings:CropRow",
    "planting": "plantings:PlantingRow",
    "fish_lot": "fish:FishLotRow",
    "lot_place": "fish:LotPlaceRow",
    "harvest": "harvests:HarvestRow",
    "recurring_cost": "costs:RecurringCostRow",
    "cost": "costs:CostRow",
    "price": "costs:PriceRow",
    "chore": "chores:ChoreRow",
    "settlement": "chores:SettlementRow",
    "chore_pause": "chores:PauseRow",
    "chore_template": "chores:TemplateRow",
    "reading": "readings:ReadingRow",
    "usage": "readings:UsageRow",
    "forecast": "readings:ForecastRow",
    "note": "notes:NoteRow",
    "contact": "notes:ContactRow",
    "presence": "presence:PresenceRow",
    "absence": "presence:AbsenceRow",
    "incident": "incidents:IncidentRow",
    "incident_step": "incidents:IncidentStepRow",
    "driver": "costs:DriverRow",
    "driver_share": "costs:DriverShareRow",
    "joint_split": "costs:JointSplitRow",
    "labour_rate": "costs:LabourRateRow",
    "cost_label": "costs:CostLabelRow",
    "sale": "sales:SaleRow",
    "sale_line": "sales:SaleLineRow",
    "standing_order": "sales:StandingOrderRow",
    "supply": "supplies:SupplyRow",
    "supply_lot": "supplies:SupplyLotRow",
    "supply_use": "supplies:SupplyUseRow",
    "paper": "supplies:PaperRow",
    "device": "power:DeviceRow",
    "meter": "power:MeterRow",
    "power_price": "power:PowerPriceRow",
    "sample_weighing": "fish:SampleWeighingRow",
    "sample_fish": "fish:SampleFishRow",
    "loss": "fish:LossRow",
    "transfer": "fish:TransferRow",
    "feeding": "fish:FeedingRow",
    "instrument": "readings:InstrumentRow",
    "instrument_check": "readings:InstrumentCheckRow",
    "own_limit": "readings:LimitRow",
    "dose": "water:DoseRow",
    "water_source": "water:WaterSourceRow",
    "source_value": "water:SourceValueRow",
    "top_up": "water:TopUpRow",
    "treatment": "water:TreatmentRow",
}
"""Each table: the module that holds it and the class of its rows, those that others point to first."""


@cache
def row_of(table: str) -> type[Row]:
    """The class of a table's rows."""
    module, _, name = HOMES[table].partition(":")
    kind: type[Row] = getattr(import_module(f"farmops.records.{module}"), name)
    return kind


def load_linked(kinds: Iterable[type]) -> None:
    """Load the tables that some classes of rows point to, without which SQLAlchemy cannot write one."""
    for kind in kinds:
        _load_linked(kind)


@cache
def _load_linked(kind: type) -> None:
    table: Table = kind.__table__  # type: ignore[attr-defined]
    for key in table.foreign_keys:
        row_of(key.target_fullname.partition(".")[0])
