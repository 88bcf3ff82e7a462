"""The pages keep their word: equations named, files there, commands that run, keys as promised."""

from __future__ import annotations

import ast
import contextlib
import io
import json
import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.main import run
from tests.cli.tree import walk
from tests.frozen import frozen
from tests.json_page import (
    PAGE,
    TODAY,
    Section,
    answers,
    documented,
    keys_of,
    sections,
    unknown,
    unseen,
)

ROOT = Path(__file__).parent.parent
METHODS = ROOT / "docs" / "methods.md"
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
RUN_ELSEWHERE = {PAGE}
"""Its commands run with their objects compared."""

FENCED = re.compile(r"^```[a-z]*\n(?P<text>(?:(?!^```).*\n)*)```", re.MULTILINE)
FILE = re.compile(r"`((?:farmops|tests|docs|demo_data)/[\w./-]+\.\w+)`")
LINK = re.compile(r"\]\((?!https?:)([^)#]+)")
ROOM = re.compile(r"^#{2,3} .*`(?P<module>farmops/\w+/\w+\.py)`\n(?P<body>(?:(?!^##).*\n?)*)", re.MULTILINE)

ROWS = [line for line in METHODS.read_text(encoding="utf-8").splitlines() if line.startswith("| `")]
SECTIONS = sections(PAGE.read_text(encoding="utf-8"))
KNOWN = {section.name: section for section in SECTIONS}
PRINTED = [section for section in SECTIONS if section.commands]


def named(path: Path) -> str:
    """A page as a test's id."""
    return path.relative_to(ROOT).as_posix()


def public_functions() -> Iterator[tuple[str, str]]:
    """Every public function of the rooms of sums: the module as a path, and its name."""
    for room in ("science", "economics"):
        for file in sorted((ROOT / "farmops" / room).glob("*.py")):
            for node in ast.parse(file.read_text(encoding="utf-8")).body:
                if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                    yield named(file), node.name


@pytest.mark.parametrize(("module", "name"), list(public_functions()))
def test_every_public_function_stands_under_its_module_in_the_methods(module: str, name: str) -> None:
    rooms = {found["module"]: found["body"] for found in ROOM.finditer(METHODS.read_text(encoding="utf-8"))}
    assert module in rooms, f"docs/methods.md has no section on {module}"
    assert f"`{name}`" in rooms[module], f"docs/methods.md does not name {name} under {module}"


def test_the_methods_name_no_function_that_is_not_there() -> None:
    there = {module: (ROOT / module).read_text(encoding="utf-8") for module, _ in public_functions()}
    for found in ROOM.finditer(METHODS.read_text(encoding="utf-8")):
        first_cells = [row.split("|")[1] for row in found["body"].splitlines() if row.startswith("| `")]
        for name in re.findall(r"`(\w+)`", "".join(first_cells)):
            source = there[found["module"]]
            assert re.search(rf"^(def|class) {name}\b", source, re.MULTILINE), f"{found['module']} has no {name}"


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_every_file_a_page_names_is_there(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    missing = [name for name in FILE.findall(text) if not (ROOT / name).exists()]
    missing += [name for name in LINK.findall(text) if not (page.parent / name).exists()]
    assert not missing


def test_every_row_of_methods_says_how_sure_it_is() -> None:
    words = ("verified", "cross-computed", "from memory", "common practice", "see the tables")
    assert len(ROWS) > 80
    assert [row for row in ROWS if not any(word in row for word in words)] == []


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.split("`")[1])
def test_every_row_of_methods_names_a_test_that_calls_its_functions(row: str) -> None:
    files = re.findall(r"`(tests/[\w/.]+)`", row)
    tests = "".join((ROOT / name).read_text(encoding="utf-8") for name in files)
    assert files
    for name in re.findall(r"`(\w+)`", row.split("|")[1]):
        assert re.search(rf"\b{name}\b", tests), f"{name} is in none of {files}"


def commands_of(page: Path) -> list[str]:
    """The command lines in the blocks of a page, in order."""
    blocks = [found["text"] for found in FENCED.finditer(page.read_text(encoding="utf-8"))]
    return [line for block in blocks for line in block.splitlines() if line.startswith("farmops ")]


WITH_COMMANDS = [page for page in PAGES if page not in RUN_ELSEWHERE and commands_of(page)]


def test_the_readme_has_a_first_hour() -> None:
    assert ROOT / "README.md" in WITH_COMMANDS
    assert len(commands_of(ROOT / "README.md")) > 10


@pytest.mark.parametrize("page", WITH_COMMANDS, ids=named)
def test_the_commands_of_a_page_run_in_order_on_a_fresh_store(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FARMOPS_FARM", str(tmp_path / "farm.db"))
    monkeypatch.setenv("FARMOPS_BY", "Ada")
    with frozen(TODAY):
        for line in commands_of(page):
            with contextlib.redirect_stdout(io.StringIO()) as out, contextlib.redirect_stderr(io.StringIO()) as err:
                code = run(shlex.split(line)[1:])
            assert code == 0, f"{line}: {err.getvalue()}"
            assert out.getvalue() or err.getvalue(), f"{line} says nothing"


@pytest.mark.parametrize("section", PRINTED, ids=lambda section: section.name)
def test_the_keys_of_a_command_are_those_of_its_table(section: Section) -> None:
    promised = documented(section, KNOWN) | {"schema"}
    said = answers()[section.name]
    found = {key for one in said for key in keys_of(one)}
    assert said
    assert unknown(found, promised) == set(), "printed, but not in docs/json.md"
    assert unseen(found, promised) == set(), "in docs/json.md, but never printed"


@pytest.mark.parametrize("section", PRINTED, ids=lambda section: section.name)
def test_the_example_of_a_table_has_no_other_keys(section: Section) -> None:
    assert section.example is not None
    found = set(keys_of(json.loads(section.example)))
    assert found > {"schema"}
    assert unknown(found, documented(section, KNOWN) | {"schema"}) == set()


def test_every_command_with_json_is_documented() -> None:
    typed = [line for section in PRINTED for line in section.commands if line.endswith(" --json")]
    lines = [shlex.split(re.sub(r"^farmops --farm \S+", "farmops", line))[1:] for line in typed]
    with_json = [one for one in walk() if any("--json" in given.opts for given in one.command.params)]
    assert len(with_json) > 50
    assert [one.name for one in with_json if not any(tuple(line[: len(one.path)]) == one.path for line in lines)] == []
