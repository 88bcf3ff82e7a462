"""What the Chores place shows beside the round: who is here, whose round it is, how chores went, what is to come."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from farmops.model.farm import Person
from farmops.reports.round import Round, RoundLine, SettledLine
from farmops.tui.screens.listed import ListedPlace


class ChoreGlances(ListedPlace):
    """The actions that look at more than one day, one person or one chore."""

    round: Round | None
    whose: Person | None

    def action_here(self) -> None:
        """Say who is here on the day of the round."""
        if self.round is not None:
            self.open_form("edit", "here", self.round.crew)

    def action_whose(self) -> None:
        """One person's round, or everybody's."""
        from farmops.tui.screens.choose import Choose

        if self.round is None or not self.round.crew.members:
            self.refuse("Nobody is listed yet. F7 Records, then n among the people: say who works here.")
            return
        people = [one.person for one in self.round.crew.members][:9]
        answers = {"0": "everybody", **{str(at): one.name for at, one in enumerate(people, start=1)}}
        self.app.push_screen(Choose("Whose round?", answers), partial(self._of, people))

    def _of(self, people: Sequence[Person], chosen: str | None) -> None:
        if chosen is not None:
            self.whose = people[int(chosen) - 1] if chosen != "0" else None
            self.reload()

    def action_past(self) -> None:
        """How the chore under the cursor went."""
        from farmops.tui.screens.chore_past import ChorePast

        data = self.listing.current.data if self.listing.current else None
        one = data.chore.id if isinstance(data, RoundLine | SettledLine) else None
        self.app.push_screen(ChorePast(self.unit, one))

    def action_all_past(self) -> None:
        """How all chores went."""
        from farmops.tui.screens.chore_past import ChorePast

        self.app.push_screen(ChorePast(self.unit))

    def action_load(self) -> None:
        """The minutes of the days ahead."""
        from farmops.tui.screens.load import LoadAhead

        self.app.push_screen(LoadAhead(self.unit, self.whose))

    def action_month(self) -> None:
        """A month at a glance."""
        from farmops.tui.screens.month import MonthGlance

        self.app.push_screen(MonthGlance(self.unit))
