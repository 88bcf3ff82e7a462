"""Files about treatments against pests and diseases, with the holds that their labels ask for."""

from __future__ import annotations

from farmops.exchange.cells import Cells, RowRefusedError
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, PLACES, TIME, Kind, Take, each
from farmops.model.treatments import NewTreatment

SAY_WHERE = "say which unit, bed or fish lot was treated"
SAY_WHEN = "no time; say at what time of day it was done, since people may go in again by it"
SAY_HARVEST = "no harvest; say how many days the label holds the harvest, 0 if it names none"


def _treatment(cells: Cells, take: Take) -> NewTreatment:
    place = take.names.somewhere(cells)
    if not place:
        raise RowRefusedError("for", SAY_WHERE)
    return NewTreatment(
        cells.day(),
        _minute(cells),
        cells.name("product"),
        cells.name("amount"),
        _days(cells, "re-entry", "no re-entry; say after how many hours people may go in again"),
        _days(cells, "harvest", SAY_HARVEST) if "fish_lot_id" not in place else cells.whole("harvest") or 0,
        cells.whole("fish"),
        active=cells.note("active"),
        registration=cells.note("registration"),
        against=cells.note("against"),
        actor=None if cells.empty("who") else cells.name("who"),
        note=cells.note(),
        sure=take.sure,
        **place,
    )


def _minute(cells: Cells) -> int:
    minute = cells.minute()
    if minute is None:
        raise RowRefusedError("time", SAY_WHEN)
    return minute


def _days(cells: Cells, column: str, lacking: str) -> int:
    days = cells.whole(column)
    if days is None:
        raise RowRefusedError(column, lacking)
    return days


TREATED = (
    DATE,
    TIME,
    *PLACES,
    Column("product", needed=True, also=("treatment", "what")),
    Column("amount", needed=True, also=("dose", "how much", "amount typed")),
    Column("re-entry", needed=True, also=("reentry", "re-entry hours", "reentry hours", "re-entry (h)")),
    Column("harvest", also=("harvest days", "days to harvest", "harvest (days)")),
    Column("fish", also=("fish days", "fish (days)")),
    Column("against", also=("pest", "disease")),
    Column("active", also=("active ingredient",)),
    Column("registration", also=("registration number",)),
    Column("who", also=("by", "done by", "actor")),
    NOTE,
)
KINDS = (Kind("treatments", TREATED, each(_treatment)),)
