"""What holds of every command of the program, found by walking its groups."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import click
import pytest

from tests.cli.hand import Hand
from tests.cli.tree import Leaf, walk

NODES = list(walk())
COMMANDS = [one for one in NODES if not one.is_group]
NEED_NO_FARM = ("farm open", "chores preview", "calc", "demo", "restore", "import package")
NEED_FARM = [one for one in COMMANDS if not one.name.startswith(NEED_NO_FARM)]
HOSTILE = (
    "",
    "-",
    "\x1b[31mred\x1b]0;title\x07",
    "\u202etxt.exe",
    "caf\udce9",
    "'; DROP TABLE unit; --",
    "🐟" * 400,
    "9" * 40,
    "-1",
    "0",
    "٣",
    "0001-01-01",
    "9999-12-31",
)
HARMLESS = set("\n\t")


def named(one: Leaf) -> str:
    """The test's id."""
    return one.name or "farmops"


@pytest.fixture
def unopened(sqlite_template: Path, nowhere: Hand) -> Hand:
    """A hand at a store that was laid, but holds no farm."""
    shutil.copy(sqlite_template, nowhere.place)
    return nowhere


@pytest.fixture
def _in_a_folder_with_a_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "rows.csv").write_text("date,unit,bed,crop,weight\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)


@pytest.mark.usefixtures("_in_a_folder_with_a_file")
@pytest.mark.parametrize("command", NEED_FARM, ids=named)
def test_without_a_farm_it_says_what_to_do_first(nowhere: Hand, command: Leaf) -> None:
    words = nowhere.refused(*command.path, *command.fitting)
    assert words.startswith("No farm here yet. Open one with: farmops farm open")
    assert not nowhere.place.exists()


@pytest.mark.usefixtures("_in_a_folder_with_a_file")
@pytest.mark.parametrize("command", NEED_FARM, ids=named)
def test_in_a_store_without_a_farm_it_says_what_to_do_first(unopened: Hand, command: Leaf) -> None:
    assert unopened.refused(*command.path, *command.fitting).startswith("No farm here yet. Open one with:")


@pytest.mark.parametrize("command", NODES, ids=named)
@pytest.mark.parametrize("option", ["--help", "-h"])
def test_help_is_given_without_a_farm(nowhere: Hand, command: Leaf, option: str) -> None:
    said = nowhere(*command.path, option)
    assert said.err == ""
    assert said.out.startswith(f"Usage: farmops {' '.join(command.path)}".rstrip())


@pytest.mark.parametrize("command", COMMANDS, ids=named)
def test_help_has_an_example_of_that_command(command: Leaf) -> None:
    assert any(tuple(words[: len(command.path)]) == command.path for words in command.examples)


@pytest.mark.parametrize("command", [one for one in NODES if one.examples], ids=named)
def test_every_example_in_help_can_be_read(command: Leaf, nowhere: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    carried_out: list[str] = []

    def note(self: click.Command, ctx: click.Context) -> None:
        carried_out.append(ctx.command_path)

    def any_file(self: click.Path, value: Any, *_: Any) -> Any:
        return value

    monkeypatch.setattr(click.Command, "invoke", note)
    monkeypatch.setattr(click.Path, "convert", any_file)
    for words in command.examples:
        nowhere(*words)
        assert carried_out.pop().removeprefix("farmops ").split() == words[: len(carried_out)]
        carried_out.clear()


@pytest.mark.usefixtures("_in_a_folder_with_a_file")
@pytest.mark.parametrize("command", COMMANDS, ids=named)
def test_whatever_is_typed_is_answered_in_words(farm: Hand, command: Leaf) -> None:
    for name in command.texts:
        for typed in HOSTILE:
            said = farm.types(*command.path, *command.with_words({name: typed}))
            told = f"{command.name} with {name} {typed!r}: exit {said.code}, {said.out}{said.err}"
            assert said.code in (0, 1, 2, 4), told
            assert "has a fault" not in said.err, told
            assert all(sign.isprintable() or sign in HARMLESS for sign in said.out + said.err), told


@pytest.mark.parametrize("command", COMMANDS, ids=named)
def test_every_command_that_answers_can_do_so_in_json(command: Leaf) -> None:
    if command.path[-1] not in ("remove", "demo"):
        assert "--json" in [name for one in command.command.params for name in one.opts]


@pytest.mark.parametrize("group", [one for one in NODES if one.is_group], ids=named)
def test_the_commands_of_a_group_fit_a_line_each_of_80_columns(nowhere: Hand, group: Leaf) -> None:
    lines = nowhere(*group.path, "--help").out.partition("Commands:")[2].splitlines()
    assert [line for line in lines if line.endswith("...") or len(line) > 80 or line.startswith("    ")] == []


@pytest.mark.parametrize("command", COMMANDS, ids=named)
def test_no_help_names_the_largest_number_a_store_keeps(nowhere: Hand, command: Leaf) -> None:
    assert "9223372036854775807" not in command.command.get_help(click.Context(command.command))
