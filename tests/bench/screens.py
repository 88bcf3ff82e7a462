"""The interface in a real pseudo-terminal, against an empty Textual app."""

from __future__ import annotations

import os
import pty
import select
import signal
import struct
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from fcntl import ioctl
from pathlib import Path
from statistics import median
from termios import TIOCSWINSZ

from tests.bench.timing import Ratio

EMPTY = """
from textual.app import App
from textual.widgets import Static
class Empty(App):
    def compose(self):
        yield Static("READY", id="words")
    def on_key(self, event):
        self.query_one("#words").update("KEY " + event.key)
Empty().run()
"""
LONG = """
import sys
from textual.app import App
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
class Long(App):
    def compose(self):
        yield Listing()
    def on_mount(self):
        lines = [Line(str(at), (f"ROW{at}", "words beside it")) for at in range(100_000)]
        self.query_one(Listing).show((Column("a", "a"), Column("b", "b", grow=True)), lines)
        self.query_one(Listing).focus()
Long().run()
"""
OURS = "from farmops.main import main; main()"
AIM_PAINT, AIM_ROWS, AIM_KEY, AIM_MEMORY, AIM_IDLE = 1.3, 1.5, 1.8, 2.5, 1.5
STARTS, KEYS, SETTLE_SECONDS, IDLE_SECONDS = 9, 30, 4.0, 15.0
CURSOR = "▸".encode()
PLACE_KEYS = [(b"\x1bOS", b"[Fish"), (b"\x1b[15~", b"[Money"), (b"\x1bOQ", b"[Chores")]


@dataclass(slots=True)
class Terminal:
    """A program in a pseudo-terminal of 120 by 40."""

    pid: int
    handle: int
    seen: bytes = b""

    @classmethod
    def start(cls, *arguments: str) -> Terminal:
        """Fork, and run the program in the child."""
        pid, handle = pty.fork()
        if pid == 0:
            os.environ.update(TERM="xterm-256color", COLORTERM="truecolor")
            os.execv(sys.executable, [sys.executable, *arguments])  # noqa: S606 - a program in a terminal of its own
        ioctl(handle, TIOCSWINSZ, struct.pack("HHHH", 40, 120, 0, 0))
        return cls(pid, handle)

    def until(self, words: bytes, seconds: float = 60.0) -> float:
        """Seconds until the words were written to the terminal."""
        start = time.perf_counter()
        while words not in self.seen:
            if time.perf_counter() - start > seconds or not self._read(seconds):
                raise TimeoutError(f"{words!r} was never written")
        return time.perf_counter() - start

    def press(self, keys: bytes, words: bytes) -> float:
        """Seconds from a key to the words it brings."""
        self._drain()
        self.seen = b""
        os.write(self.handle, keys)
        return self.until(words)

    def _read(self, seconds: float) -> bool:
        ready, _, _ = select.select([self.handle], [], [], seconds)
        if not ready:
            return False
        try:
            self.seen += os.read(self.handle, 65536)
        except OSError:
            return False
        return True

    def _drain(self) -> None:
        while self._read(0.05):
            pass

    def memory(self) -> int:
        """Resident bytes."""
        status = Path(f"/proc/{self.pid}/status").read_text(encoding="ascii")
        line = next(line for line in status.splitlines() if line.startswith("VmRSS"))
        return int(line.split()[1]) * 1024

    def cpu(self) -> float:
        """Seconds of processor used so far, by all threads, to the nanosecond."""
        threads = Path(f"/proc/{self.pid}/task").iterdir()
        return sum(int((one / "schedstat").read_text(encoding="ascii").split()[0]) for one in threads) / 1e9

    def rest(self, seconds: float) -> None:
        """Read what is written while time passes."""
        end = time.perf_counter() + seconds
        while time.perf_counter() < end:
            self._read(0.1)

    def end(self) -> None:
        """Kill it and wait."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.handle)


def started(arguments: tuple[str, ...], words: bytes) -> float:
    """Seconds from starting a program to words on its screen."""
    start = time.perf_counter()
    terminal = Terminal.start(*arguments)
    try:
        terminal.until(words)
        return time.perf_counter() - start
    finally:
        terminal.end()


def medians(*things: Callable[[], float]) -> list[float]:
    """The median of each by turns, after a first time that only warms up."""
    for thing in things:
        thing()
    taken: list[list[float]] = [[] for _ in things]
    for _ in range(STARTS):
        for times, thing in zip(taken, things, strict=True):
            times.append(thing())
    return [median(times) for times in taken]


def starts(place: Path) -> list[Ratio]:
    """First paint, and the rows of the round on the screen."""
    ours = ("-c", OURS, "--farm", str(place))
    empty, paint, rows = medians(
        lambda: started(("-c", EMPTY), b"READY"),
        lambda: started(ours, b"Records"),
        lambda: started(ours, b"No set hour"),
    )
    against = "empty Textual app"
    return [
        Ratio("first paint", paint, empty, against, AIM_PAINT),
        Ratio("rows on the screen", rows, empty, against, AIM_ROWS),
    ]


def keys(place: Path) -> list[Ratio]:
    """Key to repaint in a list of 100,000 rows, and from one place to another."""
    empty, long = Terminal.start("-c", EMPTY), Terminal.start("-c", LONG)
    ours = Terminal.start("-c", OURS, "--farm", str(place))
    try:
        empty.until(b"READY")
        long.until(b"ROW0")
        ours.until(b"No set hour")
        ours.rest(SETTLE_SECONDS)
        for key, words in PLACE_KEYS:
            ours.press(key, words)
        bare, page, step, switch = pressed_in_turn(
            (empty, [(b"a", b"KEY a"), (b"b", b"KEY b")]),
            (long, [(b"\x1b[6~", b"ROW"), (b"\x1b[5~", b"ROW")]),
            (ours, [(b"\x1b[B", CURSOR), (b"\x1b[A", CURSOR)]),
            (ours, PLACE_KEYS),
        )
        against = "a key in an empty Textual app"
        return [
            Ratio("key to repaint, 100,000 rows", page, bare, against, AIM_KEY),
            Ratio("key to repaint, the round and its details", step, bare, against),
            Ratio("screen switch, after the first time", switch, bare, against),
        ]
    finally:
        for one in (empty, long, ours):
            one.end()


def pressed_in_turn(*hands: tuple[Terminal, list[tuple[bytes, bytes]]]) -> list[float]:
    """The median time from a key to its words for each terminal, a round of keys here and then there."""
    taken: list[list[float]] = [[] for _ in hands]
    for _ in range(KEYS // 3):
        for times, (terminal, pairs) in zip(taken, hands, strict=True):
            times += [terminal.press(key, words) for key, words in pairs]
    return [median(times) for times in taken]


def at_rest(place: Path) -> list[Ratio]:
    """Memory, and processor time while nobody types."""
    empty, ours = Terminal.start("-c", EMPTY), Terminal.start("-c", OURS, "--farm", str(place))
    try:
        empty.until(b"READY")
        ours.until(b"No set hour")
        ours.rest(SETTLE_SECONDS)
        before = (empty.cpu(), ours.cpu())
        ours.rest(IDLE_SECONDS)
        idle = (empty.cpu() - before[0], ours.cpu() - before[1])
        against = "empty Textual app"
        return [
            Ratio("memory", ours.memory(), empty.memory(), against, AIM_MEMORY, unit="bytes"),
            Ratio(f"processor in {IDLE_SECONDS:g} s at rest", idle[1], idle[0], against, AIM_IDLE),
        ]
    finally:
        empty.end()
        ours.end()
