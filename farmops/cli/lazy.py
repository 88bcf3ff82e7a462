"""Groups whose commands are imported only when they run."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click
from click.shell_completion import CompletionItem

from farmops.cli.short_help import shorten


class LazyGroup(click.Group):
    """Names and one-line helps come from a table of name to (module:attribute, words).

    `begin` names the commands with which a new heading begins in the help, and the headings.
    """

    def __init__(
        self,
        *arguments: Any,
        table: Mapping[str, tuple[str, str]],
        begin: Mapping[str, str] | None = None,
        **options: Any,
    ) -> None:
        super().__init__(*arguments, **options)
        self.table = table
        self.begin = begin or {}

    def list_commands(self, ctx: click.Context) -> list[str]:
        """In the order of the table."""
        return list(self.table)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import the module that holds the command."""
        if cmd_name not in self.table:
            return None
        module, _, name = self.table[cmd_name][0].partition(":")
        command: click.Command = getattr(import_module(module), name)
        if isinstance(command, click.Group):
            shorten(command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is named. Raises UsageError with the names it is like."""
        name = args[0]
        if name not in self.table and name[:1].isalnum() and not ctx.resilient_parsing:
            raise click.UsageError(f"No such command '{name}'.{self._like(name)}", ctx)
        return super().resolve_command(ctx, args)

    def _like(self, name: str) -> str:
        from difflib import get_close_matches

        near = get_close_matches(name, self.table)
        return f" Did you mean {' or '.join(near)}?" if near else ""

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list in the help, without importing anything; all columns begin at the same place."""
        widest = max(len(name) for name in self.table)
        for heading, names in self._sections().items():
            with formatter.section(heading):
                formatter.write_dl([(name.ljust(widest), self.table[name][1]) for name in names])

    def _sections(self) -> dict[str, list[str]]:
        heading = "Commands"
        found: dict[str, list[str]] = {}
        for name in self.table:
            heading = self.begin.get(name, heading)
            found.setdefault(heading, []).append(name)
        return found

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Names of commands, without importing anything."""
        found = [CompletionItem(name, help=words) for name, (_, words) in self.table.items()]
        return [
            *(one for one in found if one.value.startswith(incomplete)),
            *click.Command.shell_complete(self, ctx, incomplete),
        ]
