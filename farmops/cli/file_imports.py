"""`farmops import readings`, `farmops import costs`, ...: a command for every kind of rows that a file may hold."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Sequence
from textwrap import fill
from typing import TYPE_CHECKING, Any, TypeVar

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option
from farmops.cli.output import emit, line, say
from farmops.exchange.file_words import FILE_WORDS, FileWords
from farmops.model.codec import to_plain
from farmops.model.errors import NotUnderstood
from farmops.model.lines import Stretch, lines_told

if TYPE_CHECKING:
    from farmops.exchange.file_imports import Taken

F = TypeVar("F", bound=Callable[..., Any])
MOST_SAID = 200
LONG = 2_000
"""Rows from which on a bar shows how far an import has come."""
MARKS = ("comma", "point")
ORDERS = ("day-first", "month-first")
OF_KITS = ("readings", "water sources")
HELP_WIDTH = 76
TWICE = "The same file twice adds nothing."
EXITS = "Exit 1: nothing was booked. Exit 4: some rows booked, some not."


def file_argument(command: F) -> F:
    """FILE."""
    return click.argument("file", type=click.Path(exists=True, dir_okay=False))(command)


def reading_options(command: F) -> F:
    """--sheet, --column, --dates and --decimals: how the file is to be read."""
    command = click.option(
        "--decimals", type=click.Choice(MARKS), help="The sign before decimals. [as the file shows, else the farm's]"
    )(command)
    command = click.option(
        "--dates", type=click.Choice(ORDERS), help="How days such as 03/05/2026 are read. [as others in the file show]"
    )(command)
    command = click.option("--sheet", metavar="NAME", help="The sheet of a workbook. [the one whose heads fit best]")(
        command
    )
    return click.option(
        "--column", "columns", multiple=True, metavar="HEAD=COLUMN", help="What a head means: 'kilos=weight (kg)'."
    )(command)


def booking_options(command: F) -> F:
    """--dry-run, --all-or-nothing, --on and --json."""
    command = json_option(command)
    command = click.option("--on", metavar="DAY", help="The day that stands for today. [today]")(command)
    command = click.option("--all-or-nothing", is_flag=True, help="Book nothing when one row is refused.")(command)
    return click.option("--dry-run", is_flag=True, help="Only tell what would be done.")(command)


def sure_option(command: F) -> F:
    """--sure."""
    return click.option("--sure", is_flag=True, help="Book rows that look unlikely, too.")(command)


def meant_by(columns: Iterable[str]) -> dict[str, str]:
    """`kilos=weight (kg)` as head and meaning. Raises NotUnderstood."""
    pairs = [one.rpartition("=")[::2] for one in columns]
    lacking = next((one for one, (head, _) in zip(columns, pairs, strict=True) if not head.strip()), None)
    if lacking is not None:
        raise NotUnderstood(f"{lacking!r} says of no head what it means. Understood: 'kilos=weight (kg)'.")
    return dict(pairs)


def taking(kind: str, words: FileWords) -> click.Command:
    """The command that takes in a file of that kind."""

    def command(desk: Desk, file: str, **said: Any) -> int:
        return _take(desk, kind, file, **said)

    command.__doc__ = _help(words)
    for option in (booking_options, sure_option, reading_options, file_argument):
        command = option(command)
    if kind in OF_KITS:
        command = click.option(
            "--as-n/--as-ion", "as_n", default=None, help="What kits report where a cell does not say."
        )(command)
    return click.command(kind.replace(" ", "-"))(pass_desk(command))


def _help(words: FileWords) -> str:
    about = f"\b\n{fill(words.more, HELP_WIDTH)}\n" if words.more else "\b\n"
    shown = "\n          ".join(f"farmops import {example}" for example in words.examples)
    return f"{words.columns}\n\n{about}{TWICE}\n{EXITS}\nExample{'s' if len(words.examples) > 1 else ''}: {shown}"


def _take(
    desk: Desk,
    kind: str,
    file: str,
    *,
    columns: Sequence[str],
    sheet: str | None,
    dates: str | None,
    decimals: str | None,
    sure: bool,
    dry_run: bool,
    all_or_nothing: bool,
    on: str | None,
    as_json: bool,
    as_n: bool | None = None,
) -> int:
    from farmops.exchange.customs import Decimals, Order
    from farmops.exchange.file_imports import Said, carry_out, foresee, read_rows
    from farmops.model.readings import Form

    form = None if as_n is None else Form.AS_N if as_n else Form.AS_ION
    order, mark = Order(dates) if dates else None, Decimals(decimals) if decimals else None
    said = Said(meant_by(columns), order, mark, form, sure, all_or_nothing, sheet)
    read = read_rows(desk.store, kind, file, said, today=desk.day(on), watch=Bar("Reading"))
    say_how_read(read.told, read.ignored)
    if dry_run:
        found = foresee(desk.store, read, said, by=desk.by, watch=Bar("Trying"))
    else:
        found = carry_out(desk.store, read, said, by=desk.by, operation=desk.operation, watch=Bar("Booking"))
    if as_json:
        emit(_plain(found, dry_run, read.told, read.ignored))
    else:
        _tell(found, dry_run)
    return found.exit_code


class Bar:
    """How far a long import has come, on a terminal alone."""

    def __init__(self, label: str) -> None:
        self.label = label
        self.bar: Any = None
        self.done = 0

    def __call__(self, done: int, total: int) -> None:
        """Draw it."""
        if total < LONG or not sys.stderr.isatty():
            return
        if self.bar is None:
            self.bar = click.progressbar(length=total, label=self.label, file=sys.stderr)
        self.bar.update(done - self.done)
        self.done = done
        if done == total:
            self.bar.render_finish()


def say_how_read(told: Iterable[str], ignored: Sequence[str]) -> None:
    """How a file was read where it could be read otherwise, and which columns were left aside."""
    for words in told:
        say(words)
    if ignored:
        say(f"Columns left aside: {', '.join(ignored)}.")


def say_some(words: Sequence[object], more: str) -> None:
    """The first of many lines, and how many more there are."""
    for one in words[:MOST_SAID]:
        say(str(one))
    if len(words) > MOST_SAID:
        say(f"and {len(words) - MOST_SAID} more{more}; --json lists them all")


def say_lines(booked: Sequence[Stretch], already: Sequence[Stretch]) -> None:
    """Which lines of a file would be booked, and which are there already."""
    for words, lines in (("would be booked", booked), ("already there", already)):
        if lines:
            say(f"{words}: {lines_told(lines)}")


def plain_lines(booked: Sequence[Stretch], already: Sequence[Stretch]) -> dict[str, Any]:
    """The same for JSON: stretches by their first and last line, and what becomes of them."""
    fates = (("booked", booked), ("already", already))
    return {"lines": [{**to_plain(one), "become": fate} for fate, lines in fates for one in lines]}


def _tell(found: Taken, dry_run: bool) -> None:
    would = "would be " if dry_run else ""
    asked = f", {len(found.asked)} to look at" if found.asked else ""
    line(f"{found.booked} {would}booked, {found.already} already there, {len(found.refused)} refused{asked}")
    if dry_run:
        say_lines(found.booked_lines, found.already_lines)
    say_some(found.refused, "")
    say_some([f"Look again at {one}" for one in found.asked], " to look at")
    if found.asked:
        say("Those are not booked. If they are right, say so: --sure")
    if found.booked and not dry_run:
        say("farmops undo takes the whole file back.")


def _plain(found: Taken, dry_run: bool, told: Sequence[str], ignored: Sequence[str]) -> dict[str, Any]:
    return {
        "dry_run": dry_run,
        "booked": found.booked,
        "already": found.already,
        **(plain_lines(found.booked_lines, found.already_lines) if dry_run else {}),
        "refused": [{"line": one.line, "column": one.column, "reason": one.reason} for one in found.refused],
        "questioned": [{"line": one.line, "question": one.question} for one in found.asked],
        "read_as": list(told),
        "left_aside": list(ignored),
    }


COMMANDS = tuple(taking(kind, words) for kind, words in FILE_WORDS.items())
