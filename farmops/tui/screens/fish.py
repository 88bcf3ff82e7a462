"""Fish & water: the lots that live in the row."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType

from farmops.model.fish import FishLot
from farmops.quantities import MASS, Measures
from farmops.reports import lists
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.widgets.listing_lines import Column, Heading, Line

COLUMNS = (
    Column("unit", "unit"),
    Column("lot", "lot"),
    Column("species", "species", grow=True),
    Column("number", "stocked", align="right"),
    Column("mean", "mean weight", align="right", priority=1),
    Column("since", "since", priority=2),
    Column("note", "note", priority=3),
)


class FishPlace(ListedPlace):
    """Lots in walking order, the closed ones below."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("fish")]
    name_of_place = "fish"
    title = "Fish & water"
    new_kind = "fish"

    def reload(self) -> None:
        """Read the lots."""
        self.work(lists.fish_lots, self._show)

    def _show(self, found: Sequence[FishLot]) -> None:
        if self.farm is None:
            return
        here = [one for one in found if self.unit in (None, one.unit)]
        measures = self.farm.measures
        items: list[Line | Heading] = []
        for head, lots in (
            ("Living here", [one for one in here if one.closed_day is None]),
            ("Closed", [one for one in here if one.closed_day is not None]),
        ):
            if lots:
                items.append(Heading(head))
                items += [lot_line(one, measures) for one in lots]
        self.show(COLUMNS, items, "No fish here. n stocks a lot; check local fish law first.")

    def action_close_lot(self) -> None:
        """No fish are left of the lot under the cursor."""
        self._form_on_line("close")

    def open_form(self, how: str, kind: str, record: object = None) -> None:
        """Closing is an edit of its own."""
        if how == "close":
            super().open_form("edit", "close", record)
        else:
            super().open_form(how, kind, record)


def lot_line(one: FishLot, measures: Measures) -> Line:
    """A lot as a line."""
    cells = (
        one.unit,
        one.code,
        one.species,
        str(one.number),
        MASS.show(one.mean_mg, measures),
        str(one.stocked_day),
        one.note or "",
    )
    return Line(f"fish {one.id}", cells, look="quiet" if one.closed_day else "normal", data=one)
