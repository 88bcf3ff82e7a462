"""Standing orders, and the pick list of a day, as lines of a list."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.exchange.pick_text import NOWHERE, place_words, wanted_words
from farmops.model.frozen import dataclass
from farmops.model.sales import StandingOrder
from farmops.quantities import Measures
from farmops.quantities.sales import show_amount, show_terms
from farmops.reports import ordering
from farmops.reports.ordering import Wanted
from farmops.reports.picks import Pick, PickList, Place
from farmops.tui.widgets.listing_lines import Heading, Line


@dataclass(frozen=True, slots=True)
class Ordered:
    """An order of a day beside the places it can be picked from."""

    wanted: Wanted
    places: tuple[Place, ...]


def order_line(one: StandingOrder, measures: Measures) -> Line:
    """A standing order among what was paid and sold."""
    what = f"{one.what} {show_amount(one.sold_by, one.amount, measures)}, {one.rule_words}"
    terms = show_terms(ordering.terms_of(one), measures)
    until = f"until {one.until_day}" if one.until_day else "order"
    return Line(f"orders {one.id}", (str(one.start_day), what, "", terms, until, one.buyer), data=one)


def pick_lines(picks: PickList) -> Iterator[Line | Heading]:
    """What is ordered under its crop, then where it is, then what is ready besides."""
    for pick in picks.ordered:
        yield Heading(f"{pick.what}, not ready" if pick.short else pick.what)
        yield from _ordered(pick, picks.settings.measures)
    if picks.besides:
        yield Heading("Ready besides")
    for pick in picks.besides:
        for number, place in enumerate(pick.places):
            yield Line(f"besides {pick.what} {number}", (_held(place), f"{pick.what}: {place_words(place)}"), data=None)


def _held(place: Place) -> str:
    """What must not be picked is marked where the line begins: its words may be cut behind a long name."""
    return "HELD" if place.held else ""


def _ordered(pick: Pick, measures: Measures) -> Iterator[Line]:
    for one in pick.wanted:
        cells = ("sold" if one.filled else "ordered", wanted_words(one, measures))
        yield Line(
            f"order {one.order.id}", cells, look="done" if one.filled else "normal", data=Ordered(one, pick.places)
        )
    for number, place in enumerate(pick.places):
        yield Line(
            f"place {pick.what} {number}", (_held(place) or "where", place_words(place)), look="quiet", data=None
        )
    if not pick.places:
        yield Line(f"nowhere {pick.what}", ("where", NOWHERE), look="quiet", data=None)
