"""The frame: the row on top, one place below it, what was said, and the keys."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.screen import Screen

from farmops.model.errors import FarmopsError, NoFarm, StoreUnavailable
from farmops.tui import first_reads
from farmops.tui.actions import ANYWHERE, PLACES, Action, bindings, footer_of
from farmops.tui.screens.place import AFTER_PAINT_SECONDS, Changed, Place, Refusal, Said
from farmops.tui.screens.places import Places
from farmops.tui.screens.taking_back import take_back
from farmops.tui.watch import Watch
from farmops.tui.widgets.footer import KeyFooter
from farmops.tui.widgets.header import TopLine
from farmops.tui.widgets.places import PlacesLine
from farmops.tui.widgets.row import UnitRow
from farmops.tui.widgets.say import SayLine
from farmops.tui.work import Broken, Failed, WorkMixin

if TYPE_CHECKING:
    from datetime import date

    from farmops.reports.round import Round
    from farmops.reports.row import Card, Row
    from farmops.reports.scale import Scale
    from farmops.reports.store import Store

SMALL_WIDTH, SMALL_HEIGHT = 72, 22
WARM_UP_SECONDS = 0.4
HOME = "chores"


class Written(Message):
    """The store looks other than before: somebody wrote to it, or it is gone."""


class Frame(Screen[None], WorkMixin):
    """Holds what every place shares: the row that was read, where the person stands, which place is open."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(ANYWHERE)]
    AUTO_FOCUS = None
    standing: reactive[int] = reactive(0)
    open_place: reactive[str] = reactive(HOME)

    def __init__(self) -> None:
        super().__init__()
        self.row: Row | None = None
        self.scale: Scale | None = None
        self.warm = False
        self.lost = False
        self.stirred = False
        self.helping = False
        self.store_watch: Watch | None = None

    def compose(self) -> ComposeResult:
        """The frame is painted empty; the row and the place come when they are read."""
        yield TopLine()
        yield UnitRow()
        yield PlacesLine()
        yield Places()
        yield SayLine()
        yield KeyFooter()

    def on_mount(self) -> None:
        """Read after painting."""
        self.app.call_later(self.call_after_refresh, self._begin)
        app = self.app  # a thread may look once more when the frame has left its app
        self.store_watch = Watch(lambda: app.store, self._stir, self._day)  # type: ignore[attr-defined]
        self.store_watch.start()

    def on_unmount(self) -> None:
        """Nothing is to be noticed any more."""
        if self.store_watch is not None:
            self.store_watch.leave()

    async def _begin(self) -> None:
        """Read in a thread while the first place is made; it comes to the screen with what was read."""
        self.work(first_reads.beginning, self._show_first, group="row", otherwise=self._no_row)
        await self.query_one(Places).make(HOME)

    async def _go_to(self, name: str) -> None:
        await self.query_one(Places).make(name)
        self.open_place = name

    async def show_record(self, place: str, kind: str, id: int) -> None:
        """Leave what lies over the farm and put the cursor on a record in its list, be it of whichever unit."""
        while self.app.screen is not self:
            self.app.pop_screen()
        await self.query_one(Places).make(place)
        self.query_one(Places).called(place).look_for(kind, id)
        self.standing = 0
        if self.open_place == place:
            self.place.reload()
        self.open_place = place

    def read_row(self) -> None:
        """Read the row, then the place that is open."""
        self.work(first_reads.row, self._show_row, group="row", otherwise=self._no_row)

    def _show_first(self, found: tuple[Row, Round]) -> None:
        row, its_round = found
        self.query_one(Places).called(HOME).take(its_round)
        self._take(row)
        if self.open_place != HOME:
            self.place.reload()

    def _show_row(self, row: Row) -> None:
        self._take(row)
        self.place.reload()

    def _take(self, row: Row) -> None:
        kept = self.card.code if self.card else None
        self.row = row
        self.app.exit_code = 0  # type: ignore[attr-defined]
        codes = [card.code for card in row.cards]
        self.query_one(UnitRow).row = row
        self.query_one(TopLine).row = row
        self.standing = codes.index(kept) if kept in codes else 0
        self.query_one(UnitRow).standing = self.standing
        self.set_timer(AFTER_PAINT_SECONDS, self._read_on)
        self.query_one(Places).current = self.open_place
        if self.focused is None:
            self.place.focus_first()
        self._feel_pulse()

    def _read_on(self) -> None:
        """What is not seen at once: the scale; and what writes is loaded, so that no booking waits for it."""
        self.work(first_reads.scale, self._keep_scale, group="scale")
        if not self.warm:
            self.warm = True
            self.set_timer(WARM_UP_SECONDS, self._warm_up)

    def _warm_up(self) -> None:
        self.work(first_reads.warm_up, self._advise, group="warm")

    def _advise(self, advice: str | None) -> None:
        if advice is not None:
            self.query_one(SayLine).say(advice)

    def _keep_scale(self, scale: Scale) -> None:
        self.scale = scale

    def _no_row(self, error: FarmopsError) -> None:
        if isinstance(error, NoFarm):
            from farmops.tui.screens.first_run import FirstRun

            self.app.push_screen(FirstRun(), self._opened)
        else:
            self.query_one(SayLine).refuse(f"{error} q leaves; F2 tries again.")
            self._ends_on(error)

    def _ends_on(self, error: FarmopsError) -> None:
        """Leaving tells the shell that the store was not to be had."""
        self.app.exit_code = error.exit_code  # type: ignore[attr-defined]

    def _opened(self, words: str | None) -> None:
        if words is None:
            self.app.exit(0)
        else:
            self.query_one(SayLine).say(words)
            self.read_row()

    def _stir(self) -> None:
        with suppress(RuntimeError):  # the screen's loop may have ended since
            self.post_message(Written())

    def on_written(self) -> None:
        """Read at once, or when a person is back here."""
        self.stirred = True
        self._feel_pulse()

    def _feel_pulse(self) -> None:
        if self.stirred and self.row is not None and self.app.screen is self:
            self.stirred = False
            self.work(first_reads.pulse, self._felt, group="pulse", otherwise=self._lost)

    def _felt(self, seq: int) -> None:
        if self.lost:
            self._set_lost(False)
            self.query_one(SayLine).hush()
            self.read_row()
        elif self.row is not None and (seq, self._day()) != (self.row.seq, self.row.on):
            self.read_row()

    def _day(self) -> date | None:
        """The day it is on the farm by now; what is on the screen may be of the day before."""
        return self.row.farm.today() if self.row else None

    def _set_lost(self, lost: bool) -> None:
        """While the store cannot be read, it is tried each moment."""
        self.lost = lost
        if self.store_watch is not None:
            self.store_watch.restless = lost

    def _lost(self, error: FarmopsError) -> None:
        self._set_lost(True)
        self.query_one(SayLine).refuse(f"{error} What is on the screen may be old.")
        self._ends_on(error)

    @property
    def card(self) -> Card | None:
        """Where the person stands."""
        return self.row.cards[self.standing] if self.row and self.standing < len(self.row.cards) else None

    @property
    def place(self) -> Place:
        """The place that is open."""
        return self.query_one(Places).called(self.open_place)

    def actions_here(self) -> list[Action]:
        """What can be done in the place that is open."""
        actions: tuple[Action, ...] = self.app.actions  # type: ignore[attr-defined]
        return [one for one in actions if one.where in (self.open_place, "list", ANYWHERE)]

    def runner(self, action: Action) -> Callable[[], object]:
        """A function that carries an action out, as its key would."""
        return partial(self.call_later, self._run, action)

    async def _run(self, action: Action) -> None:
        target = self if action.where == ANYWHERE else self.place
        await target.run_action(action.call)

    def watch_open_place(self, name: str) -> None:
        """Show the place, its keys, and put the cursor into it."""
        if not self.is_mounted:
            return
        self.query_one(Places).current = name
        self.query_one(PlacesLine).open_place = name
        self.show_keys()
        self.query_one(SayLine).hush()
        if self.row is not None:
            self.place.reload()
        self.place.focus_first()

    def show_keys(self) -> None:
        """Name in the footer what can be done in the place as it is now."""
        actions: tuple[Action, ...] = self.app.actions  # type: ignore[attr-defined]
        named = footer_of(self.open_place, actions)
        self.query_one(KeyFooter).actions = tuple(one for one in named if self.place.offers(one))

    def watch_standing(self, standing: int) -> None:
        """The place answers for where the person stands."""
        if self.is_mounted:
            self.query_one(UnitRow).standing = standing
            if self.row is not None:
                self.place.reload()

    def on_screen_resume(self) -> None:
        """Back from a form: the keys again, what happened meanwhile, and the cursor in the place.

        After the help it stays where it was: a question still stands.
        """
        self.show_keys()
        self._feel_pulse()
        helping, self.helping = self.helping, False
        if not helping or self.focused is None:
            self.place.focus_first()

    def on_resize(self, event: events.Resize) -> None:
        """A small terminal gets the row on one line."""
        small = event.size.width < SMALL_WIDTH or event.size.height < SMALL_HEIGHT
        self.query_one(UnitRow).set_class(small, "small")
        self.set_class(small, "small")

    def action_stand(self, index: int) -> None:
        """Walk to a unit of the row."""
        if self.row and index < len(self.row.cards):
            self.standing = index

    def action_walk(self, steps: int) -> None:
        """Walk along the row, unless the place has a use for the step."""
        if self.row and not self.place.walk(steps):
            self.standing = max(0, min(len(self.row.cards) - 1, self.standing + steps))

    async def action_place(self, name: str) -> None:
        """Open a place; before the farm could be read, try again."""
        await self._go_to(name)
        if self.row is None:
            self.read_row()

    async def action_next_place(self, steps: int) -> None:
        """The place beside this one."""
        await self._go_to(PLACES[(PLACES.index(self.open_place) + steps) % len(PLACES)])

    def action_weigh(self) -> None:
        """Weigh a harvest, from anywhere."""
        from farmops.tui.screens.weigh import open_weighing

        open_weighing(self)

    def action_why(self) -> None:
        """Open the number under the cursor, where there is one."""
        self.place.open_why()

    def action_help(self) -> None:
        """What can be done here, and by which key."""
        from farmops.tui.screens.help import Help

        self.helping = True
        self.app.push_screen(Help(self.open_place, self.actions_here(), self.place.about()))

    def action_palette(self) -> None:
        """All actions by name."""
        self.app.action_command_palette()

    def action_undo(self) -> None:
        """Take back what this person booked last."""
        take_back(self, self._changed)

    def action_redo(self) -> None:
        """Do again what was taken back."""
        by: str = self.app.by  # type: ignore[attr-defined]

        def change(store: Store) -> str:
            from farmops.farm.undo import redo
            from farmops.model.journal import Through, Which

            done = redo(store, Which(), by=by, through=Through.SCREEN)
            return f"Done again: {done.words_for(by, Through.SCREEN)}."

        self.work(change, self._changed, group="write")

    def _changed(self, words: str) -> None:
        self.post_message(Changed(words))

    def on_unit_row_picked(self, message: UnitRow.Picked) -> None:
        """A card was clicked."""
        self.standing = message.index

    async def on_places_line_picked(self, message: PlacesLine.Picked) -> None:
        """A place's name was clicked."""
        await self._go_to(message.name)

    async def on_key_footer_pressed(self, message: KeyFooter.Pressed) -> None:
        """A key in the footer was clicked."""
        await self._run(message.action)

    def on_said(self, message: Said) -> None:
        """Words from a place."""
        self.query_one(SayLine).say(message.words)

    def on_refusal(self, message: Refusal) -> None:
        """Why a place did not do something."""
        self.query_one(SayLine).refuse(message.words)

    def on_changed(self, message: Changed) -> None:
        """Something was booked: say so and read again."""
        if message.words:
            self.query_one(SayLine).say(message.words)
        self.read_row()

    def on_failed(self, message: Failed) -> None:
        """Something was refused: why, in words; nothing typed is lost by it."""
        self.query_one(SayLine).refuse(str(message.error))
        if isinstance(message.error, StoreUnavailable):
            self._ends_on(message.error)

    def on_broken(self, message: Broken) -> None:
        """A fault of the program: said, reported in a file, and the screen lives on."""
        from farmops.reports.faults import report_of

        self.query_one(SayLine).refuse(report_of(message.error))
