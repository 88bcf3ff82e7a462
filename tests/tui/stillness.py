"""When a hand at the keyboard may go on: once nothing is left to do, not once some time has gone by."""

from __future__ import annotations

import asyncio
from time import monotonic, process_time
from typing import Any

import textual.app
import textual.pilot
from textual._context import active_app

GLANCE_S = 0.002
HELD_S = 0.02
"""How long a thread computes nothing before it is taken for one that is held up."""
MOST_S = 1.0


def be_still() -> None:
    """Let every pilot wait for stillness, where Textual's own looks twice a key at how busy the processor is."""
    textual.app.wait_for_idle = textual.pilot.wait_for_idle = until_still  # type: ignore[attr-defined]
    textual.pilot.Pilot._wait_for_screen = until_handled  # type: ignore[assignment, method-assign]


async def until_still(*_: float) -> None:
    """Until all messages are handled, what they changed is drawn, and no thread computes; a second at most."""
    last = monotonic() + MOST_S
    while monotonic() < last:
        await until_handled()
        if not (_drawn() or await _thread_went_on()):
            return


async def until_handled(*_: Any) -> bool:
    """Until every task waits for a key, a clock or a thread; a second at most."""
    last, ready = monotonic() + MOST_S, asyncio.get_running_loop()._ready  # type: ignore[attr-defined]
    await asyncio.sleep(0)
    while ready and monotonic() < last:
        await asyncio.sleep(0)
    return not ready


def _drawn() -> bool:
    """Draw now what would be drawn within a sixtieth of a second; whether there was anything."""
    stack = active_app.get()._screen_stack
    if not stack or not stack[-1]._update_timer._active.is_set():
        return False
    stack[-1]._on_timer_update()
    return True


async def _thread_went_on() -> bool:
    """Whether a thread ended its work meanwhile, or is still computing."""
    computed, last = process_time(), monotonic() + HELD_S
    if not _at_work():
        return False
    while monotonic() < last:
        await asyncio.sleep(GLANCE_S)
        if not _at_work():
            return True
    return process_time() - computed > GLANCE_S


def _at_work() -> bool:
    return any(worker.is_running for worker in active_app.get().workers)
