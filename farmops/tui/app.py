"""The Textual app: colours, keys, the store, and what belongs to no one place."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import ClassVar

from rich.text import Text
from textual.app import App, SystemCommand
from textual.binding import BindingType
from textual.screen import Screen

from farmops.reports.store import Store
from farmops.tui.actions import ACTIONS, ANYWHERE, Action, bindings
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.place import Changed, Refusal
from farmops.tui.settings import NotKept, keep_theme
from farmops.tui.themes import FIRST, THEMES, next_theme
from farmops.tui.widgets.footer import key_names

HOW_TO_LEAVE = "Esc leaves what lies over a place; q in a place ends."


class FarmApp(App[int]):
    """One farm on the screen. Its result is the exit code."""

    TITLE = "farmops"
    BINDINGS: ClassVar[list[BindingType]] = [
        replace(key, priority=True)  # over forms and questions, too; a box for text keeps what it can take as text
        for key in bindings(ANYWHERE, [one for one in ACTIONS if one.id == "power-cut"])
    ]
    ENABLE_COMMAND_PALETTE = True
    COMMAND_PALETTE_BINDING = "f9"
    CSS = """
    CommandPalette SearchIcon { display: none; } /* an emoji, wider in some terminals than in others */
    CommandPalette > .command-palette--help-text { text-style: not bold; }
    Input > .input--placeholder, Input > .input--suggestion { color: $text-muted; text-style: italic; }
    """

    def __init__(
        self,
        place: str,
        by: str,
        *,
        actions: tuple[Action, ...] = ACTIONS,
        theme: str = FIRST,
        settings: Path | None = None,
        daily_backups: bool = False,
    ) -> None:
        super().__init__()
        self.daily_backups = daily_backups
        self.settings = settings
        self.store = Store(place)
        self.by = by
        self.actions = actions
        self.drafts: dict[str, dict[str, str]] = {}
        self.exit_code = 0
        for ours in THEMES:
            self.register_theme(ours)
        self.theme = theme

    def get_default_screen(self) -> Frame:
        """The frame; nothing is read before it is painted."""
        return Frame()

    @property
    def frame(self) -> Frame:
        """The frame, below whatever is open over it."""
        return next(screen for screen in self.screen_stack if isinstance(screen, Frame))

    def on_mount(self) -> None:
        """Keys of a person's own."""
        self.set_keymap({one.id: ",".join(one.keys) for one in self.actions if one not in ACTIONS})

    def action_power_cut(self) -> None:
        """The power is out: the screen for it, over whatever is open; what is typed there stays.

        A key pressed by mistake begins nothing: whether it is so is asked, unless a power cut is known to be open.
        """
        from farmops.tui.screens.first_run import FirstRun
        from farmops.tui.screens.incident import IncidentScreen, PowerOut

        if any(isinstance(screen, FirstRun | IncidentScreen | PowerOut) for screen in self.screen_stack):
            return
        row = self.frame.row
        if row is not None and row.power_cut_since is not None:
            self._show_power_cut(True)
        else:
            self.push_screen(PowerOut(), self._show_power_cut)

    def _show_power_cut(self, out: bool | None) -> None:
        from farmops.tui.screens.incident import IncidentScreen

        if out:
            self.push_screen(IncidentScreen(), self._power_cut_left)

    def _power_cut_left(self, words: str | None) -> None:
        self.frame.post_message(Changed(words or ""))

    def look_around(self) -> None:
        """Go on with a fresh copy of the invented farm."""
        place = str(Path(tempfile.mkdtemp(prefix="farmops-demo-")) / "demo.db")

        def make(_store: Store) -> Store:
            from farmops.exchange.demo import make_demo

            demo = Store(place)
            make_demo(demo)
            return demo

        self.notify("Making a fresh copy of the invented farm ...", markup=False)
        self.frame.work(make, self._stand_in, group="write")

    def _stand_in(self, demo: Store) -> None:
        self.store, self.daily_backups = demo, False
        while not isinstance(self.screen, Frame):
            self.pop_screen()
        self.screen.read_row()

    def action_next_theme(self) -> None:
        """The next of our colours, kept for the next time too where settings can be written."""
        self.theme = next_theme(self.theme)
        try:
            if self.settings is not None:
                keep_theme(self.settings, self.theme)
        except NotKept as error:
            self.settings = None
            self.frame.post_message(Refusal(str(error)))

    def action_command_palette(self) -> None:
        """All actions of the place that is open, found by their words."""
        from farmops.tui.screens.palette import Palette

        if not any(isinstance(screen, Palette) for screen in self.screen_stack):
            self.push_screen(Palette())

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The palette lists the actions of the place that is open."""
        if isinstance(screen, Frame):
            for one in screen.actions_here():
                yield SystemCommand(one.words, f"key {key_names(one)}", screen.runner(one))

    def action_help_quit(self) -> None:
        """Ctrl+C leaves nothing: say what does."""
        self.notify(HOW_TO_LEAVE, markup=False)

    async def action_quit(self) -> None:
        """Leave; what was booked is on disk already."""
        self.exit(self.exit_code, return_code=self.exit_code)

    def _fatal_error(self) -> None:
        """A fault of the screen itself: the terminal is given back, the fault told in words and reported."""
        from farmops.reports.faults import report_of

        self.panic(Text(report_of(self._exception or RuntimeError())))
