"""One registry of actions: no key means two things, keys can be one's own, the page of keys is current."""

from __future__ import annotations

from pathlib import Path

import pytest

from farmops.model.errors import NotUnderstood
from farmops.tui.actions import ACTIONS, ANYWHERE, LIST, PLACES, POWER_CUT, keys_from, refuse_clashes, remapped
from farmops.tui.app import FarmApp
from farmops.tui.keys_page import page
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.incident import IncidentScreen
from farmops.tui.screens.places import kind_of

DOCS = Path(__file__).parents[2] / "docs"


def test_no_key_means_two_things_in_one_place() -> None:
    refuse_clashes(ACTIONS)


def test_every_action_has_its_own_id_and_words() -> None:
    assert len({one.id for one in ACTIONS}) == len(ACTIONS)
    assert all(one.words and one.keys for one in ACTIONS)


def test_no_action_is_only_on_a_chord() -> None:
    assert not [one.id for one in ACTIONS if all("ctrl" in key or "alt" in key for key in one.keys)]


@pytest.mark.parametrize("place", PLACES)
def test_every_place_can_do_what_the_registry_says(place: str) -> None:
    kind = kind_of(place)
    assert kind.name_of_place == place
    for action in ACTIONS:
        name = action.call.partition("(")[0].removeprefix("app.")
        if action.where in (place, LIST):
            assert hasattr(kind, f"action_{name}"), action.id
        elif action.where == ANYWHERE and not action.call.startswith("app."):
            assert hasattr(Frame, f"action_{name}"), action.id


def test_the_screen_of_a_power_cut_can_do_what_the_registry_says() -> None:
    for action in ACTIONS:
        if action.where == POWER_CUT:
            assert hasattr(IncidentScreen, f"action_{action.call}"), action.id
        if action.call.startswith("app."):
            assert hasattr(FarmApp, f"action_{action.call.removeprefix('app.')}"), action.id


def test_a_key_of_ones_own_takes_the_place_of_ours() -> None:
    changed = {one.id: one for one in remapped({"weigh": "f12"})}
    assert changed["weigh"].keys == ("f12",)


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        ({"weight": "h"}, "There is no action 'weight'"),
        ({"weigh": " , "}, "would have no key"),
        ({"weigh": "u"}, "The key u means two things in chores: weigh and undo."),
        ({"skip": "d"}, "The key d means two things in chores"),
    ],
)
def test_keys_that_cannot_be_are_refused_in_words(keys: dict[str, str], words: str) -> None:
    with pytest.raises(NotUnderstood) as refusal:
        remapped(keys)
    assert words in str(refusal.value)


def test_keys_come_from_a_file(tmp_path: Path) -> None:
    settings = tmp_path / "settings.toml"
    settings.write_text('[keys]\nweigh = "f12"\n', encoding="utf-8")
    assert keys_from(settings) == {"weigh": "f12"}
    assert keys_from(tmp_path / "none.toml") == {}


@pytest.mark.parametrize("text", ["[keys", "keys = 3", "[keys]\nweigh = 1\n"])
def test_a_file_that_cannot_be_read_is_refused_in_words(tmp_path: Path, text: str) -> None:
    settings = tmp_path / "settings.toml"
    settings.write_text(text, encoding="utf-8")
    with pytest.raises(NotUnderstood):
        keys_from(settings)


def test_the_page_of_keys_is_current() -> None:
    assert (DOCS / "keys.md").read_text(encoding="utf-8") == page()
