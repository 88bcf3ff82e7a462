"""First lines of helps that fit a terminal: where a sentence is longer, it ends at a stop within it."""

from __future__ import annotations

import re

import click

WIDTH = 72
"""Columns of a list of commands on a terminal of 80, with the name and the words of one."""
STOPS = ("; ", ": ", ", ", " that ", " with ", " by its ", " in the ", " on a day ", " of ", " and ")
"""Where a sentence may end before it is over, the best first."""
BRACKETS = re.compile(r" \([^)]*\)")
NEEDED_ONLY = "; also "


def shorten(group: click.Group) -> None:
    """Give the commands of a group, and of the groups in it, words for the list of commands where theirs are too long.

    Words of their own, `short_help`, stay.
    """
    room = WIDTH - max(map(len, group.commands), default=0)
    for command in group.commands.values():
        if command.short_help is None and command.help and command.get_short_help_str(room).endswith("..."):
            command.short_help = first_line(command.help, room)
        if isinstance(command, click.Group):
            shorten(command)


def first_line(text: str, room: int) -> str:
    """The beginning of a help in so many columns."""
    said = " ".join(text.partition("\n\n")[0].split())
    needed = BRACKETS.sub("", said).partition(NEEDED_ONLY)[0].rstrip(".") + "."
    if NEEDED_ONLY in said and len(needed) <= room:
        return needed
    ends = (said.rfind(stop, 0, room) for stop in STOPS)
    end = next((at for at in ends if at > 0), -1)
    return f"{said[:end]}." if end > 0 else click.Command(None, help=said).get_short_help_str(room)
