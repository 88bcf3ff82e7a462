"""Our frozen dataclasses behave as the standard library's do."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
import re
from collections.abc import Callable
from dataclasses import FrozenInstanceError, field, fields, replace
from pathlib import Path
from typing import Any

import pytest

import farmops
from farmops.model import frozen


@frozen.dataclass(frozen=True, slots=True)
class Crate:
    """A class of ours."""

    mark: str
    grams: int = 0
    notes: list[str] = field(default_factory=list)
    seen: int = field(default=1, repr=False, compare=False)

    def __post_init__(self) -> None:
        if self.grams < 0:
            raise ValueError("lighter than nothing")


@frozen.dataclass(frozen=True, slots=True)
class Heavy(Crate):
    """One that inherits, with an equality of its own."""

    tare: int = 5

    def __repr__(self) -> str:
        return "heavy"


@dataclasses.dataclass(frozen=True, slots=True)
class Standard:
    """The same as a crate, by the standard library."""

    mark: str
    grams: int = 0
    notes: list[str] = field(default_factory=list)
    seen: int = field(default=1, repr=False, compare=False)


def test_objects_are_made_as_by_the_standard_library():
    for given, named in ((("A",), {}), (("A", 3), {"notes": ["x"]}), ((), {"mark": "A", "seen": 9})):
        ours, theirs = Crate(*given, **named), Standard(*given, **named)
        assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
        assert repr(ours) == repr(theirs).replace("Standard", "Crate")
    assert [one.name for one in fields(Crate)] == [one.name for one in fields(Standard)]
    assert Crate.__match_args__ == Standard.__match_args__


def test_how_one_is_made_can_be_looked_up_before_the_first_is():
    @frozen.dataclass(frozen=True, slots=True)
    class Unmade:
        mark: str
        grams: int = 0

    assert str(inspect.signature(Unmade)) == "(mark, grams=0)"


def test_a_default_that_is_made_anew_is_not_shared():
    assert Crate("A").notes is not Crate("B").notes


@pytest.mark.parametrize("wrong", [lambda kind: kind(), lambda kind: kind("A", sort=1), lambda kind: kind(*range(5))])
def test_what_does_not_fit_is_refused_in_the_same_words(wrong: Callable[[Any], object]):
    with pytest.raises(TypeError) as theirs:
        wrong(Standard)
    with pytest.raises(TypeError, match=re.escape(str(theirs.value).replace("Standard", "Crate"))):
        wrong(Crate)


def test_equal_values_are_equal_and_hash_alike_and_other_classes_are_not():
    assert Crate("A", 3, seen=1) == Crate("A", 3, seen=2) != Crate("A", 4)
    assert Crate("A") != Standard("A")
    assert Crate("A", notes=()) != Heavy("A", notes=())
    assert hash(Crate("A", notes=())) == hash(Crate("A", notes=(), seen=2)) == hash(Standard("A", notes=()))


def test_nothing_can_be_changed_afterwards():
    crate = Crate("A")
    with pytest.raises(FrozenInstanceError):
        crate.grams = 5
    with pytest.raises(FrozenInstanceError):
        del crate.grams
    with pytest.raises(AttributeError):
        crate.other = 5
    assert crate.grams == 0


def test_what_is_checked_when_made_is_checked_again_by_replace():
    assert replace(Crate("A", 3), mark="B") == Crate("B", 3)
    with pytest.raises(ValueError, match="lighter than nothing"):
        replace(Crate("A"), grams=-1)


def test_a_class_that_inherits_has_all_fields_and_keeps_its_own_methods():
    heavy = Heavy("A", 3, tare=7)
    assert (heavy.mark, heavy.grams, heavy.tare, repr(heavy)) == ("A", 3, 7, "heavy")
    assert heavy != Heavy("A", 3)


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda one: pickle.loads(pickle.dumps(one))])  # noqa: S301
def test_copies_are_equal(again: Callable[[Any], Any]):
    crate = Crate("A", 3, ["x"], 4)
    found = again(crate)
    assert found == crate
    assert found.seen == 4


def test_other_kinds_are_left_to_the_standard_library():
    @frozen.dataclass(slots=True)
    class Loose:
        grams: int

    loose = Loose(3)
    loose.grams = 4
    assert loose == Loose(4)


def test_every_module_takes_the_quick_one():
    house = Path(farmops.__file__).parent
    standard = re.compile(r"^from dataclasses import .*\bdataclass\b", re.MULTILINE)
    texts = {file.relative_to(house).as_posix(): file.read_text(encoding="utf-8") for file in house.rglob("*.py")}
    slow = {
        file
        for file, text in texts.items()
        if standard.search(text) and "@dataclass(frozen=True, slots=True)\n" in text
    }
    assert slow == set()
