"""What commands share that write a paper: where to, on which paper, and what is told of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from farmops.cli.options import one_of, word
from farmops.cli.output import emit, line, say
from farmops.exchange.pages.papers import Paper
from farmops.exchange.written import How, Written

F = TypeVar("F", bound=Callable[..., Any])
OPTIONS = (
    click.option("--out", "file", metavar="FILE", help="The file to write: a PDF, or plain text with --text."),
    click.option("--text", "as_text", is_flag=True, help="Plain text, 72 columns wide; on stdout without --out."),
    click.option("--paper", type=one_of(Paper), help="[letter where the farm weighs in lb, a4 where in kg]"),
    click.option("--font", metavar="FILE", help="A TrueType font for signs that the packaged one lacks."),
    click.option("--replace", is_flag=True, help="Write over a file that is there."),
    click.option("--json", "as_json", is_flag=True, help="One JSON object on stdout."),
)


def paper_options(command: F) -> F:
    """--out, --text, --paper, --font, --replace and --json; pass them on to `give_paper`."""
    for option in reversed(OPTIONS):
        command = option(command)
    return command


def must_go_somewhere(file: str | None, *, as_text: bool) -> None:
    """Only text can do without a file. Raises UsageError."""
    if file is None and not as_text:
        raise click.UsageError("Say where to: --out FILE for a PDF, or --text for plain text.")


def give_paper(
    text: Callable[[], str],
    write: Callable[[How], Written],
    more: Callable[[], dict[str, Any]] = dict,
    *,
    file: str | None,
    as_text: bool,
    paper: str | None,
    font: str | None,
    replace: bool,
    as_json: bool,
) -> None:
    """Print a paper as text, or write it into a file and tell of it; `more` goes into the JSON object."""
    must_go_somewhere(file, as_text=as_text)
    if file is None:
        found = text()
        if as_json:
            emit({"file": None, "paper": None, "pages": None, "not_drawn": "", "text": found, **more()})
        else:
            line(found.rstrip("\n"))
        return
    done = write(How(file, word(Paper, paper), font, as_text, replace))
    if as_json:
        told = {"file": str(done.file), "paper": done.paper, "pages": done.pages, "not_drawn": done.lacking}
        emit({**told, "text": None, **more()})
    else:
        say(done.told)
