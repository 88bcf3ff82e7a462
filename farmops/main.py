"""The roof: runs a command, and turns what went wrong into words and an exit code."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from farmops.cli.desk import Desk


def main() -> None:
    """Entry point of the `farmops` command."""
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Carry out a command line and return its exit code: 0 done, 1 refused, 2 usage, 3 store, 4 check failed."""
    import click

    from farmops.cli.app import cli
    from farmops.cli.desk import Desk
    from farmops.model.errors import FarmopsError

    try:
        result = cli.main(list(arguments), prog_name="farmops", standalone_mode=False)
        if isinstance(result, Desk):
            result = open_interface(result)
        sys.stdout.flush()
    except FarmopsError as error:
        click.echo(str(error), err=True)
        return error.exit_code
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped. Nothing more was changed.", err=True)
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception as error:  # a fault of the program, whatever it is, must reach the user in words
        from farmops.reports.faults import report_of

        click.echo(report_of(error), err=True)
        return 1
    return result if isinstance(result, int) else 0


def open_interface(desk: Desk) -> int:
    """The interface on the desk's store; where the terminal cannot draw it, the round in words."""
    from farmops.tui.start import can_draw, start

    return start(desk.store.place, desk.by) if can_draw() else run(["--farm", desk.store.place, "chores"])
