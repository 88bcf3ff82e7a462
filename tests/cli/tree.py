"""Every command of the program, found by walking its groups, with arguments that fit each."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.util import find_spec

import click

from farmops.cli.app import COMMANDS, cli

FITTING = {
    "file": "rows.csv",
    "weight": "1 6",
    "area": "24 sq ft",
    "amount": "5",
    "volume": "5 gal",
    "wanted": "80",
    "price": "3.50/lb",
    "mean_weight": "0.5 oz",
    "number": "1",
    "numbers": "1",
    "bed": "WREN-N",
    "where": "WREN-N",
    "unit": "WREN",
    "crop": "CHARD",
    "what": "CHARD",
    "zone": "America/New_York",
    "every": "day",
}
NAMED = {"crops": "CHARD", "people": "Ada", "units": "WREN", "fish": "P1"}
ALSO = {
    "chores add": ["--every", "day"],
    "chores preview": ["--every", "day"],
    "chores print": ["--text"],
    "chores set": ["--unit", "WREN"],
}
EXAMPLE = re.compile(r"(?:[A-Z][a-z ]*: +)?farmops (?P<words>.+)")


@dataclass(frozen=True)
class Leaf:
    """A command that does something, and the words that lead to it."""

    path: tuple[str, ...]
    command: click.Command

    @property
    def name(self) -> str:
        """The words as typed."""
        return " ".join(self.path)

    @property
    def is_group(self) -> bool:
        """Whether it only leads to other commands."""
        return isinstance(self.command, click.Group)

    @property
    def fitting(self) -> list[str]:
        """Words for every argument and option that must be given, and for one thing to change in an edit."""
        return [*self.with_words({}), *ALSO.get(self.name, ()), *self._change]

    def with_words(self, typed: dict[str, str]) -> list[str]:
        """What must be given, in fitting words but for those that are typed."""
        found: list[str] = []
        for one in self.command.params:
            word = typed.get(one.name or "", self._word(one))
            if isinstance(one, click.Option) and (one.required or one.name in typed):
                found += [one.opts[0], word]
            elif isinstance(one, click.Argument) and (one.required or one.name in typed):
                found += [word] * max(1, one.nargs)
        return found

    @property
    def texts(self) -> list[str]:
        """The names of arguments and options that take a word."""
        return [
            one.name or ""
            for one in self.command.params
            if not (isinstance(one, click.Option) and (one.is_flag or one.count or one.flag_value))
        ]

    @property
    def examples(self) -> list[list[str]]:
        """The command lines in its help, split as a shell would, without the program's name."""
        lines = (line.strip() for line in (self.command.help or "").splitlines())
        return [shlex.split(found["words"]) for line in lines if (found := EXAMPLE.fullmatch(line))]

    @property
    def _change(self) -> list[str]:
        if self.path[-1:] != ("edit",):
            return []
        options = [one for one in self.command.params if isinstance(one, click.Option) and one.type is click.STRING]
        return [options[0].opts[0], "A"]

    def _word(self, parameter: click.Parameter) -> str:
        if isinstance(parameter.type, click.Choice):
            return str(next(iter(parameter.type.choices)))
        if parameter.name in ("name", "code") and self.path[-1] != "add":
            return NAMED.get(self.path[0], "A")
        whole = isinstance(parameter.type, click.types.IntParamType | click.types.FloatParamType)
        return "1" if whole else FITTING.get(parameter.name or "", "A")


def walk() -> Iterator[Leaf]:
    """All commands and groups, depth first."""
    root = click.Context(cli, info_name="farmops")
    yield from _below((), cli, root)


def _below(path: tuple[str, ...], command: click.Command, ctx: click.Context) -> Iterator[Leaf]:
    yield Leaf(path, command)
    if isinstance(command, click.Group):
        for name in command.list_commands(ctx):
            if command is cli and not exists(name):
                continue
            inner = command.get_command(ctx, name)
            assert inner is not None, f"farmops {' '.join(path)} lists {name}, and has none"
            yield from _below((*path, name), inner, click.Context(inner, parent=ctx, info_name=name))


def exists(name: str) -> bool:
    """Whether the module that the program's table names for a command is there."""
    return find_spec(COMMANDS[name][0].partition(":")[0]) is not None
