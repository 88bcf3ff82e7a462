"""Every number by its name, of everything on the varied farm."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.model.errors import NotFound
from farmops.reports import lists
from farmops.reports.returns import Asked
from farmops.reports.supplies_held import supplies
from farmops.reports.why import KNOWN, Of, Thing, figure
from tests.farmhand import TODAY
from tests.land import Land

ASKED = Asked(TODAY, date(2026, 1, 1), TODAY)


def things(laid: Land) -> dict[Of, str]:
    """One of each kind that numbers are told of."""
    return {
        Of.FARM: "",
        Of.UNIT: "wren",
        Of.BED: lists.beds(laid.store)[0].bed.code,
        Of.CROP: next(one.crop for one in lists.plantings(laid.store, TODAY)),
        Of.LOT: lists.fish_lots(laid.store)[0].code,
        Of.SUPPLY: supplies(laid.store)[0].name,
    }


def test_every_name_opens_a_figure_that_adds_up(laid: Land) -> None:
    found = {
        (of, name): figure(laid.store, name, ASKED, Thing(of, thing))
        for of, thing in things(laid).items()
        for name in KNOWN[of]
    }
    assert [key for key, one in found.items() if not one.adds_up()] == []
    assert {of for (of, _), one in found.items() if one.value is not None} == set(Of)


def test_an_unknown_name_is_refused_with_those_there_are(laid: Land) -> None:
    with pytest.raises(NotFound, match=r"no figure joy of a supply\. Known of a supply: held, worth"):
        figure(laid.store, "joy", ASKED, Thing(Of.SUPPLY, "pellets"))
    with pytest.raises(NotFound, match=r"no figure payback of a bed\. It is told of a unit\."):
        figure(laid.store, "payback", ASKED, Thing(Of.BED, "WREN-N"))


@pytest.mark.parametrize("of", [Of.UNIT, Of.BED, Of.CROP])
def test_an_unknown_thing_is_refused_with_those_there_are(laid: Land, of: Of) -> None:
    with pytest.raises(NotFound, match=rf"told of GREBE as {of} here\. Known: [A-Z]+"):
        figure(laid.store, "yield", ASKED, Thing(of, "GREBE"))
