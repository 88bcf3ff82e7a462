"""docs/json.md as the tests read it: commands, tables of keys, examples; run as a module it renews the examples."""

from __future__ import annotations

import contextlib
import io
import json
import re
import shlex
import sqlite3
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

from tests.cli.tree import walk
from tests.frozen import frozen

PAGE = Path(__file__).parent.parent / "docs" / "json.md"
TODAY = "2026-10-14"
FARM = "farm.db"
WIDTH = 110
LONGEST = 48
FOUND_PROBLEMS = 4
SECTION = re.compile(r"^### (?P<name>.+)\n(?P<body>(?:(?!^##).*\n?)*)", re.MULTILINE)
KEY = re.compile(r"^\| `(?P<key>[^`]+)` \|", re.MULTILINE)
COMMANDS = re.compile(r"^```\n(?P<lines>(?:farmops .+\n)+)```", re.MULTILINE)
EXAMPLE = re.compile(r"^```json\n(?P<text>(?:(?!^```).*\n)*)```", re.MULTILINE)
FILE = re.compile(r"^```csv (?P<name>\S+)\n(?P<text>(?:(?!^```).*\n)*)```", re.MULTILINE)
IDENTITY = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
INCLUDED = re.compile(r"(?P<before>.*)\{(?P<name>.+)\}")


@dataclass(frozen=True)
class Section:
    """One kind of object: the commands that print it, its keys as documented, its example as text."""

    name: str
    commands: tuple[str, ...]
    keys: tuple[str, ...]
    files: Mapping[str, str]
    example: str | None


def sections(page: str) -> list[Section]:
    """The sections of the page, in its order."""
    return [_section(found["name"], found["body"]) for found in SECTION.finditer(page)]


def _section(name: str, body: str) -> Section:
    lines = [line for found in COMMANDS.finditer(body) for line in found["lines"].splitlines()]
    example = EXAMPLE.search(body)
    files = {found["name"]: found["text"] for found in FILE.finditer(body)}
    keys = tuple(found["key"] for found in KEY.finditer(body))
    return Section(name, tuple(lines), keys, files, example and example["text"])


def documented(section: Section, known: Mapping[str, Section]) -> set[str]:
    """The keys of a section, those of the objects it holds written out."""
    found = set()
    for key in section.keys:
        held = INCLUDED.fullmatch(key)
        if held is None:
            found.add(key)
        else:
            found |= {held["before"] + inner for inner in documented(known[held["name"]], known)}
    return found


def keys_of(value: Any, path: str = "") -> Iterator[str]:
    """The keys of an object, down to its last; an empty list or object is a key itself."""
    if isinstance(value, dict) and value:
        for key, inner in value.items():
            yield from keys_of(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and value:
        for inner in value:
            yield from keys_of(inner, f"{path}[]")
    else:
        yield path


def unknown(found: Iterable[str], promised: set[str]) -> set[str]:
    """What the tables do not tell: neither a key, nor one below a star, nor empty or null where keys could stand."""
    stars = tuple(key.removesuffix("*") for key in promised if key.endswith(".*"))
    return {
        key
        for key in found
        if key not in promised
        and not key.startswith(stars)
        and not any(other.startswith((f"{key}.", f"{key}[]")) for other in promised)
    }


def unseen(found: set[str], promised: set[str]) -> set[str]:
    """What the tables tell and no object had; what is below a star need not be there."""
    return {key for key in promised if key not in found and not key.endswith(".*")}


@dataclass(frozen=True)
class Ran:
    """A command that was run: its line, what it printed, and whether the farm was changed by it."""

    section: str
    line: str
    printed: str
    changed: bool


@cache
def ran() -> tuple[Ran, ...]:
    """The commands of the page, run in its order on one invented farm."""
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder), frozen(TODAY):
        return tuple(one for section in sections(PAGE.read_text(encoding="utf-8")) for one in _run(section))


def changed_nothing() -> set[str]:
    """The commands that answered with an object each time, and never changed the farm."""
    leaves = {one.name: one for one in walk() if not one.is_group or one.name == "chores"}
    changed: dict[str, bool] = {}
    for one in ran():
        words = shlex.split(one.line.removeprefix("farmops "))
        named = [name for name, leaf in leaves.items() if tuple(words[: len(leaf.path)]) == leaf.path]
        if one.line.endswith(" --json") and named:
            name = max(named, key=len)
            changed[name] = changed.get(name, False) or one.changed
    return {name for name, so in changed.items() if not so}


@cache
def answers() -> Mapping[str, tuple[dict[str, Any], ...]]:
    """The objects that the commands of each section print, all of them run in order on one invented farm."""
    told: dict[str, list[dict[str, Any]]] = {one.name: [] for one in sections(PAGE.read_text(encoding="utf-8"))}
    for one in ran():
        if one.line.endswith(" --json"):
            told[one.section].append(json.loads(one.printed))
    return {name: tuple(objects) for name, objects in told.items()}


def _run(section: Section) -> Iterator[Ran]:
    for name, text in section.files.items():
        Path(name).write_text(text, encoding="utf-8")
    for line in section.commands:
        before = _booked()
        printed = _said(line)
        yield Ran(section.name, line, printed, _booked() != before)


def _booked() -> int:
    """How many entries the journal has."""
    if not Path(FARM).exists():
        return 0
    with contextlib.closing(sqlite3.connect(FARM)) as farm:
        return int(farm.execute("select count(*) from journal").fetchone()[0])


def _said(line: str) -> str:
    from farmops.main import run

    with contextlib.redirect_stdout(io.StringIO()) as out, contextlib.redirect_stderr(io.StringIO()) as err:
        code = run(["--farm", FARM, "--by", "Ada", *shlex.split(line)[1:]])
    assert code in (0, FOUND_PROBLEMS), f"{line}: exit {code}, {err.getvalue()}"
    return out.getvalue()


def cut(value: Any) -> Any:
    """A value as the examples show it: first entry of a list, first words of a long text, steady part of an id."""
    if isinstance(value, dict):
        return {key: cut(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [cut(inner) for inner in value[:1]]
    if isinstance(value, str) and IDENTITY.fullmatch(value):
        return f"{value[:13]}..."
    if isinstance(value, str) and len(value) > LONGEST:
        return value[:LONGEST].rpartition(" ")[0] + " ..."
    return value


def written(value: Any, indent: int = 0) -> str:
    """JSON in lines that fit the page, as many entries to a line as there is room for."""
    flat = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, dict | list) or len(flat) + indent <= WIDTH:
        return flat
    inside = indent + 2
    if isinstance(value, list):
        entries, ends = [written(inner, inside) for inner in value], "[]"
    else:
        entries, ends = [f"{json.dumps(key)}: {written(inner, inside)}" for key, inner in value.items()], "{}"
    lines = [""]
    for entry in entries:
        fits = "\n" not in entry + lines[-1] and len(lines[-1]) + len(entry) + inside + 2 <= WIDTH
        if fits and lines[-1]:
            lines[-1] += f", {entry}"
        else:
            lines.append(entry)
    return f"{ends[0]}\n" + ",\n".join(" " * inside + line for line in lines[1:]) + f"\n{' ' * indent}{ends[1]}"


def renewed(page: str) -> str:
    """The page with the example of every section made again."""
    said = answers()

    def again(found: re.Match[str]) -> str:
        objects = said[found["name"]]
        if not objects:
            return found[0]
        return EXAMPLE.sub(lambda _: f"```json\n{written(cut(objects[0]))}\n```", found[0])

    return SECTION.sub(again, page)


if __name__ == "__main__":
    import_module("tests.conftest")  # the floors are loaded before time stands still
    PAGE.write_text(renewed(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
