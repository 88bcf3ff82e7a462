"""Files about incidents: when the power went and when everything was seen running again."""

from __future__ import annotations

from farmops.exchange.cells import Cells, RowRefusedError
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import NOTE, Kind, Take, each
from farmops.farm.file_rows.incidents import IncidentSaid
from farmops.model.incidents import IncidentKind


def _incident(cells: Cells, _: Take) -> IncidentSaid:
    began = cells.instant("began")
    if began is None:
        raise RowRefusedError("began", "no began; say the day and the hour")
    return IncidentSaid(
        began,
        cells.instant("ended"),
        cells.chosen("kind", IncidentKind) or IncidentKind.POWER_CUT,
        cells.yes("all-running") or False,
        cells.note(),
    )


INCIDENTS = (
    Column("began", needed=True, also=("began at", "from", "start")),
    Column("ended", also=("ended at", "until", "end")),
    Column("kind", also=("what",)),
    Column("all-running", also=("all running",)),
    NOTE,
)
KINDS = (Kind("incidents", INCIDENTS, each(_incident)),)
