"""What the place of chores does with a chore that feeds fish: the question, the amounts, what is booked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from farmops.model.fish import Ate
from farmops.model.rations import Fed
from farmops.quantities import Measures
from farmops.reports.rations import fed_by_ration, mass_words
from farmops.reports.round import RoundLine
from farmops.tui.widgets.fields import Field, Kind

ATE = "ate"


def feeds_something(chosen: Sequence[RoundLine]) -> bool:
    """Whether any of the chores has a ration of which something is left."""
    return any(each.left_g for one in chosen for each in one.rations)


def question_of(chosen: Sequence[RoundLine], measures: Measures) -> str:
    """What is asked: each lot with what it gets."""
    lots = [f"{each.code} {mass_words(each.left_g, measures)}" for one in chosen for each in one.rations if each.left_g]
    return f"{chosen[0].chore.title}: {', '.join(lots)}. How did they eat?"


def by_ration(chosen: Sequence[RoundLine], ate: Ate) -> dict[int, tuple[Fed, ...]]:
    """What each chore fed, as its rations say."""
    return {one.chore.id: fed_by_ration(one.rations, ate) for one in chosen if one.rations}


def fields_of(line: RoundLine) -> list[Field]:
    """A field for the amount of each lot, and one for how they ate."""
    words = tuple(one.value for one in Ate)
    amounts = [
        Field(
            f"lot_{each.lot_id}",
            each.code,
            Kind.MASS,
            f"{each.left_g} g" if each.left_g else "",
            hint=f"up to {each.grams} g" if each.grams is not None else "",
        )
        for each in line.rations
    ]
    return [*amounts, Field(ATE, "They ate", Kind.CHOICE, Ate.ALL.value, words)]


def typed(line: RoundLine, values: Mapping[str, Any]) -> tuple[Fed, ...]:
    """What was typed for each lot; a lot that was left empty got nothing."""
    ate = Ate(values[ATE])
    given = ((each.lot_id, values.get(f"lot_{each.lot_id}")) for each in line.rations)
    return tuple(Fed(lot, mass, ate) for lot, mass in given if mass is not None)
