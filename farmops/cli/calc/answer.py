"""An answer and how it is told: the plain words first, then how, for what range, from where, and what to mind."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import field
from typing import Any

import click

from farmops.cli.output import emit, line
from farmops.model.frozen import dataclass

WIDTH = 96
INDENT = 9


@dataclass(frozen=True, slots=True)
class Answer:
    """What a sum came to: words for a grower, numbers in canonical units by name, and what they rest on."""

    plain: tuple[str, ...]
    data: dict[str, Any]
    how: tuple[str, ...]
    holds: tuple[str, ...]
    source: tuple[str, ...]
    mind: tuple[str, ...] = field(default=())


def give(answer: Answer, *, as_json: bool) -> None:
    """Print an answer, as one object or as lines."""
    reasons = {"how": answer.how, "holds": answer.holds, "source": answer.source, "mind": answer.mind}
    if as_json:
        emit({**answer.data, "plain": answer.plain, **reasons})
        return
    for words in answer.plain:
        line(words)
    for label, entries in reasons.items():
        for place, words in enumerate(entries):
            line(_labelled(label.capitalize() if place == 0 else "", words))


def _labelled(label: str, words: str) -> str:
    wrapped = textwrap.fill(words, WIDTH - INDENT, break_long_words=False, break_on_hyphens=False)
    return f"{label:<{INDENT}}" + wrapped.replace("\n", "\n" + " " * INDENT)


def belong_together(**options: object) -> None:
    """A usage error where some of these options are given and others, which they need, are not."""
    given = [value is not None for value in options.values()]
    if any(given) and not all(given):
        names = [f"--{name.replace('_', '-')}" for name in options]
        raise click.UsageError(f"{', '.join(names[:-1])} and {names[-1]} belong together.")


def together(parts: Iterable[Answer | None], *, missing: str) -> Answer:
    """One answer from those that could be given; a usage error in words where there was none."""
    given = [part for part in parts if part is not None]
    if not given:
        raise click.UsageError(missing)
    data: dict[str, Any] = {}
    for part in given:
        data |= part.data
    return Answer(
        _once(part.plain for part in given),
        data,
        _once(part.how for part in given),
        _once(part.holds for part in given),
        _once(part.source for part in given),
        _once(part.mind for part in given),
    )


def _once(entries: Iterable[Sequence[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words for group in entries for words in group))
