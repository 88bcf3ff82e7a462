"""What holds for every command of `farmops calc`: help, refusals, one object, no farm, never a traceback."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator

import click
import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.cli.calc import calc as group
from farmops.cli.calc.typed import Altitude, Named, Typed
from farmops.cli.desk import Desk
from tests.cli.calc_runs import FULL_LINES, calc, refusal


def commands(under: click.Group = group, path: str = "") -> Iterator[tuple[str, click.Command]]:
    for name, command in under.commands.items():
        full = f"{path} {name}".strip()
        if isinstance(command, click.Group):
            yield from commands(command, full)
        else:
            yield full, command


COMMANDS = dict(commands())
OPTIONS = [
    pytest.param(path, option, id=f"{path} {option.opts[0]}")
    for path, command in COMMANDS.items()
    for option in command.params
    if isinstance(option.type, Typed)
]


NONSENSE = ("abc", "", "1 2 3", "7,5", "5 bananas", "--", "٣C", "nan", "1e400", "x\x1b[2J")


def with_value(path: str, option: click.Parameter, text: str) -> list[str]:
    """The full line of a command, one option changed or added."""
    words = FULL_LINES[path].split()
    name = option.opts[0]
    values = [text] * option.nargs
    if name not in words:
        return [*words, name, *values]
    at = words.index(name)
    return [*words[: at + 1], *values, *words[at + 1 + option.nargs :]]


def without(path: str, option: click.Parameter) -> list[str]:
    words = FULL_LINES[path].split()
    at = words.index(option.opts[0])
    return [*words[:at], *words[at + 1 + option.nargs :]]


def test_every_command_has_a_full_line() -> None:
    assert set(FULL_LINES) == set(COMMANDS)


@pytest.mark.parametrize("path", FULL_LINES)
def test_full_line_is_answered_plainly_and_as_one_object(path: str) -> None:
    words = FULL_LINES[path].split()
    told, found = calc(*words), calc(*words, "--json")
    assert (told.code, found.code) == (0, 0)
    assert (told.err, found.err) == ("", "")
    plain = json.loads(found.out)
    assert plain["schema"] == 1
    assert told.out.startswith("\n".join(plain["plain"]) + "\nHow ")
    for reasons in ("how", "holds", "source", "mind"):
        assert plain[reasons], f"{path} does not say: {reasons}"
        assert f"\n{reasons.capitalize():<9}" in told.out


@pytest.mark.parametrize("path", ["", "dose", *FULL_LINES])
def test_help_has_an_example_that_works(path: str) -> None:
    ran = calc(*path.split(), "--help")
    examples = [line.partition("farmops calc ")[2] for line in ran.out.splitlines() if "farmops calc " in line]
    examples = [words for words in examples if "--" in words]
    assert ran.code == 0
    assert examples
    for words in examples:
        assert calc(*words.split()).code == 0, words


def test_list_of_commands_shows_whole_sentences() -> None:
    for path in ("", "dose"):
        assert "..." not in calc(*path.split(), "--help").out.partition("Commands:")[2]


@pytest.mark.parametrize(("path", "option"), OPTIONS)
def test_nonsense_is_refused_in_words_that_name_the_option(path: str, option: click.Parameter) -> None:
    for nonsense in NONSENSE:
        ran = calc(*with_value(path, option, nonsense))
        assert ran.code == 1, nonsense
        assert ran.err.startswith(f"{option.opts[0]}: ")
        assert "Understood: " in ran.err
        assert "\x1b" not in ran.err


@pytest.mark.parametrize(("path", "option"), [case for case in OPTIONS if isinstance(case.values[1].type, Named)])
def test_amount_without_a_unit_is_refused(path: str, option: click.Parameter) -> None:
    ran = calc(*with_value(path, option, "17"))
    assert ran.code == 1
    assert "does not name its unit" in ran.err


@pytest.mark.parametrize(("path", "option"), OPTIONS)
def test_every_example_in_a_refusal_is_understood(path: str, option: click.Parameter) -> None:
    kind = option.type
    assert isinstance(kind, Typed)
    for example in kind.examples:
        kind.convert(example.strip('"'), option, None)


@pytest.mark.parametrize(
    ("path", "option"),
    [
        pytest.param(path, option, id=f"{path} {option.opts[0]}")
        for path, command in COMMANDS.items()
        for option in command.params
        if option.required
    ],
)
def test_missing_option_is_a_matter_of_usage(path: str, option: click.Parameter) -> None:
    ran = calc(*without(path, option))
    assert ran.code == 2
    assert option.opts[0] in ran.err


def test_only_an_altitude_may_lie_below_nothing() -> None:
    for case in OPTIONS:
        path, option = case.values
        if (
            isinstance(option.type, Named)
            and not isinstance(option.type, Altitude)
            and option.type.name != "temperature"
        ):
            assert "minus sign" in refusal(" ".join(with_value(path, option, "-1m")).replace("-1m", "-1L")), case.id


@pytest.mark.parametrize("path", FULL_LINES)
def test_no_farm_is_opened(path: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def touched(desk: Desk) -> None:
        raise AssertionError("the store was touched")

    monkeypatch.setattr(Desk, "store", property(touched))
    monkeypatch.setattr(Desk, "farm", property(touched))
    assert calc(*FULL_LINES[path].split()).code == 0


def test_nothing_of_a_farm_is_imported() -> None:
    program = (
        "import sys; import farmops.cli.calc; "
        "print([name for name in sys.modules if name.startswith(('farmops.farm', 'farmops.records', 'farmops.reports',"
        " 'farmops.facts', 'sqlalchemy', 'sqlmodel', 'pandas', 'numpy', 'scipy', 'dateutil'))])"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


NUMBERS = st.one_of(
    st.sampled_from(["0", "1", "-1", "0.2", "7", "40", "100", "1e9", "999999999", "0.000001"]),
    st.floats(-50, 5000).map(lambda number: f"{number:.3f}"),
)
UNITS = ["", "C", "F", "L", "gal", "m3", "mm", "in", "m", "ft", "kg", "g", "lb", "oz", "m2", "sq ft", "L/h", "gph"]
TYPED = st.one_of(
    st.tuples(NUMBERS, st.sampled_from([*UNITS, "%", "mg/L", "hPa", "inHg", "/m2", "L/h@2m", "@1m"])).map("".join),
    st.text(max_size=12),
)
FITTING = {
    "temperature": ["C", "F"],
    "volume": ["L", "gal", "m3"],
    "weight": ["g", "kg", "lb", "oz"],
    "area": ["m2", "sq ft"],
    "length": ["mm", "cm", "m", "in", "ft"],
    "altitude": ["m", "ft"],
    "flow": ["L/h", "gph", "gal/min"],
    "pressure": ["hPa", "inHg"],
    "density": ["/m2", "/sq ft"],
    "point": ["L/h@1m", "L/h@2m", "gph@0m"],
}


def values(option: click.Parameter) -> st.SearchStrategy[str]:
    if isinstance(option.type, click.Choice):
        return st.sampled_from(list(option.type.choices))
    if option.type.name in FITTING:
        sizes = st.floats(0, 3000).map(lambda number: f"{number:.2f}")
        fitting = st.tuples(sizes, st.sampled_from(FITTING[option.type.name])).map("".join)
        return st.one_of(fitting, fitting, fitting, TYPED)
    if option.opts[0] in ("--species", "--crop"):
        return st.one_of(st.sampled_from(["nile-tilapia", "rainbow-trout", "yellow-perch", "chard", "celery"]), TYPED)
    return st.one_of(NUMBERS, NUMBERS, TYPED)


def usual(path: str, option: click.Parameter) -> list[str]:
    """The value of an option in the full line, none where it has no place there."""
    words = FULL_LINES[path].split()
    if option.opts[0] not in words:
        return []
    at = words.index(option.opts[0])
    return words[at : at + 1 + option.nargs]


def drawn(draw: st.DrawFn, option: click.Parameter) -> list[str]:
    if getattr(option, "is_flag", False):
        return [option.opts[0]]
    return [option.opts[0], *(draw(values(option)) for _ in range(option.nargs))]


@st.composite
def lines(draw: st.DrawFn) -> list[str]:
    """A command with most of its options as usual, some as they come, some left out."""
    path = draw(st.sampled_from(sorted(COMMANDS)))
    words = path.split()
    for option in COMMANDS[path].params:
        choice = draw(st.sampled_from(["usual"] * 4 + ["drawn", "left out"]))
        words += {"usual": usual(path, option), "left out": []}.get(choice) or (
            drawn(draw, option) if choice == "drawn" else []
        )
    return words


def not_json(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON")


@given(lines())
def test_whatever_is_typed_ends_in_an_answer_or_in_words(words: list[str]) -> None:
    ran = calc(*words)
    assert ran.code in (0, 1, 2)
    assert (ran.out if ran.code == 0 else ran.err).strip()
    assert "Traceback" not in ran.err
    if ran.code == 0 and "--json" in words:
        json.loads(ran.out, parse_constant=not_json)
    if ran.code == 0 and "--json" not in words:
        for ugly in ("nan", "inf ", "e+", "no number"):
            assert ugly not in ran.out.partition("\nHow")[0]
