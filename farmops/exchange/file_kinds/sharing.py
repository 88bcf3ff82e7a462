"""Files about how costs are shared: what they go to the units by, and how produce and fish split them."""

from __future__ import annotations

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import BY_NUMBER, Column
from farmops.exchange.file_kinds.kind import BEGINS, Kind, Take, each
from farmops.exchange.tables_beside import Gathered
from farmops.farm.file_rows.days import OfDay
from farmops.model.costs import ALL_SHARED, Category, Driver, JointMethod, NewDriver, NewJointSplit
from farmops.model.errors import NotUnderstood
from farmops.quantities.shares import parse_parts, parse_produce_share

THOUSANDTHS, PERCENT = "thousandths", "%"
SHARES_BY_NUMBER = "shares by unit number"


def _driver(cells: Cells, take: Take) -> OfDay[NewDriver]:
    if cells.empty("driver"):
        raise RowRefusedError("driver", f"no driver; understood: {', '.join(Driver)}")
    driver = cells.word("driver", Driver, Driver.EQUAL)
    for_all = cells.text("category").lower() == ALL_SHARED
    category = None if for_all else cells.chosen("category", Category)
    return OfDay(NewDriver(cells.day("from"), driver, category, _shares(cells, take)), take.sure)


def _shares(cells: Cells, take: Take) -> tuple[tuple[int, int], ...]:
    if cells.empty("shares"):
        return ()
    numbered = cells.customs.units.get("shares") == BY_NUMBER
    with in_column("shares"):
        parted = [parse_parts(one) for one in cells.text("shares").split()]
    return tuple((take.names.unit_called(code, "shares", numbered=numbered), parts) for code, parts in parted)


def _split(cells: Cells, take: Take) -> OfDay[NewJointSplit]:
    if cells.empty("method"):
        raise RowRefusedError("method", f"no method; understood: {', '.join(JointMethod)}")
    method = cells.word("method", JointMethod, JointMethod.WEIGHT)
    return OfDay(NewJointSplit(cells.day("from"), method, _produce(cells)), take.sure)


def _produce(cells: Cells) -> int | None:
    if cells.empty("produce"):
        return None
    if cells.customs.units.get("produce") == THOUSANDTHS:
        return cells.whole("produce")
    with in_column("produce"):
        return parse_produce_share(cells.numbers("produce"))


def _share_unit(text: str) -> str:
    if text not in (THOUSANDTHS, PERCENT):
        raise NotUnderstood(f"{text!r} is no unit of a share. Understood: {PERCENT}, {THOUSANDTHS}.")
    return text


DRIVERS = (
    BEGINS,
    Column("driver", needed=True, also=("by", "go by")),
    Column("category", also=("for", "costs")),
    Column("shares", also=("fixed shares",), numbered=(SHARES_BY_NUMBER,)),
)
SPLITS = (
    BEGINS,
    Column("method", needed=True, also=("by", "split by")),
    Column("produce", also=("produce bears",), unit_of=_share_unit),
)
SHARED_BY = Gathered(SHARES_BY_NUMBER, "driver_share.csv", "driver_id", "unit_id", "parts")
KINDS = (
    Kind("drivers", DRIVERS, each(_driver), gathered=SHARED_BY),
    Kind("splits", SPLITS, each(_split)),
)
