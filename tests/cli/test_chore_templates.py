"""`farmops chores templates`, `template` and `set`: what chores are given from, changed and given by hand."""

from __future__ import annotations

from typing import Any

import pytest

from farmops.library import chore_templates
from tests.cli.hand import Hand


def listed(farm: Hand, *options: str) -> dict[str, dict[str, Any]]:
    """The templates by key."""
    return {one["template"]: one for one in farm("chores", "templates", *options, "--json").data["templates"]}


def chore(farm: Hand, key: str) -> dict[str, Any]:
    """The one chore made from a template."""
    (found,) = [one for one in farm("chores", "list", "--json").data["chores"] if one["template"] == key]
    return found  # type: ignore[no-any-return]


@pytest.fixture
def wintering(farm: Hand) -> Hand:
    """SWIFT has the chores of a wintering unit."""
    farm("units", "state", "SWIFT", "wintering", "--on", "2026-10-01")
    return farm


def test_every_packaged_template_is_listed_with_what_gives_it(farm: Hand) -> None:
    found = listed(farm)
    assert list(found) == [one.key for one in chore_templates()]
    assert not any(one["own"] for one in found.values())
    rows = {line.split()[0]: line for line in farm("chores", "templates").lines}
    assert rows["feed"] == "feed Feed the fish unit running, wintering day 2"
    assert rows["stock-test"].endswith("unit stocking day 14 times 8")
    assert set(listed(farm, "--occasion", "power-cut")) == {"outage-no-feed", "outage-test"}


def test_what_differs_is_told(farm: Hand) -> None:
    assert "No template differs" in farm("chores", "templates", "--changed").err
    said = farm("chores", "template", "edit", "fish-sample", "--minutes", "30", "--every", "21 days after", "--leave")
    assert said.err == "Sample-weigh the fish changed.\n"
    one = listed(farm, "--changed")["fish-sample"]
    assert (one["own"], one["version"], one["minutes"], one["rule"]) == (True, 2, 30, "21 days after")
    assert one["packaged"] == {"minutes": 20, "rule": "30 days after"}
    assert farm("chores", "templates", "--changed").lines[1].endswith("21 days after 30 rule, minutes")
    shown = farm("chores", "template", "show", "FISH-SAMPLE").lines
    assert "Yours; packaged minutes: 20" in shown
    assert "Yours; packaged rule: 30 days after" in shown


def test_every_field_can_be_changed(farm: Hand) -> None:
    farm(
        *("chores", "template", "edit", "leaf-look", "--title", "Look under leaves", "--every", "Mon Thu"),
        *("--class", "food-safety", "--part", "midday", "--minutes", "9", "--instructions", "With the lens."),
        *("--caution", "-", "--confirmation", "lens back", "--reading", "rust", "--reading", "pH", "--adults-only"),
        *("--month", "5", "--month", "4", "--kind", "hydroponic", "--in-state", "running", "--with-fish", "--leave"),
    )
    one = listed(farm)["leaf-look"]
    assert one["packaged"].keys() == {
        *("title", "rule", "class", "part", "minutes", "instructions", "caution", "confirmation", "readings"),
        *("adults_only", "months", "kinds", "states", "with_fish"),
    }
    assert (one["class"], one["caution"], one["readings"]) == ("food safety", None, ["rust", "pH"])
    assert (one["months"], one["kinds"], one["states"]) == ([4, 5], ["hydroponic"], ["running"])
    farm("chores", "template", "edit", "leaf-look", "--reading", "-", "--anybody", "--leave")
    assert listed(farm)["leaf-look"]["adults_only"] is False
    assert listed(farm)["leaf-look"]["readings"] == []


def test_chores_follow_or_stay_as_the_grower_says(wintering: Hand) -> None:
    edit = ("chores", "template", "edit", "winter-look", "--minutes", "9")
    assert "say what becomes of the chore that was made from Heater, wrap and air hole" in wintering.refused(*edit)
    assert chore(wintering, "winter-look")["minutes"] == 3
    wintering(*edit, "--leave")
    assert chore(wintering, "winter-look")["minutes"] == 3
    said = wintering("chores", "template", "edit", "winter-look", "--every", "5 days after", "--follow")
    assert said.err == "Heater, wrap and air hole changed. 1 chore follows.\n"
    assert chore(wintering, "winter-look")["rule"] == "5 days after doing"
    wintering("undo")
    assert chore(wintering, "winter-look")["rule"] == "7 days after doing"


def test_a_chore_edited_by_hand_is_named_and_follows_when_it_is_named(wintering: Hand) -> None:
    number = str(chore(wintering, "winter-look")["id"])
    wintering("chores", "edit", number, "--minutes", "30")
    said = wintering("chores", "template", "edit", "winter-look", "--minutes", "9", "--follow")
    assert f"Kept as you edited it, minutes: Heater, wrap and air hole (SWIFT). --also {number} changes" in said.err
    told = wintering("chores", "template", "edit", "winter-look", "--also", number, "--json").data
    assert (told["followed"], told["left"], told["version"]) == (1, [], 3)
    assert chore(wintering, "winter-look")["minutes"] == 9


def test_dropped_and_restored(farm: Hand) -> None:
    assert "it gives no chore any more" in farm("chores", "template", "drop", "leaf-look").err
    assert listed(farm)["leaf-look"]["dropped"] is True
    assert farm("chores", "templates", "--changed").lines[1].endswith("dropped")
    assert "restore leaf-look" in farm("chores", "template", "show", "leaf-look").out
    assert "is dropped. First: " in farm.refused("chores", "template", "edit", "leaf-look", "--minutes", "3", "--leave")
    farm("chores", "template", "restore", "leaf-look")
    assert listed(farm)["leaf-look"]["own"] is False


@pytest.mark.parametrize("what", ["show", "drop", "restore"])
def test_an_unknown_template(farm: Hand, what: str) -> None:
    assert farm.refused("chores", "template", what, "nothing") == (
        "There is no template nothing. See: farmops chores templates\n"
    )


def test_nothing_to_change(farm: Hand) -> None:
    assert "Nothing to change" in farm.refused("chores", "template", "edit", "leaf-look")


class TestSet:
    def test_a_dose_is_followed_by_a_test(self, farm: Hand) -> None:
        assert farm("chores", "set", "dosing", "--unit", "wren").err == "Given: Test again after the dose.\n"
        assert chore(farm, "dose-test")["next_due"] == "2026-10-15"
        assert farm("chores", "set", "dosing", "--unit", "WREN", "--on", "2026-10-16").err == (
            "Lasts longer now: Test again after the dose.\n"
        )

    def test_a_treatment_is_given_to_a_bed_until_its_label_ends_it(self, farm: Hand) -> None:
        assert "say how many days the label holds" in farm.refused("chores", "set", "treatment", "--bed", "WREN-N")
        told = farm("chores", "set", "treatment", "--bed", "WREN-N", "--hold", "7", "--json").data
        assert (told["occasion"], told["unit"], told["bed"], told["on"]) == (
            *("treatment", "WREN", "WREN-N"),
            "2026-10-14",
        )
        assert "Hold over? Then pick again" in told["given"]
        assert (chore(farm, "treat-over")["bed"], chore(farm, "treat-over")["next_due"]) == ("WREN-N", "2026-10-21")

    def test_where_it_is_must_be_said_once(self, farm: Hand) -> None:
        for where in ([], ["--unit", "WREN", "--bed", "WREN-N"]):
            said = farm.types("chores", "set", "dosing", *where)
            assert (said.code, "either --unit CODE or --bed BED" in said.err) == (2, True)
