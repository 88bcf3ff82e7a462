"""The roof: runs a command, and turns what went wrong into words and an exit code."""

from __future__ import annotations

import errno
import gc
import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from farmops.cli.desk import Desk


STOPPED = 130
YOUNG_OBJECTS = 50_000
"""New objects after which the collector looks for dead ones; loading modules makes many that all live on."""


def main() -> None:
    """Entry point of the `farmops` command."""
    gc.set_threshold(YOUNG_OBJECTS)
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Carry out a command line and return its exit code: 0 done, 1 refused, 2 usage, 3 store, 4 check failed."""
    from farmops.cli.app import cli
    from farmops.cli.desk import Desk

    if any(word.encode("utf-8", "ignore").decode() != word for word in arguments):
        from farmops.cli.output import say

        say("What was typed holds bytes that are no UTF-8 text. Nothing was changed.")
        return 2
    try:
        result = cli.main(list(arguments), prog_name="farmops", standalone_mode=False)
        if isinstance(result, Desk):
            result = open_interface(result)
        sys.stdout.flush()
    except BaseException as error:  # whatever it is, it must reach the user in words
        return told(error)
    return result if isinstance(result, int) else 0


def told(error: BaseException) -> int:
    """Say in words what went wrong, and which exit code that is."""
    import click

    from farmops.cli.output import say
    from farmops.model.errors import FarmopsError

    match error:
        case FarmopsError():
            say(str(error))
            return error.exit_code
        case click.ClickException():
            error.show()
            return error.exit_code
        case click.Abort() | KeyboardInterrupt():
            say("Stopped. Nothing more was changed.")
            return STOPPED
        case SystemExit():  # click leaves with 1 when nobody reads its output any more
            return 0 if error.code == 1 else int(error.code or 0)
        case BrokenPipeError():
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return 0
        case OSError(errno=errno.ENOSPC | errno.EDQUOT | errno.EIO | errno.EROFS):
            say(f"Not all of it could be written: {error.strerror}. What was booked before is safe.")
            return 1
        case _:
            from farmops.reports.faults import report_of

            say(report_of(error))
            return 1


def open_interface(desk: Desk) -> int:
    """The interface on the desk's store; where the terminal cannot draw it, the round in words."""
    from farmops.cli.output import say
    from farmops.tui.start import cannot_draw, start

    try:
        reason = cannot_draw()
        if reason is not None:
            say(reason)
            return run(["--farm", desk.store.place, "chores"])
        return start(desk.store.place, desk.by, daily_backups=desk.thrown_away is None)
    finally:
        if desk.thrown_away is not None:
            import shutil

            shutil.rmtree(desk.thrown_away, ignore_errors=True)
