"""Lines for how costs are shared: drivers, splits and rates, each with the day from which it holds."""

from __future__ import annotations

from collections.abc import Mapping

from farmops.model.costs import ALL_SHARED, DriverFrom, JointSplit, LabourRate
from farmops.quantities import Measures, show_money
from farmops.reports.lists import SharingSet
from farmops.tui.widgets.listing_lines import Heading, Line


def sharing_lines(found: SharingSet, codes: Mapping[int, str], measures: Measures) -> list[Line | Heading]:
    """All of them under their heading; nothing where nothing is set."""
    lines: list[Line | Heading] = [driver_line(one, codes) for one in found.drivers]
    lines += [split_line(one) for one in found.splits]
    lines += [rate_line(one, measures) for one in found.rates]
    return [Heading("How costs are shared, from which day on"), *lines] if lines else []


def driver_line(one: DriverFrom, codes: Mapping[int, str]) -> Line:
    """What shared costs of a category go by."""
    shares = ", ".join(f"{codes.get(id, '')} {parts}" for id, parts in one.shares)
    what = "shared costs" if one.category == ALL_SHARED else f"shared costs of {one.category}"
    by = f"{one.driver} ({shares})" if shares else one.driver.value
    return Line(f"drivers {one.id}", (str(one.from_day), f"{what}: by {by}", "", "", "driver", ""), data=one)


def split_line(one: JointSplit) -> Line:
    """How produce and fish split a cost."""
    share = "" if one.produce_thousandths is None else f" ({one.produce_thousandths / 10:g} % produce)"
    words = f"produce and fish: by {one.method}{share}"
    return Line(f"splits {one.id}", (str(one.from_day), words, "", "", "split", ""), data=one)


def rate_line(one: LabourRate, measures: Measures) -> Line:
    """What an hour is worth."""
    words = f"an hour of {one.person or 'everybody'}"
    amount = show_money(one.rate_minor, measures)
    return Line(f"labour rates {one.id}", (str(one.from_day), words, "", amount, "labour", ""), data=one)
