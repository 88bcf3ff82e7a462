"""A power cut: how long each unit has, what first, everything seen running again; big, calm, one key a step."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Digits, Static

from farmops.model.errors import FarmopsError
from farmops.model.ids import new_id
from farmops.model.incidents import Ending, NewIncident, Phase, Tick
from farmops.model.text import plain
from farmops.reports.power_cut import Standing, StepLine, least_of, standing_now
from farmops.reports.power_cut_words import since_words
from farmops.reports.store import Store
from farmops.tui.actions import POWER_CUT, Action, bindings
from farmops.tui.screens.confirm import Confirm
from farmops.tui.screens.goes_out import GoesOutAsFile
from farmops.tui.widgets.footer import KeyFooter
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.say import SayLine
from farmops.tui.widgets.standing import COLUMNS, details_of, least_words, lines_of
from farmops.tui.work import Broken, Failed, WorkMixin

SECOND = 1.0
ENDS = "Then the power cut ends: no feed today, and the water is tested daily for a week where fish live."


class PowerOut(Confirm):
    """Asks whether the power is out, before a power cut begins."""

    def __init__(self) -> None:
        super().__init__("Is the power out? Then a power cut begins now: how long, and what first.")


class IncidentScreen(GoesOutAsFile, Screen[str | None], WorkMixin):
    """Begins a power cut unless one is open, and counts down. Its result is what to say in the frame."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(POWER_CUT)]
    AUTO_FOCUS = None
    file_title: ClassVar[str] = "Power cut"
    DEFAULT_CSS = """
    IncidentScreen {
        & > #since { height: 1; padding: 0 1; background: $error; color: $background; text-style: bold; }
        & > #clock { height: auto; padding: 0 1; color: $warning; }
        & #minutes { width: auto; text-style: bold; }
        & #least { width: 1fr; height: auto; padding: 1 0 0 2; color: $foreground; text-style: bold; }
        & > #details {
            height: auto; max-height: 45%; padding: 0 1; border-top: solid $foreground 40%; color: $foreground;
        }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self.found: Standing | None = None
        self.stamp: object = None
        self.said = ""

    def compose(self) -> ComposeResult:
        """The hour it began, the clock, the steps, what the one under the cursor asks for, the keys."""
        yield Static("Power cut", id="since", markup=False)
        with Horizontal(id="clock"):
            yield Digits("", id="minutes")
            yield Static("", id="least", markup=False)
        yield Listing()
        yield Static("", id="details")
        yield SayLine()
        yield KeyFooter()

    def on_mount(self) -> None:
        """Begin, or go on with the one that is open; then count."""
        actions: Sequence[Action] = self.app.actions  # type: ignore[attr-defined]
        self.query_one(KeyFooter).actions = tuple(one for one in actions if one.where == POWER_CUT)
        self.query_one(Listing).focus()
        self.work(partial(_begun, by=self._by, operation=new_id()), self._show_first, group="write")
        self.set_interval(SECOND, self._count)

    @property
    def _by(self) -> str:
        by: str = self.app.by  # type: ignore[attr-defined]
        return by

    def _show_first(self, begun: tuple[Standing, bool]) -> None:
        found, new = begun
        self._show(found)
        if new:
            self._say("It begins now. b: it began earlier. u takes it back.")

    def read(self) -> None:
        """Read how it stands."""
        self.work(standing_now, self._show)

    def _show(self, found: Standing) -> None:
        if found.incident is None:
            self.dismiss(self.said or "No power cut is open any more.")
            return
        self.found = found
        self._draw(found.farm.now())

    def _count(self) -> None:
        """A second went by: the minutes again, and what others may have ticked."""
        if self.found is None or self.app.screen is not self:
            return
        stamp = self.app.store.stamp()  # type: ignore[attr-defined]
        if stamp is None or stamp != self.stamp:
            self.stamp = stamp
            self.read()
        else:
            self._draw(self.found.farm.now())

    def _draw(self, now: datetime) -> None:
        found = self.found
        if found is None:
            return
        self.query_one("#since", Static).update(since_words(replace(found, now=now)).upper())
        self._draw_clock(found, now)
        self.query_one(Listing).show(COLUMNS, lines_of(found, now))
        self._tell()

    def _draw_clock(self, found: Standing, now: datetime) -> None:
        """The unit with the least time in figures to be read from afar."""
        least = least_of(found, now)
        digits, words = self.query_one(Digits), self.query_one("#least", Static)
        digits.display = least is not None
        digits.update(str(int(least.left(now) or 0)) if least else "")
        words.update(Content(plain(least_words(found, now))))

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """What the step under the cursor asks for."""
        self._tell()

    @property
    def line(self) -> StepLine | None:
        """The step under the cursor."""
        current = self.query_one(Listing).current
        return current.data if current and isinstance(current.data, StepLine) else None

    def _tell(self) -> None:
        found, line = self.found, self.line
        if found is not None and line is not None:
            self.query_one("#details", Static).update(Content("\n".join(details_of(line, found))))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter ticks, as Space does."""
        message.stop()
        self.action_tick()

    def action_tick(self) -> None:
        """The step under the cursor is taken, or was seen."""
        line = self.line
        if line is None:
            return
        if line.ticked:
            self._refuse(f"{line.step.title} is ticked already. u takes back what you ticked last.")
        else:
            self._tick([line])

    def action_tick_all(self) -> None:
        """All that is left to be seen in the unit under the cursor."""
        found, unit = self.found, self.line.unit if self.line else None
        if found is None or unit is None:
            self._refuse("Stand on a line of a unit: a ticks all that is left to be seen running there.")
            return
        left = [one for one in found.of(Phase.AFTER) if one.unit == unit and not one.ticked]
        if not left:
            self._refuse(f"Everything was seen running in {unit.code}.")
            return
        seen = ", ".join(one.step.title.lower() for one in left)
        self.app.push_screen(Confirm(f"{unit.code}: {seen}. All of it seen running?"), partial(self._if, left))

    def _if(self, left: Sequence[StepLine], yes: bool | None) -> None:
        if yes:
            self._tick(left)

    def _tick(self, lines: Sequence[StepLine]) -> None:
        unit, steps = lines[0].unit, tuple(one.step.key for one in lines)
        entry = Tick(steps, unit.id if unit else None)
        words = f"{', '.join(one.step.title for one in lines)}{f' in {unit.code}' if unit else ''}: ticked."
        self._book("tick", entry, lambda _done: f"{words} u takes it back.")

    def action_power_back(self) -> None:
        """The power is back; what was not ticked yet is asked about."""
        found = self.found
        if found is None:
            return
        left = [one for one in found.of(Phase.AFTER) if not one.ticked]
        units = ", ".join(dict.fromkeys(one.unit.code for one in left if one.unit))
        seen = f"All seen running in {units}: ground-fault device, pump, air, siphon, heater? " if left else ""
        self.app.push_screen(Confirm(f"{seen}{ENDS}"), self._end)

    def _end(self, yes: bool | None) -> None:
        if yes:
            self._book("end", Ending(all_running=True), _ended_words)

    def action_read_water(self) -> None:
        """Read the water of the unit under the cursor: a temperature or oxygen makes the minutes better."""
        self._form("new", "readings", None)

    def action_began(self) -> None:
        """It began at another hour than was booked."""
        if self.found is not None:
            self._form("edit", "incidents", self.found.incident)

    def action_card(self) -> None:
        """The wall card of the unit under the cursor."""
        unit = self.line.unit if self.line else None
        if unit is None:
            self._refuse("Stand on a line of a unit: its wall card is printed.")
        else:
            self._form("file", "card", unit)

    def _form(self, how: str, kind: str, record: Any) -> None:
        from farmops.tui.forms import load_context

        code = self.line.unit.code if self.line and self.line.unit else None
        self.work(partial(load_context, unit_code=code), partial(self._open, how, kind, record), group="form")

    def _open(self, how: str, kind: str, record: Any, context: Any) -> None:
        from farmops.tui import forms
        from farmops.tui.widgets.forms import FormScreen

        try:
            if how == "new":
                spec = forms.new_form(kind, context)
            else:
                spec = (forms.file_form if how == "file" else forms.edit_form)(kind, record, context)
        except FarmopsError as error:
            self._refuse(str(error))
        else:
            self.app.push_screen(FormScreen(spec), self._booked)

    def _booked(self, words: str | None) -> None:
        if words:
            self.said = words
            self._say(words)
        self.read()

    def action_undo(self) -> None:
        """Take back what this person booked last."""
        from farmops.model.journal import Through

        self._book("undo", None, lambda done: f"Taken back: {done.words_for(self._by, Through.SCREEN)}.")

    def _book(self, what: str, entry: Any, words: Callable[[Any], str]) -> None:
        """Book it in a worker, say what came of it, and read how it stands now."""
        work = partial(_booking, what=what, entry=entry, by=self._by, operation=new_id(), words=words)
        self.work(work, self._booked, group="write")

    def _tell_of_file(self, words: str | None) -> None:
        if words is not None:
            self._say(words)

    def action_leave(self) -> None:
        """Back to the farm; it goes on."""
        self.dismiss("The power cut goes on: ! comes back to it." if self.found else None)

    def _say(self, words: str) -> None:
        self.query_one(SayLine).say(words)

    def _refuse(self, words: str) -> None:
        self.query_one(SayLine).refuse(words)

    def on_failed(self, message: Failed) -> None:
        """Why it was not done."""
        message.stop()
        self._refuse(str(message.error))

    def on_broken(self, message: Broken) -> None:
        """A fault of the program: said and reported in a file."""
        from farmops.reports.faults import report_of

        message.stop()
        self._refuse(report_of(message.error))


def _begun(store: Store, *, by: str, operation: str) -> tuple[Standing, bool]:
    """The power cut that is open; begun now where none is."""
    found = standing_now(store)
    if found.incident is not None:
        return found, False
    from farmops.farm.incidents import begin_incident
    from farmops.model.journal import Through

    begin_incident(store, NewIncident(), by=by, operation=operation, through=Through.SCREEN)
    return standing_now(store), True


def _booking(store: Store, *, what: str, entry: Any, by: str, operation: str, words: Callable[[Any], str]) -> str:
    from farmops.farm import incidents, undo
    from farmops.model.journal import Through, Which

    operations: dict[str, Any] = {"undo": undo.undo, "tick": incidents.tick_steps, "end": incidents.end_incident}
    done = operations[what](store, entry or Which(), by=by, operation=operation, through=Through.SCREEN)
    return words(done)


def _ended_words(done: Any) -> str:
    left_out = f" Left out today: {'; '.join(done.feeds_left_out)}." if done.feeds_left_out else ""
    given = f" To do: {'; '.join(done.chores_given)}." if done.chores_given else ""
    return f"The power cut is over.{left_out}{given}"
