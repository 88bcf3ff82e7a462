"""Chores: the round of the day, settled key by key."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import FarmopsError, Unlikely
from farmops.model.farm import Person
from farmops.model.ids import new_id
from farmops.reports.round import Fold, Round, RoundLine, round_of
from farmops.tui.actions import bindings
from farmops.tui.screens.chore_glances import ChoreGlances
from farmops.tui.screens.place import AFTER_PAINT_SECONDS, Changed
from farmops.tui.widgets.details import Details
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Heading, Line
from farmops.tui.widgets.question import Question
from farmops.tui.widgets.round_lines import (
    BESIDE,
    COLUMNS,
    beside,
    chores_of,
    details,
    done_words,
    folds_of,
    lines_of,
)
from farmops.tui.work import Failed

if TYPE_CHECKING:
    from farmops.model.rations import Fed
    from farmops.model.readings import NewReading
    from farmops.reports.water import Waters
    from farmops.tui.widgets.feed_question import FeedQuestion
    from farmops.tui.widgets.field_lines import FieldLines

LOW, SMALL_WIDTH = 30, 72
"""Below so many rows, and from so many columns on, the names of sections stand beside their lines."""
CALM = "Nothing is due. A calm day."
NO_UNIT = "No unit yet. F7 Records, . to Units, then n: the first unit gets its chores by itself."
OPEN_FIRST = "Open the line with Enter or Right, and stand on one of them."


class ChoresPlace(ChoreGlances):
    """The round, with what the chore under the cursor asks for below it."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("chores")]
    DEFAULT_CSS = """
    ChoresPlace {
        & > #details {
            height: auto; max-height: 34%; padding: 0 1; border-top: solid $foreground 40%; color: $foreground;
        }
        &.with-lines > #details { max-height: 4; }
        &.low > #details { max-height: 4; }
    }
    """
    name_of_place = "chores"
    title = "Chores"
    new_kind = "chores"

    def compose(self) -> ComposeResult:
        """The round, the details, what is asked; lines for readings are made when some are first read."""
        yield Listing()
        yield Details(id="details")
        yield Question()

    def __init__(self, **arguments: Any) -> None:
        super().__init__(**arguments)
        self.round: Round | None = None
        self.whose: Person | None = None
        self.opened: set[str] = set()
        self.low = False
        self.asked: tuple[RoundLine, ...] = ()
        self.sure: Callable[[], None] | None = None
        self.waters: Waters | None = None
        self.lines: FieldLines | None = None
        self.reading: RoundLine | None = None
        self.waiting: RoundLine | None = None
        self.read: dict[str, Any] = {}

    def reload(self) -> None:
        """Read the round for where the person stands, and for whom it is."""
        self.work(partial(round_of, unit=self.unit, person=self.whose), self.take)

    def on_resize(self) -> None:
        """A low screen has no lines to spare for the names of sections."""
        size = self.app.size
        low = size.height < LOW and size.width >= SMALL_WIDTH
        if low is not self.low:
            self.low = low
            self.set_class(low, "low")
            if self.round is not None:
                self.take(self.round)

    def take(self, found: Round) -> None:
        """Show the round."""
        self.round = found
        items: list[Line | Heading] = lines_of(found, self.opened)
        if self.low:
            items = [*beside(items)]
        self.show(BESIDE if self.low else COLUMNS, items, CALM if found.units else NO_UNIT)
        self._tell(self.listing.current)
        if any(line.chore.measures for line in found.due):
            self.set_timer(AFTER_PAINT_SECONDS, self._read_waters)

    def _read_waters(self) -> None:
        self.work(_waters, self._keep_waters, group="water")

    def _keep_waters(self, waters: Waters) -> None:
        self.waters = waters
        line, self.waiting = self.waiting, None
        if line is not None:
            self.call_later(self._open_readings, line)

    def focus_first(self) -> None:
        """The cursor goes into the list, or to what is being read."""
        if self.lines is not None and self.lines.opened:
            self.lines.focus_first()
        else:
            super().focus_first()

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """Tell what the chore under the cursor asks for; what is read of another is put aside."""
        self._tell(message.line)
        here = {one.chore.id for one in self.chosen}
        if self.lines is not None and self.lines.opened and (not self.reading or self.reading.chore.id not in here):
            self.lines.close()

    def _tell(self, line: Line | None) -> None:
        self.query_one(Details).tell(details(line.data if line else None, brief=self.low))

    @property
    def chosen(self) -> tuple[RoundLine, ...]:
        """The chores under the cursor that are still to do."""
        return chores_of(self.listing.current.data) if self.listing.current else ()

    def walk(self, steps: int) -> bool:
        """Right opens a line that holds several chores, Left shuts it again from any of them."""
        key = self._fold_at_cursor()
        if key is None or (key in self.opened) is (steps > 0):
            return False
        self._turn(key)
        return True

    def _fold_at_cursor(self) -> str | None:
        """The key of the fold that the cursor stands on or in."""
        if self.round is None or not self.chosen:
            return None
        first = self.chosen[0]
        return next((key for key, fold in folds_of(self.round) if first in fold.lines), None)

    def _turn(self, key: str) -> None:
        """Open a line that is shut, shut one that is open."""
        self.opened ^= {key}
        if self.round is not None:
            self.take(self.round)
        self.listing.go_to(key)

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter opens a line that holds several chores, and the form of any other."""
        message.stop()
        message.prevent_default()
        if isinstance(message.line.data, Fold):
            self._turn(message.line.key)
        else:
            self.action_edit()

    def action_edit(self) -> None:
        """Edit the chore under the cursor."""
        self._form_of_one("edit", "chores")

    def action_like(self) -> None:
        """A new chore like the one under the cursor."""
        self._form_of_one("like", "chores")

    def _form_of_one(self, how: str, kind: str) -> None:
        chosen = self._chosen()
        if len(chosen) > 1:
            self.refuse(OPEN_FIRST)
        elif chosen:
            self.open_form(how, kind, chosen[0].chore)

    def action_give_set(self) -> None:
        """Give the chores of an occasion, for where one stands."""
        self.open_form("new", "sets")

    def action_remove(self) -> None:
        """Remove the chore under the cursor."""
        self.refuse("A chore with a past is not removed but paused: p. One without: F7, All chores, x.")

    def about(self) -> str:
        """All that is written of the chore, where the screen was too low for it."""
        return str(details(self.listing.current.data)) if self.listing.current else ""

    def _chosen(self) -> tuple[RoundLine, ...]:
        if not self.chosen:
            self.refuse("There is no chore under the cursor that is still to do.")
        return self.chosen

    async def action_done(self) -> None:
        """Done at once; after what it asks for, readings first; several that ask are opened first."""
        chosen = self._chosen()
        if len(chosen) > 1 and any(one.asks for one in chosen):
            self._open_to_answer()
        elif len(chosen) == 1 and chosen[0].chore.measures:
            await self._open_readings(chosen[0])
        elif any(one.rations for one in chosen):
            await self._ask_how_they_ate(chosen)
        elif chosen:
            self._settle_if_sure(chosen, {})

    async def _ask_how_they_ate(self, chosen: tuple[RoundLine, ...]) -> None:
        """One key books the rations as fed; where there is nothing to feed it is done at once."""
        from farmops.tui.screens.feeding_chores import feeds_something, question_of
        from farmops.tui.widgets.feed_question import FeedQuestion

        if self.farm is None or not feeds_something(chosen):
            self._settle_if_sure(chosen, {})
            return
        self.asked = chosen
        if not self.query(FeedQuestion):
            await self.mount(FeedQuestion(), before=self.query_one(Question))
        self.query_one(FeedQuestion).ask(question_of(chosen, self.farm.measures))

    async def on_feed_question_answered(self, message: FeedQuestion.Answered) -> None:
        """Book it, or ask for the amounts."""
        from farmops.tui.screens.feeding_chores import by_ration

        message.stop()
        if message.other and len(self.asked) == 1:
            await self._open_amounts(self.asked[0])
            return
        if self.frame.place is self:
            self.focus_first()
        if message.other:
            self.say("Each has amounts of its own: open the line with Enter and settle them one by one.")
        elif message.ate is not None:
            self._settle(self.asked, by_ration(self.asked, message.ate))

    async def _open_amounts(self, line: RoundLine) -> None:
        from farmops.tui.screens.feeding_chores import fields_of
        from farmops.tui.widgets.fields import Setting

        if self.farm is None or self.today is None:
            return
        self.reading = line
        lines = await self._lines_made()
        title, setting = f"{line.chore.title}, {line.where}", Setting(self.farm.measures, self.today)
        await lines.open(f"feeding of chore {line.chore.id}", title, fields_of(line), setting)

    async def _open_readings(self, line: RoundLine) -> None:
        if self.waters is None:
            self.waiting = line
            self.say("Looking up what was read last ...")
            return
        from farmops.tui.screens.reading_chores import draft_key, fields_of
        from farmops.tui.widgets.fields import Setting

        self.reading = line
        title = f"{line.chore.title}, {line.where}"
        setting = Setting(self.waters.farm.measures, self.waters.on)
        lines = await self._lines_made()
        await lines.open(draft_key(line), title, fields_of(line, self.waters), setting)

    async def _lines_made(self) -> FieldLines:
        if self.lines is None:
            from farmops.tui.widgets.field_lines import FieldLines

            self.lines = FieldLines()
            await self.mount(self.lines, before=self.query_one(Question))
        return self.lines

    def on_field_lines_finished(self, message: FieldLines.Finished) -> None:
        """All lines are read: done, after the confirmation it may insist on."""
        message.stop()
        if self.lines is not None:
            self.lines.close()
        self.listing.focus()
        if self.reading is not None and self.reading.rations:
            from farmops.tui.screens.feeding_chores import typed

            if self.lines is not None:
                self.lines.forget(message.key)
            self._settle((self.reading,), {self.reading.chore.id: typed(self.reading, message.values)})
        elif self.reading is not None:
            self._settle_if_sure((self.reading,), message.values)

    def on_field_lines_given_up(self, message: FieldLines.GivenUp) -> None:
        """Nothing is settled; what was typed waits."""
        message.stop()
        self.listing.focus()
        self.say("Not done yet. What you typed is there again with Space.")

    def _settle_if_sure(self, chosen: tuple[RoundLine, ...], read: dict[str, Any]) -> None:
        """Settle, after the one of them has said what it insists on."""
        self.read = read
        if len(chosen) == 1 and chosen[0].chore.confirmation:
            self._ask(f"{chosen[0].chore.title}, {chosen[0].where}: {chosen[0].chore.confirmation}?", chosen)
        else:
            self._settle(chosen)

    def _open_to_answer(self) -> None:
        key = self._fold_at_cursor()
        if key is not None and key not in self.opened:
            self._turn(key)
        self.say("Each of them asks for an answer of its own: settle them one by one.")

    async def action_done_all(self) -> None:
        """Done, all of the same name, in one operation."""
        chosen = self._chosen()
        if not chosen or self.round is None:
            return
        alike = tuple(one for one in self.round.due if one.chore.title == chosen[0].chore.title)
        if len(alike) < 2:
            await self.action_done()
        elif any(one.asks for one in alike):
            self._open_to_answer()
        elif any(one.rations for one in alike):
            await self._ask_how_they_ate(alike)
        else:
            places = ", ".join(one.where for one in alike)
            self._ask(f"{chosen[0].chore.title}, all {len(alike)} ({places}): done?", alike)

    def _ask(self, words: str, chosen: tuple[RoundLine, ...]) -> None:
        self.asked, self.sure = chosen, None
        self.query_one(Question).ask(words)

    def on_question_answered(self, message: Question.Answered) -> None:
        """Settle what was asked about, if the answer is yes."""
        message.stop()
        if self.frame.place is self:
            self.focus_first()
        if message.yes and self.sure is not None:
            self.sure()
        elif message.yes:
            self._settle(self.asked)
        else:
            self.read = {}

    def _settle(self, chosen: Sequence[RoundLine], fed: Mapping[int, tuple[Fed, ...]] | None = None) -> None:
        read, self.read = self.read, {}
        readings, bad = _readings_in(read)
        entries = tuple(
            Settling(
                one.chore.id,
                SettledAs.DONE,
                self.today or one.due,
                confirmed=one.chore.confirmation,
                readings=readings,
                fed=(fed or {}).get(one.chore.id),
            )
            for one in chosen
        )
        self._book(chosen, entries, done_words(chosen, readings, bad))

    def _book(self, chosen: Sequence[RoundLine], entries: tuple[Settling, ...], words: str) -> None:
        by, operation = self.app.by, new_id()  # type: ignore[attr-defined]

        def change(store: Any) -> str:
            from farmops.farm.chores import SettlingMany, settle_many
            from farmops.model.journal import Through

            settle_many(store, SettlingMany(entries), by=by, operation=operation, through=Through.SCREEN)
            return words

        doubted = partial(self._doubted, chosen, entries, words)
        self.work(change, partial(self._settled, chosen), group="write", otherwise=doubted)

    def _doubted(
        self, chosen: Sequence[RoundLine], entries: tuple[Settling, ...], words: str, error: FarmopsError
    ) -> None:
        """Ask about what hardly can be, and book it all the same after a yes."""
        if not isinstance(error, Unlikely):
            self.post_message(Failed(error))
            return
        self._ask(str(error), tuple(chosen))
        self.sure = partial(self._book, chosen, tuple(replace(one, sure=True) for one in entries), words)

    def _settled(self, chosen: Sequence[RoundLine], words: str) -> None:
        if self.lines is not None:
            from farmops.tui.screens.reading_chores import draft_key

            for one in chosen:
                self.lines.forget(draft_key(one))
        self.post_message(Changed(words))

    def action_skip(self) -> None:
        """Leave it out this time, and say why."""
        self._settling_form("skip")

    def action_defer(self) -> None:
        """Put it off to a day."""
        self._settling_form("defer")

    def action_pause(self) -> None:
        """Let it rest."""
        self._form_of_one("edit", "pause")

    def action_note(self) -> None:
        """Write something down on it."""
        self._form_of_one("edit", "note")

    def action_book_back(self) -> None:
        """A line for each chore that is due, to book the printed round back."""
        if self.round is None or not self.round.due:
            self.refuse("Nothing is due, so there is nothing to book back.")
        else:
            self.open_form("edit", "sheet", tuple(one.chore for one in self.round.due))

    def action_write(self, kind: str) -> None:
        """A file to carry away: the round on paper, the chores in a calendar."""
        self.open_form("file", kind, self.whose)

    def _settling_form(self, how: str) -> None:
        chosen = self._chosen()
        if chosen:
            self.open_form("edit", how, tuple(one.chore for one in chosen))


def _readings_in(read: dict[str, Any]) -> tuple[tuple[NewReading, ...], str]:
    """What was read, and what is bad in it; what is not read loads nothing that judges water."""
    if not read:
        return (), ""
    from farmops.tui.screens.reading_chores import bad_words, readings_in

    return readings_in(read), bad_words(read)


def _waters(store: Any) -> Waters:
    from farmops.reports.water import waters_of

    return waters_of(store)
