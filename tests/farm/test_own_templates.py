"""Templates changed by the grower: what is given from then on, and which chores follow."""

from __future__ import annotations

from typing import Any

import pytest

from farmops.farm.chores import change_chore
from farmops.farm.own_templates import change_template, drop_template, restore_template
from farmops.library import chore_templates
from farmops.model.chores import Chore, ChoreChange, ChoreClass, PartOfDay
from farmops.model.errors import FarmopsError, NotFound, NotUnderstood, OutOfRange, Refused
from farmops.model.templates import (
    Following,
    LeftChore,
    TemplateChange,
    TemplateChanged,
    TemplateDropping,
    TemplateRestoring,
)
from farmops.model.units import UnitKind, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from tests.farm.test_sets import keys, made, starts, the
from tests.farmhand import ADA, BOB, a_unit, enters, everything_stored, on, settle, stock, take_back

FOLLOW, LEAVE = Following(follow=True), Following(follow=False)


def change(store: Store, key: str, existing: Following = LEAVE, **values: Any) -> TemplateChanged:
    """A template is changed."""
    return change_template(store, TemplateChange(key, existing=existing, **values), by=ADA)


def restore(store: Store, key: str, existing: Following = LEAVE) -> TemplateChanged:
    """A template is the packaged one again."""
    return restore_template(store, TemplateRestoring(key, existing), by=ADA)


def drop(store: Store, key: str) -> TemplateChanged:
    """A template gives no chore any more."""
    return drop_template(store, TemplateDropping(key), by=ADA)


def two_units(store: Store) -> tuple[Chore, Chore]:
    """Two running units; the leaf look of both."""
    for code in ("WREN", "ROOK"):
        a_unit(store, code, chores=True)
    return the(store, "leaf-look", "WREN"), the(store, "leaf-look", "ROOK")


class TestGiving:
    def test_from_then_on_a_chore_is_given_as_the_grower_has_it(self, farm_store: Store) -> None:
        changed = change(
            farm_store,
            "leaf-look",
            title="Look under leaves",
            rule="Mon Thu",
            grade=ChoreClass.FOOD_SAFETY,
            part=PartOfDay.MIDDAY,
            minutes=9,
            instructions="With the lens.",
            caution=None,
            readings=("rust",),
            confirmation="lens put back",
            adults_only=True,
            months=(6, 4, 5),
            states=(UnitState.RUNNING,),
        )
        assert changed == TemplateChanged("leaf-look", 2, "Look under leaves", 0, ())
        a_unit(farm_store, chores=True)
        chore = the(farm_store, "leaf-look")
        assert (chore.title, chore.rule_words, chore.grade, chore.part, chore.minutes) == (
            "Look under leaves",
            "every Mon and Thu",
            ChoreClass.FOOD_SAFETY,
            PartOfDay.MIDDAY,
            9,
        )
        assert (chore.instructions, chore.caution, chore.readings) == ("With the lens.", None, "rust")
        assert (chore.confirmation, chore.adults_only) == ("lens put back", True)
        assert (chore.months, chore.states, chore.template_version) == ("4,5,6", "running", 2)

    def test_a_template_goes_to_the_kinds_and_states_the_grower_names(self, farm_store: Store) -> None:
        change(farm_store, "leaf-look", kinds=(UnitKind.HYDROPONIC,), states=(UnitState.CYCLING, UnitState.RUNNING))
        a_unit(farm_store, chores=True)
        a_unit(farm_store, "DRIP", chores=True, kind=UnitKind.HYDROPONIC, state=UnitState.CYCLING)
        assert the(farm_store, "leaf-look").unit == "DRIP"

    def test_work_due_once_waits_as_long_as_the_grower_says(self, farm_store: Store) -> None:
        change(farm_store, "cycle-ready", rule="once +40")
        a_unit(farm_store, chores=True, state=UnitState.CYCLING)
        assert the(farm_store, "cycle-ready").next_due == on(4, 10)

    def test_a_changed_build_does_not_get_under_the_floor(self, farm_store: Store) -> None:
        change(farm_store, "seal-cured", rule="once +3")
        a_unit(farm_store, chores=True, state=UnitState.BUILDING)
        assert [day.day for day in starts(farm_store)] == [2, 3, 4, 6, 11, 12]

    def test_a_dropped_one_gives_no_chore_until_it_is_restored(self, farm_store: Store) -> None:
        drop(farm_store, "leaf-look")
        unit = a_unit(farm_store, chores=True)
        assert "leaf-look" not in keys(farm_store)
        restore(farm_store, "leaf-look")
        enters(farm_store, unit, UnitState.WINTERING, on(9, 1), chores=True)
        assert the(farm_store, "leaf-look").template_version == 1

    def test_the_version_counts_up(self, farm_store: Store) -> None:
        packaged = next(one for one in chore_templates() if one.key == "bed-solids").version
        assert [change(farm_store, "bed-solids", minutes=number).version for number in (50, 55)] == [
            packaged + 1,
            packaged + 2,
        ]
        assert drop(farm_store, "bed-solids").version == packaged + 3
        assert restore(farm_store, "bed-solids").version == packaged

    def test_taken_back_the_packaged_one_gives_again(self, farm_store: Store) -> None:
        change(farm_store, "leaf-look", minutes=9)
        take_back(farm_store)
        a_unit(farm_store, chores=True)
        assert the(farm_store, "leaf-look").minutes == 2


class TestFollowing:
    def test_chores_stay_as_they_are_where_the_grower_leaves_them(self, farm_store: Store) -> None:
        before = two_units(farm_store)
        assert change(farm_store, "leaf-look", minutes=9).followed == 0
        assert two(farm_store) == before

    def test_chores_follow_in_rule_and_words_and_keep_their_history(self, farm_store: Store) -> None:
        wren, _ = two_units(farm_store)
        settle(farm_store, wren, on(3, 4))
        changed = change(farm_store, "leaf-look", FOLLOW, rule="Sat", minutes=9, caution=None)
        assert (changed.followed, changed.left) == (2, ())
        for chore in two(farm_store):
            assert (chore.rule_words, chore.minutes, chore.caution, chore.template_version) == ("every Sat", 9, None, 2)
        assert [one.next_due for one in two(farm_store)] == [on(3, 7), on(3, 7)]
        assert len(lists.settled(farm_store, wren.id)) == 1
        take_back(farm_store)
        assert [one.rule_words for one in two(farm_store)] == ["every day", "every day"]

    def test_what_was_edited_by_hand_is_named_and_not_overwritten(self, farm_store: Store) -> None:
        wren, rook = two_units(farm_store)
        change_chore(farm_store, ChoreChange(wren.id, minutes=30, title="My own look"), by=BOB)
        changed = change(farm_store, "leaf-look", FOLLOW, minutes=9, confirmation="seen")
        assert changed.followed == 1
        assert changed.left == (LeftChore(wren.id, "My own look", "WREN", ("minutes",)),)
        wren, rook = two(farm_store)
        assert (wren.title, wren.minutes, wren.confirmation, wren.template_version) == ("My own look", 30, "seen", 1)
        assert (rook.minutes, rook.confirmation, rook.template_version) == (9, "seen", 2)

    def test_a_rule_set_by_hand_stays(self, farm_store: Store) -> None:
        wren, _ = two_units(farm_store)
        change_chore(farm_store, ChoreChange(wren.id, rule="Sun"), by=BOB)
        changed = change(farm_store, "leaf-look", FOLLOW, rule="Sat")
        assert [(one.where, one.fields) for one in changed.left] == [("WREN", ("rule",))]
        assert [one.rule_words for one in two(farm_store)] == ["every Sun", "every Sat"]

    def test_one_that_is_named_follows_in_all(self, farm_store: Store) -> None:
        wren, rook = two_units(farm_store)
        change_chore(farm_store, ChoreChange(wren.id, rule="Sun", minutes=30, title="My own look"), by=BOB)
        changed = change(farm_store, "leaf-look", Following(follow=False, also=(wren.id,)), minutes=9)
        assert (changed.followed, changed.left) == (1, ())
        wren, rook = two(farm_store)
        assert (wren.title, wren.rule_words, wren.minutes) == ("Look at leaves for pests and paleness", "every day", 9)
        assert rook.minutes == 2

    def test_without_another_change_a_named_one_comes_back_to_its_template(self, farm_store: Store) -> None:
        wren, _ = two_units(farm_store)
        change_chore(farm_store, ChoreChange(wren.id, minutes=30), by=BOB)
        assert change(farm_store, "leaf-look", Following(also=(wren.id,))).followed == 1
        assert two(farm_store)[0].minutes == 2

    def test_work_due_once_moves_by_as_many_days(self, farm_store: Store) -> None:
        a_unit(farm_store, chores=True, state=UnitState.CYCLING)
        change(farm_store, "cycle-ready", FOLLOW, rule="Once  +40")
        assert the(farm_store, "cycle-ready").next_due == on(4, 10)
        change(farm_store, "cycle-ready", FOLLOW, rule="once +30")
        assert the(farm_store, "cycle-ready").next_due == on(3, 31)

    def test_once_becomes_often_and_often_once(self, farm_store: Store) -> None:
        a_unit(farm_store, chores=True, state=UnitState.CYCLING)
        change(farm_store, "cycle-ready", FOLLOW, rule="7 days after")
        assert the(farm_store, "cycle-ready").rule_words == "7 days after doing"
        change(farm_store, "cycle-nitrate", FOLLOW, rule="once")
        assert the(farm_store, "cycle-nitrate").rule_kind == "once"

    def test_a_chore_that_is_over_stays_as_it_was_done(self, farm_store: Store) -> None:
        a_unit(farm_store, chores=True, state=UnitState.CYCLING)
        settle(farm_store, the(farm_store, "cycle-ready"), on(4, 1))
        before = the(farm_store, "cycle-ready")
        change(farm_store, "cycle-ready", Following(), rule="day", minutes=9)
        assert the(farm_store, "cycle-ready") == before

    def test_the_farms_own_chore_follows_too(self, farm_store: Store) -> None:
        a_unit(farm_store, chores=True)
        assert change(farm_store, "scale-check", FOLLOW, rule="Sat", with_fish=True).followed == 1
        chore = the(farm_store, "scale-check")
        assert (chore.rule_words, chore.with_fish) == ("every Sat", False)

    def test_restored_the_chores_follow_back(self, farm_store: Store) -> None:
        before = two_units(farm_store)
        change(farm_store, "leaf-look", FOLLOW, rule="Sat", minutes=9)
        assert restore(farm_store, "leaf-look", FOLLOW).followed == 2
        assert two(farm_store) == before

    def test_dropped_the_chores_stay(self, farm_store: Store) -> None:
        before = two_units(farm_store)
        drop(farm_store, "leaf-look")
        assert two(farm_store) == before

    def test_a_set_that_lasts_longer_by_itself_keeps_its_end(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        for code, day in (("ONE", 8), ("TWO", 12)):
            stock(farm_store, unit, code, on(10, day))
        changed = change(farm_store, "stock-test", FOLLOW, rule="day 7 times", minutes=4)
        assert changed.left[0].fields == ("rule",)
        assert (the(farm_store, "stock-test").rule_words, the(farm_store, "stock-test").minutes) == (
            "every day until 2026-10-25",
            4,
        )


def two(store: Store) -> tuple[Chore, Chore]:
    """The leaf look of both units."""
    return the(store, "leaf-look", "WREN"), the(store, "leaf-look", "ROOK")


@pytest.mark.parametrize(
    ("kind", "words", "key", "values"),
    [
        (NotFound, "There is no template nothing", "nothing", {"minutes": 3}),
        (Refused, "is like this already", "leaf-look", {"minutes": 2}),
        (Refused, "is like this already", "leaf-look", {}),
        (Refused, "is dropped. First: farmops chores template restore kit-expiry", "kit-expiry", {"minutes": 3}),
        (OutOfRange, "1441 minutes", "leaf-look", {"minutes": 1441}),
        (NotUnderstood, "'sometimes' is not understood", "leaf-look", {"rule": "sometimes"}),
        (FarmopsError, "moon is full", "leaf-look", {"rule": "when moon is full"}),
        (NotUnderstood, "name the unit", "leaf-look", {"rule": "5 fed"}),
        (Refused, "use is counted unit by unit", "feed-bin", {"rule": "5 kg fed"}),
        (OutOfRange, r"\+900 is no number of days", "leaf-look", {"rule": "once +900"}),
        (OutOfRange, r"\+x is no number of days", "leaf-look", {"rule": "once +x"}),
        (Refused, "due so long after its occasion", "leaf-look", {"rule": "once, 2026-11-01"}),
        (Refused, "due so long after its occasion", "leaf-look", {"rule": "2026-11-01"}),
        (Refused, "Say how many times instead", "leaf-look", {"rule": "day until 2026-12-01"}),
        (Refused, "for no kind of unit", "leaf-look", {"kinds": ()}),
        (OutOfRange, "Months are numbers", "leaf-look", {"months": (13,)}),
        (FarmopsError, "title", "leaf-look", {"title": " "}),
        (
            Refused,
            "what becomes of the 2 chores that were made from",
            "leaf-look",
            {"minutes": 5, "existing": Following()},
        ),
        (
            Refused,
            "chore 9999 is no open chore made from",
            "leaf-look",
            {"minutes": 5, "existing": Following(True, (9999,))},
        ),
    ],
)
def test_refused(farm_store: Store, kind: type[FarmopsError], words: str, key: str, values: dict[str, Any]) -> None:
    two_units(farm_store)
    drop(farm_store, "kit-expiry")
    before = everything_stored(farm_store)
    entry = TemplateChange(key, **{"minutes": 2, "existing": LEAVE, **values})
    with pytest.raises(kind, match=words):
        change_template(farm_store, entry, by=ADA)
    assert everything_stored(farm_store) == before


def test_a_packaged_template_is_not_restored_and_a_dropped_one_not_dropped(farm_store: Store) -> None:
    drop(farm_store, "kit-expiry")
    with pytest.raises(Refused, match="is the packaged one"):
        restore(farm_store, "leaf-look")
    with pytest.raises(Refused, match="gives no chore already"):
        drop(farm_store, "kit-expiry")
    with pytest.raises(NotFound):
        drop(farm_store, "nothing")


def test_a_template_whose_packaged_one_is_gone_is_the_growers_own(
    farm_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    change(farm_store, "leaf-look", minutes=9)
    left = tuple(one for one in chore_templates() if one.key != "leaf-look")
    for module in ("farmops.facts.templates", "farmops.farm.own_templates"):
        monkeypatch.setattr(f"{module}.chore_templates", lambda: left)
    a_unit(farm_store, chores=True)
    assert made(farm_store, "leaf-look")[0].minutes == 9
    with pytest.raises(Refused, match="has no packaged one"):
        restore(farm_store, "leaf-look")
