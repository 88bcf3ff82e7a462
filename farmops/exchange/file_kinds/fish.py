"""Files about fish: feedings, sample weighings and losses."""

from __future__ import annotations

from farmops.exchange.cells import Cells
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, LOT, NOTE, Kind, Take, counted, each
from farmops.exchange.harvest_tables import mass_unit
from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.fish_events import NewFeeding, NewLoss, NewSample


def _feeding(cells: Cells, take: Take) -> NewFeeding:
    ate = None if cells.empty("ate") else cells.word("ate", Ate, Ate.ALL)
    return NewFeeding(take.names.lot(cells).id, cells.day(), cells.mass("feed"), ate, cells.note(), sure=take.sure)


def _sample(cells: Cells, take: Take) -> NewSample:
    number = counted(cells, "number")
    return NewSample(take.names.lot(cells).id, cells.day(), number, cells.mass("weight"), note=cells.note())


def _loss(cells: Cells, take: Take) -> NewLoss:
    return NewLoss(
        take.names.lot(cells).id,
        cells.day(),
        counted(cells, "number"),
        cells.word("cause", LossCause, LossCause.UNKNOWN),
        None if cells.empty("disposal") else cells.word("disposal", Disposal, Disposal.OTHER),
        None if cells.empty("weight") else cells.mass("weight"),
        cells.note(),
    )


FED = (
    DATE,
    LOT,
    Column("feed", needed=True, also=("weight", "amount", "fed", "mass"), unit_of=mass_unit),
    Column("ate", also=("eaten",)),
    NOTE,
)
WEIGHED = (
    DATE,
    LOT,
    Column("number", needed=True, also=("count",)),
    Column("weight", needed=True, also=("mass",), unit_of=mass_unit),
    NOTE,
)
LOST = (
    DATE,
    LOT,
    Column("number", needed=True, also=("count", "dead", "died")),
    Column("cause"),
    Column("disposal"),
    Column("weight", also=("mass",), unit_of=mass_unit),
    NOTE,
)
KINDS = (
    Kind("feedings", FED, each(_feeding)),
    Kind("samples", WEIGHED, each(_sample)),
    Kind("losses", LOST, each(_loss)),
)
