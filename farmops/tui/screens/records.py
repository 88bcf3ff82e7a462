"""Records: everything that was booked, kind by kind, and the journal."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from farmops.model.absences import Absence
from farmops.model.errors import Refused
from farmops.model.harvests import Harvest
from farmops.model.units import Unit
from farmops.reports.store import Store
from farmops.tui.actions import Action, bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.screens.record_kinds import KINDS, OTHERS, Kind
from farmops.tui.widgets.label_lines import LabelYears
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Line, Made

FOLLOWS = {
    "conditions": "What holds follows from readings, plantings and papers: nothing is entered here.",
    "keeping": "How long records are kept is told by rules: nothing is entered here.",
}
"""Lists that nothing is entered in, and where they come from."""


class RecordsPlace(ListedPlace):
    """One kind at a time; , and . go through the kinds."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("records"),
        Binding("comma", "kind(-1)", "The kind before", show=False),
        Binding("full_stop", "kind(1)", "The next kind", show=False),
    ]
    DEFAULT_CSS = "RecordsPlace { & > #kinds { height: 1; padding: 0 1; color: $text-muted; } }"
    name_of_place = "records"
    title = "Records"

    def __init__(self, **arguments: Any) -> None:
        super().__init__(**arguments)
        self.kind = KINDS[0]

    def compose(self) -> ComposeResult:
        """The kinds and the list."""
        yield Static(id="kinds", markup=False)
        yield Listing()

    def offers(self, action: Action) -> bool:
        """Lots are followed from weighings alone."""
        return action.id != "trace" or self.kind.name == "harvests"

    def reload(self) -> None:
        """Read the kind that is open."""
        self.query_one("#kinds", Static).update(self._kinds_words())
        self.frame.show_keys()
        if self.today is not None:
            read = partial(_read, kind=self.kind, today=self.today, unit=self.unit)
            self.work(read, partial(self._show, self.kind))

    def on_resize(self) -> None:
        """As many kinds as fit."""
        self.query_one("#kinds", Static).update(self._kinds_words())

    def _kinds_words(self) -> str:
        return kinds_words([one.title for one in KINDS], KINDS.index(self.kind), self.size.width - 2)

    def _show(self, kind: Kind, found: list[Any]) -> None:
        """What was read of a kind, unless another is open by now."""
        if self.farm is not None and kind is self.kind:
            measures = self.farm.measures
            self.show(kind.columns, Made(found, lambda one: kind.line(one, measures)), kind.empty)

    @property
    def file_title(self) -> str:
        """The kind that is open."""
        return f"{self.kind.title} {self.unit}" if self.unit else self.kind.title

    def action_trace(self) -> None:
        """The lot of the weighing under the cursor, from seed or fingerling to the buyer."""
        from farmops.tui.screens.lot_trace import LotTrace

        line = self.listing.current
        if line is None or not isinstance(line.data, Harvest):
            self.refuse("Put the cursor on a weighing first: its lot is followed.")
        else:
            self.app.push_screen(LotTrace(line.data.lot_code))

    def action_kind(self, steps: int) -> None:
        """Another kind of record."""
        self._open_kind(KINDS[(KINDS.index(self.kind) + steps) % len(KINDS)])
        self.reload()

    def _open_kind(self, kind: Kind) -> None:
        """Lines of the kind before are gone at once, so that none is taken for one of its own."""
        if kind is not self.kind:
            self.kind = kind
            self.listing.show(kind.columns, [], empty="")

    def action_new(self) -> None:
        """A new record of this kind."""
        if self.kind.name == "harvests":
            self.frame.action_weigh()
        elif self.kind.name == "journal":
            self.refuse("The journal writes itself.")
        elif self.kind.name in FOLLOWS:
            self.refuse(FOLLOWS[self.kind.name])
        elif self.kind.name == "instrument checks":
            self.refuse("A check is booked with k, on the line of an instrument in Fish & water.")
        elif self.kind.name == "incidents":
            self.app.action_power_cut()  # type: ignore[attr-defined]
        elif self.kind.name == "templates":
            self.refuse("A template is changed, not added: e. A chore of your own: All chores, then n.")
        elif self.kind.name == "backups":
            self.open_form("kept", "make")
        elif self.kind.name == "findings":
            self._repair()
        elif self.kind.name in ("bought supplies", "used supplies"):
            self.refuse("In Money, on the line of a supply: + what was bought, - what was used, = what is left.")
        else:
            self.open_form("new", self.kind.name)

    def action_like(self) -> None:
        """A new record like the one under the cursor; like a weighing is the next one."""
        if self.kind.name == "harvests":
            self.frame.action_weigh()
        else:
            super().action_like()

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter on a source says what it is like from a day on; on others it edits."""
        if self.kind.name == "water sources":
            message.stop()
            message.prevent_default()
            self.open_form("edit", "source values", message.line.data)

    def action_edit(self) -> None:
        """Edit the record under the cursor; the journal only tells."""
        line = self.listing.current
        if self.kind.name == "journal":
            self.refuse("The journal is not edited. u takes back what you booked last.")
        elif self.kind.name == "labels":
            self.refuse("A label is changed by loading its set again: n. On a cost it stands in the cost's form.")
        elif self.kind.name == "findings":
            self.refuse(f"{_whole(line)} n puts right what needs no decision; all else, where it was booked.".strip())
        elif self.kind.name == "backups" and line is not None:
            self.open_form("kept", "put back", line.data)
        elif self.kind.name in FOLLOWS and line is not None:
            self.say(_whole(line))
        else:
            super().action_edit()

    def action_remove(self) -> None:
        """Remove the record under the cursor; a template is dropped by its form."""
        if self.kind.name == "templates":
            self.refuse("A template is dropped by its form: e, then It gives: no chore.")
        else:
            super().action_remove()

    def _repair(self) -> None:
        """Put right what needs no decision."""
        by = self.app.by  # type: ignore[attr-defined]

        def change(store: Store) -> str:
            from farmops.exchange.checking import check
            from farmops.farm.soundness import repair
            from farmops.model.journal import Through
            from farmops.model.soundness import Repair, repaired_in_words

            if not check(store, only_damage=True).can_be_mended:
                raise Refused(
                    "Nothing here can be put right without a decision. The list before this holds the backups."
                )
            return repaired_in_words(repair(store, Repair(), by=by, through=Through.SCREEN))

        self.work(change, self.changed, group="write")

    def action_take_in(self) -> None:
        """A file of records of the kind that is open, or of another."""
        self.open_form("kept", "take in", self.kind.name)

    def action_renew(self) -> None:
        """The paper that follows the one under the cursor."""
        line = self.listing.current
        if line is None or self.kind.name != "papers":
            self.refuse("Stand on a paper to renew it. The keys , and . go there.")
        else:
            self.open_form("edit", "renew", line.data)

    def action_paper(self) -> None:
        """The wall card of the unit under the cursor, or the care sheet of the absence."""
        record = self.listing.current.data if self.listing.current else None
        if isinstance(record, Unit):
            self.open_form("file", "card", record)
        elif isinstance(record, Absence):
            self.open_form("file", "care", record)
        else:
            self.refuse("Stand on a unit for its wall card, on an absence for its care sheet. Keys , and . go there.")

    def look_for(self, kind: str, id: int) -> None:
        """Open the kind first."""
        self._open_kind(next(one for one in KINDS if one.name == kind))
        super().look_for(kind, id)

    def behind(self, line: Line) -> object:
        """Under a label stands what was paid in its years."""
        return line.data.now.label if isinstance(line.data, LabelYears) else super().behind(line)

    def kind_of(self, line: Line) -> str:
        """The kind that is open."""
        return self.kind.name


def _whole(line: Line | None) -> str:
    """All a line says, none of it cut."""
    return " · ".join(str(cell) for cell in line.cells if cell) if line else ""


def kinds_words(titles: Sequence[str], chosen: int, room: int) -> str:
    """The kinds on one line, as many around the chosen one as there is room for."""
    names = [f"[{title}]" if at == chosen else title for at, title in enumerate(titles)]
    first, end = 0, chosen + 1
    while first < chosen and len(_between(names, first, end)) > room:
        first += 1
    while end < len(names) and len(_between(names, first, end + 1)) <= room:
        end += 1
    return _between(names, first, end)


def _between(names: Sequence[str], first: int, end: int) -> str:
    more_before, more_after = ["…"] if first else [], ["…"] if end < len(names) else []
    return "  ".join([*more_before, *names[first:end], *more_after, OTHERS])


def _read(store: Store, *, kind: Kind, today: date, unit: str | None) -> list[Any]:
    return kind.read(store, today, unit)
