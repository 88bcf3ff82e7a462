"""Groups whose commands are imported only when they run."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click
from click.shell_completion import CompletionItem


class LazyGroup(click.Group):
    """Names and one-line helps come from a table of name to (module:attribute, words)."""

    def __init__(self, *arguments: Any, table: Mapping[str, tuple[str, str]], **options: Any) -> None:
        super().__init__(*arguments, **options)
        self.table = table

    def list_commands(self, ctx: click.Context) -> list[str]:
        """In the order of the table."""
        return list(self.table)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import the module that holds the command."""
        if cmd_name not in self.table:
            return None
        module, _, name = self.table[cmd_name][0].partition(":")
        command: click.Command = getattr(import_module(module), name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list in the help, without importing anything."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, words) in self.table.items()])

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Names of commands, without importing anything."""
        found = [CompletionItem(name, help=words) for name, (_, words) in self.table.items()]
        return [
            *(one for one in found if one.value.startswith(incomplete)),
            *click.Command.shell_complete(self, ctx, incomplete),
        ]
