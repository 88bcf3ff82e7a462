"""Rows about how costs are shared: what they go to the units by, and how produce and fish split them."""

from __future__ import annotations

from typing import Any

from farmops.facts import costs as cost_facts
from farmops.farm.file_rows.booking import Booking
from farmops.farm.file_rows.days import Standing, once_a_day
from farmops.farm.operation import Operation
from farmops.farm.sharing import set_driver, set_joint_split
from farmops.model.costs import ALL_SHARED, NewDriver, NewJointSplit
from farmops.records.costs import DriverRow, JointSplitRow


def _driven(op: Operation, entry: NewDriver) -> Standing | None:
    category = entry.category.value if entry.category else ALL_SHARED
    for one in cost_facts.drivers(op.reader):
        if (one.category, one.from_day) == (category, entry.from_day):
            same = (one.driver, sorted(one.shares)) == (entry.driver, sorted(entry.shares))
            words = f"shared costs ({one.category}) go by {one.driver} from {one.from_day}"
            return Standing(DriverRow, one.id, same, words)
    return None


def _splitting(op: Operation, entry: NewJointSplit) -> Standing | None:
    for one in cost_facts.joint_splits(op.reader):
        if one.from_day == entry.from_day:
            same = (one.method, one.produce_thousandths) == (entry.method, entry.produce_thousandths)
            words = f"produce and fish split a cost by {one.method} from {one.from_day}"
            return Standing(JointSplitRow, one.id, same, words)
    return None


BOOKINGS: dict[str, Booking[Any]] = {
    "drivers": once_a_day(_driven, set_driver.body),
    "splits": once_a_day(_splitting, set_joint_split.body),
}
