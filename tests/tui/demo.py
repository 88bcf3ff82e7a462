"""The interface on a farm, driven as a person would."""

from __future__ import annotations

import asyncio
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

from textual.app import App
from textual.pilot import Pilot

from farmops.reports import lists
from farmops.tui.app import FarmApp
from farmops.tui.screens.frame import Frame
from farmops.tui.widgets.footer import KeyFooter
from farmops.tui.widgets.listing import Listing

SMALL, LARGE = (80, 24), (120, 40)
SIZES = (SMALL, LARGE)
PLACE_KEYS = {"chores": "f2", "beds": "f3", "fish": "f4", "money": "f5", "returns": "f6", "records": "f7"}
PATIENCE_S = 45
"""How long a test waits for what has to come in the end, on the busiest machine."""
GLANCE_S = 0.02

Driver = Pilot[Any]


@asynccontextmanager
async def running(
    place: str, *, size: tuple[int, int] = SMALL, by: str = "Ada", read: bool = True, **options: Any
) -> AsyncIterator[Driver]:
    """The interface on a store; begins when the farm can be read on the screen, unless told not to wait."""
    app = FarmApp(place, by, **options)
    async with app.run_test(size=size) as pilot:
        if read:
            await until(pilot, lambda: is_read(app), "the farm on the screen")
            await until_idle(pilot)
        yield pilot
    app.store.close()


async def until(pilot: Driver, seen_yet: Callable[[], object], what: str = "") -> None:
    """Wait until it holds; fails with the screen as it is when it never does."""
    last = time.monotonic() + PATIENCE_S
    await pilot.pause()
    while not seen_yet():
        assert time.monotonic() < last, "\n".join([f"never came: {what or seen_yet}", *seen(pilot.app)])
        await asyncio.sleep(GLANCE_S)
        await pilot.pause()


async def until_seen(pilot: Driver, *words: str) -> None:
    """Wait until all these words stand on the screen, be it over the end of a line."""

    def there() -> bool:
        text = on_screen(pilot.app)
        flowing = " ".join(text.split())
        return all(word in text or word in flowing for word in words)

    await until(pilot, there, ", ".join(words))


async def until_idle(pilot: Driver) -> None:
    """Wait until nothing is read or booked any more, and what came of it is drawn."""
    for _ in range(2):
        await until(pilot, lambda: all(one.is_finished for one in pilot.app.workers), "all work done")
        await pilot.pause()


async def until_water_is_known(pilot: Driver) -> None:
    """What was read last is looked up after the first paint."""
    await until(pilot, lambda: getattr(frame_of(pilot.app).place, "waters", None) is not None, "the water")


async def press(pilot: Driver, *keys: str) -> None:
    """Press keys, and wait for what comes of them."""
    await pilot.press(*keys)
    await until_idle(pilot)


async def go_to(pilot: Driver, place: str) -> None:
    """Open a place by its key and wait until it is read."""
    await press(pilot, PLACE_KEYS[place])
    frame = frame_of(pilot.app)
    await until(pilot, lambda: frame.open_place == place and frame.place.query_one(Listing).columns, place)


def is_read(app: App[Any]) -> bool:
    """Whether the farm and the place that is open have come to the screen."""
    if not isinstance(app.screen, Frame):
        return False
    footer = app.screen.query(KeyFooter)
    return bool(footer) and app.screen.scale is not None and bool(listing_of(app).columns)


def frame_of(app: App[Any]) -> Frame:
    """The frame, below whatever is open over it."""
    return next(screen for screen in app.screen_stack if isinstance(screen, Frame))


def listing_of(app: App[Any]) -> Listing:
    """The list of the place that is open."""
    return frame_of(app).place.query_one(Listing)


def seen(app: App[Any]) -> list[str]:
    """The rows of the screen as a person sees them, with what shines through from below."""
    strips = app.screen._compositor.render_strips()
    return ["".join(segment.text for segment in strip).rstrip() for strip in strips]


def on_screen(app: App[Any]) -> str:
    """All that stands on the screen."""
    return "\n".join(seen(app))


def last_journal(store: Any) -> Any:
    """The newest line of the journal."""
    return lists.journal(store, 1)[0]


async def go_to_chore(pilot: Driver, title: str) -> None:
    """Walk down to the first chore whose title begins so."""
    listing = listing_of(pilot.app)
    for _ in range(40):
        if title in _words(listing):
            return
        await pilot.press("down")
    raise AssertionError("\n".join([f"no chore {title}", *seen(pilot.app)]))


def _words(listing: Listing) -> str:
    return " ".join(str(cell) for cell in listing.current.cells) if listing.current else ""
