"""Sales as lists, and from the names people type to the planting or fish lot that was sold."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import sales as sale_facts
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.model.errors import NotFound, Refused
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.plantings import Planting
from farmops.model.sales import NewSaleLine, Sale, SaleLine
from farmops.model.text import plain
from farmops.model.values import Measured
from farmops.quantities import Measures, show_money_exact
from farmops.quantities.sales import TypedLine, parse_sale_line, show_sold, typed_line

FRESH = timedelta(days=7)
MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class Source:
    """A planting or a fish lot, and whether it stands on the day, and whether it was marked sold in the week before."""

    name: str
    crop: str | None
    species: str | None
    since: date
    stands: bool
    fresh: bool
    planting_id: int | None = None
    fish_lot_id: int | None = None


def sales(store: Store, first: date, last: date) -> list[Sale]:
    """The sales of a span of days, oldest first."""
    with store.reading() as reader:
        return sale_facts.sales(reader, first, last)


def sale(store: Store, number: int) -> Sale:
    """The sale of that number. Raises NotFound."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        found = sale_facts.sale(reader, number)
    if found is None:
        raise NotFound(f"There is no sale {number}. See: farmops sales list")
    return found


def sale_lines(store: Store, texts: Sequence[str], on: date) -> tuple[NewSaleLine, ...]:
    """Lines in plain words, each from the planting or fish lot it names. Raises NotUnderstood, NotFound or Refused."""
    with store.reading() as reader:
        measures = farm_facts.farm(reader).measures
        known = Shelf(reader).on(on)
    return tuple(_entered(parse_sale_line(text, measures), known) for text in texts)


def _entered(line: TypedLine, known: Sequence[Source]) -> NewSaleLine:
    source = chosen(line.what, known)
    return NewSaleLine(line.terms, source.planting_id, source.fish_lot_id, line.unsold, line.returned, line.mass)


def sources(store: Store, on: date) -> list[Source]:
    """What there was to sell up to a day: plantings bed by bed, then fish lots."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        return Shelf(reader).on(on)


class Shelf:
    """What there is to sell, day by day, on one snapshot."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader
        self.plantings, self.lots = planting_facts.plantings(reader), fish_facts.lots(reader)
        self._days: dict[date, list[Source]] = {}

    def on(self, day: date) -> list[Source]:
        """What there was up to a day: plantings bed by bed, then fish lots."""
        if day not in self._days:
            self._days[day] = self._there(day)
        return self._days[day]

    def _there(self, day: date) -> list[Source]:
        sold = sale_facts.last_sold(self.reader, day - FRESH, day)
        fresh = {one.planting_id for one in sold}, {one.fish_lot_id for one in sold}
        plantings = [_of_planting(one, day, one.id in fresh[0]) for one in self.plantings]
        return [*plantings, *(_of_lot(one, day, one.id in fresh[1]) for one in self.lots)]


def _of_planting(one: Planting, on: date, fresh: bool) -> Source:
    stands = one.started_day <= on and (one.cleared_day is None or on <= one.cleared_day)
    return Source(f"{one.bed} {one.crop}", one.crop, None, one.started_day, stands, fresh, planting_id=one.id)


def _of_lot(one: FishLot, on: date, fresh: bool) -> Source:
    stands = one.stocked_day <= on and (one.closed_day is None or on <= one.closed_day)
    return Source(one.code, None, one.species, one.stocked_day, stands, fresh, fish_lot_id=one.id)


def chosen(what: str, known: Sequence[Source]) -> Source:
    """The one source a name means: what was marked sold in the last week goes before what stands, that before all.

    Raises:
        NotFound: nothing of that name was planted or stocked.
        Refused: several could be meant.
    """
    wanted = " ".join(what.split()).casefold()
    named = [one for one in known if wanted in _names(one)]
    if not named:
        raise NotFound(f"There is no {plain(what)} to sell. {_hint(known)}".rstrip())
    ranks: tuple[Callable[[Source], bool], ...] = (lambda one: one.fresh, lambda one: one.stands, lambda one: True)
    found = next(picked for rank in ranks if (picked := [one for one in named if rank(one)]))
    if len(found) > 1 and len({one.name for one in found}) == 1:
        found = [max(found, key=lambda one: one.since)]
    if len(found) > 1:
        raise Refused(f"Which {plain(what)}? {_listed(found)}. Name one of them.")
    return found[0]


def _names(one: Source) -> set[str]:
    return {name.casefold() for name in (one.name, one.crop, one.species) if name}


def _hint(known: Sequence[Source]) -> str:
    return f"Known: {_listed(known)}." if known else "Plant a crop or stock fish first."


def _listed(found: Sequence[Source]) -> str:
    names = list(dict.fromkeys(one.name for one in found))
    return ", ".join(names[:MOST_NAMED]) + (" and others" if len(names) > MOST_NAMED else "")


def line_called(sale: Sale, what: str) -> SaleLine:
    """The line of a sale that a name means; nothing means the only one. Raises Refused."""
    wanted = " ".join(what.split()).casefold()
    found = [one for one in sale.lines if not wanted or wanted in (one.name.casefold(), one.what.casefold())]
    if len(found) != 1:
        names = ", ".join(one.name for one in sale.lines)
        raise Refused(f"Which line of sale {sale.id}? It has {names}.")
    return found[0]


def as_typed(line: SaleLine, measures: Measures) -> str:
    """A line in the words that enter it again, for the same money; a sum in all is that of what is left of it."""
    terms = line.terms
    if terms.price_typed.startswith("for ") and line.sold != line.per_amount:
        terms = replace(terms, price_typed=f"for {show_money_exact(line.paid_minor, measures)}")
    mass = None if line.mass_mg is None else Measured(line.mass_mg, line.mass_typed or "")
    return typed_line(TypedLine(line.name, terms, line.unsold, line.returned, mass), measures)


def paid_for(sale: Sale, measures: Measures) -> Figure:
    """What was paid for a sale, line by line, in minor units."""
    lines = [RecordLine("sale lines", one.id, show_sold(one, measures), one.paid_minor) for one in sale.lines]
    name, formula = f"paid by {sale.buyer} on {sale.day}", "what stayed with the buyer at its price, line by line"
    return of_records(name, sale.paid_minor, "minor", formula, Records("sale lines", len(lines), lambda: lines))
