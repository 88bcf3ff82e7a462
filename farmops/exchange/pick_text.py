"""The pick list of a day as plain text, with a box to tick for each order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.quantities.sales import show_amount
from farmops.reports.ordering import Wanted
from farmops.reports.picks import Pick, PickList, Place

NOWHERE = "not growing here"


def pick_text(picks: PickList) -> Iterator[str]:
    """The lines: what is ordered with where it is, then what is ready besides."""
    yield f"{plain(picks.settings.name)}: pick list for {picks.day:%a} {picks.day}"
    for pick in picks.ordered:
        yield ""
        yield f"{plain(pick.what)}{'  NOT READY' if pick.short else ''}"
        yield from (_tick(one, picks.settings.measures) for one in pick.wanted)
        yield from _places(pick.places) if pick.places else (f"      {NOWHERE}",)
    if picks.besides:
        yield ""
        yield "Ready besides"
        yield from (f"  {words}" for words in _besides(picks.besides))


def _tick(one: Wanted, measures: Measures) -> str:
    return f"  [{'x' if one.filled else ' '}] {wanted_words(one, measures)}"


def wanted_words(one: Wanted, measures: Measures) -> str:
    """`6 bunches for the inn`, and what of it is sold already."""
    order = one.order
    words = f"{show_amount(order.sold_by, order.amount, measures)} for {plain(order.buyer)}"
    if one.filled:
        return f"{words}, sold: sale {one.sale_id}"
    if one.left < order.amount:
        return f"{words}, {show_amount(order.sold_by, one.left, measures)} left to fill"
    return words


def place_words(one: Place) -> str:
    """`WREN-N, ready since Mon 12 Oct; last picked Mon 5 Oct`; what holds it first, so that no narrow line cuts it."""
    held = f"do not pick, HELD {plain(one.held)}; " if one.held else ""
    return f"{plain(one.name)}, {held}{one.words}"


def _places(places: Iterable[Place]) -> Iterator[str]:
    return (f"      {place_words(one)}" for one in places)


def _besides(picks: Iterable[Pick]) -> Iterator[str]:
    return (f"{plain(pick.what)}: {place_words(one)}" for pick in picks for one in pick.places)
