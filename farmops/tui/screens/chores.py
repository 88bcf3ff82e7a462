"""Chores: the round of the day, settled key by key."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content

from farmops.model.chores import Chore, SettledAs, Settling
from farmops.model.ids import new_id
from farmops.model.text import plain
from farmops.reports.round import Round, RoundLine, SettledLine, round_of
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.screens.place import Changed
from farmops.tui.widgets.details import Details
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line

COLUMNS = (
    Column("where", ""),
    Column("chore", "", grow=True),
    Column("class", "", priority=2),
    Column("late", ""),
    Column("minutes", "", align="right", priority=1),
)
CALM = "Nothing is due. A calm day."


class ChoresPlace(ListedPlace):
    """The round, with what the chore under the cursor asks for below it."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("chores")]
    DEFAULT_CSS = """
    ChoresPlace {
        & > #details {
            height: auto; max-height: 34%; padding: 0 1; border-top: solid $foreground 40%; color: $foreground;
        }
    }
    """
    name_of_place = "chores"
    title = "Chores"
    new_kind = "chores"

    def compose(self) -> ComposeResult:
        """The round and the details."""
        yield Listing()
        yield Details(id="details")

    def __init__(self, **arguments: Any) -> None:
        super().__init__(**arguments)
        self.lines: tuple[RoundLine, ...] = ()

    def reload(self) -> None:
        """Read the round for where the person stands."""
        self.work(partial(round_of, unit=self.unit), self.take)

    def take(self, found: Round) -> None:
        """Show the round."""
        self.lines = found.due
        self.show(COLUMNS, lines_of(found), CALM if found.units else NO_UNIT)
        self._tell(self.listing.current)

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """Tell what the chore under the cursor asks for."""
        self._tell(message.line)

    def _tell(self, line: Line | None) -> None:
        self.query_one(Details).tell(details(line.data if line else None))

    @property
    def line(self) -> RoundLine | None:
        """The chore under the cursor, if it is still to do."""
        current = self.listing.current
        return current.data if current and isinstance(current.data, RoundLine) else None

    def action_edit(self) -> None:
        """Edit the chore under the cursor."""
        chosen = self._chosen()
        if chosen is not None:
            self.open_form("edit", "chores", chosen.chore)

    def action_like(self) -> None:
        """A new chore like the one under the cursor."""
        chosen = self._chosen()
        if chosen is not None:
            self.open_form("like", "chores", chosen.chore)

    def action_remove(self) -> None:
        """Remove the chore under the cursor."""
        self.refuse("A chore with a past is not removed but paused: p. One without: farmops chores remove NUMBER.")

    def about(self) -> str:
        """All that is written of the chore, where the screen was too low for it."""
        return str(details(self.listing.current.data)) if self.listing.current else ""

    def _chosen(self) -> RoundLine | None:
        if self.line is None:
            self.refuse("There is no chore under the cursor that is still to do.")
        return self.line

    def action_done(self) -> None:
        """Done, at once, or after what the chore insists on was confirmed."""
        chosen = self._chosen()
        if chosen is None:
            return
        if chosen.chore.confirmation:
            from farmops.tui.screens.confirm import Confirm

            question = f"{chosen.chore.title}: {chosen.chore.confirmation}?"
            self.app.push_screen(Confirm(question), partial(self._confirmed, [chosen]))
        else:
            self._settle([chosen])

    def action_done_all(self) -> None:
        """Done, all of the same name, in one operation."""
        chosen = self._chosen()
        if chosen is None:
            return
        from farmops.tui.screens.confirm import Confirm

        alike = [one for one in self.lines if one.chore.title == chosen.chore.title]
        seen = {one.chore.confirmation for one in alike} - {None}
        places = ", ".join(one.where for one in alike)
        insisted = f"; {', '.join(sorted(map(str, seen)))}" if seen else ""
        question = f"{chosen.chore.title}, all {len(alike)} ({places}){insisted}: done?"
        self.app.push_screen(Confirm(question), partial(self._confirmed, alike))

    def _confirmed(self, chosen: Sequence[RoundLine], yes: bool | None) -> None:
        if yes:
            self._settle(chosen)

    def _settle(self, chosen: Sequence[RoundLine]) -> None:
        entries = tuple(
            Settling(one.chore.id, SettledAs.DONE, self.today or one.due, confirmed=one.chore.confirmation)
            for one in chosen
        )
        by, operation = self.app.by, new_id()  # type: ignore[attr-defined]

        def change(store: Any) -> str:
            from farmops.farm.chores import SettlingMany, settle_many
            from farmops.model.journal import Through

            settle_many(store, SettlingMany(entries), by=by, operation=operation, through=Through.SCREEN)
            return done_words(chosen)

        self.work(change, lambda words: self.post_message(Changed(words)), group="write")

    def action_skip(self) -> None:
        """Leave it out this time, and say why."""
        self._settling_form("skip")

    def action_defer(self) -> None:
        """Put it off to a day."""
        self._settling_form("defer")

    def action_pause(self) -> None:
        """Let it rest."""
        self._settling_form("pause")

    def action_write(self, kind: str) -> None:
        """A file to carry away: the round on paper, the chores in a calendar."""
        self.open_form("file", kind)

    def _settling_form(self, how: str) -> None:
        chosen = self._chosen()
        if chosen is not None:
            self.open_form("edit", how, chosen.chore)


NO_UNIT = "No unit yet. F7 Records, then n: the first unit gets its chores by itself."


def lines_of(found: Round) -> list[Line | Heading]:
    """The round as lines under their headings, what was settled today at the end."""
    items: list[Line | Heading] = []
    for section in found.sections:
        items.append(Heading(section.title))
        items += [_line(one) for one in section.lines]
    if found.settled:
        items.append(Heading("Settled today"))
        items += [_settled_line(one) for one in found.settled]
    return items


def _line(one: RoundLine) -> Line:
    cells = (one.where, _title(one.chore), one.chore.grade.value, one.lateness, f"{one.chore.minutes} min")
    return Line(f"chore {one.chore.id}", cells, look="late" if one.days_late else "normal", data=one)


def _title(chore: Chore) -> str:
    return f"{chore.title} (adults only)" if chore.adults_only else chore.title


def _settled_line(one: SettledLine) -> Line:
    how = one.settled.kind.value + (f" until {one.settled.until_day}" if one.settled.until_day else "")
    cells = (one.where, one.chore.title, one.settled.actor, how, "")
    return Line(f"settled {one.settled.id}", cells, look="done", data=one)


def details(data: object) -> Content:
    """What the chore asks for: its rule, its caution before its instructions, what must be read."""
    if not isinstance(data, RoundLine | SettledLine):
        return Content("")
    chore = data.chore
    first = f"{chore.title} · {chore.rule_words} · {chore.minutes} min"
    if chore.confirmation:
        first += f" · not done without: {chore.confirmation}"
    lines = [first, f"! {chore.caution}" if chore.caution else "", chore.instructions or ""]
    if chore.readings:
        lines.append(f"Read: {chore.readings.replace(',', ', ')}")
    return Content("\n".join(plain(line) for line in lines if line))


def done_words(chosen: Sequence[RoundLine]) -> str:
    """What was done, in a line."""
    if len(chosen) == 1:
        return f"Done: {chosen[0].chore.title}, {chosen[0].where}. u takes it back."
    return f"Done: {chosen[0].chore.title}, {len(chosen)} of them. u takes all back."
