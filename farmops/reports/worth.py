"""What counts was worth: sold at what was paid where sales cover it, all else at the price list of its day."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date

from farmops.economics.selling import Cover, Marked, Paid, cover
from farmops.facts import sold as sold_facts
from farmops.facts.harvest_totals import HarvestTotal
from farmops.facts.harvests import ValuedHarvest
from farmops.facts.reading import Reader
from farmops.facts.sold import MarkedSold, SoldOn
from farmops.figures import Figure, RecordLine, Records, missing, of_records, total
from farmops.model.frozen import dataclass
from farmops.model.harvests import Use
from farmops.model.sales import halves_up
from farmops.quantities import MASS, Measures, show_money
from farmops.quantities.sales import show_sold

MONEY = "minor"
AT_LIST = (
    "each weighing that counts, in whole mg, at the list price of its day; "
    "a sale goes by the weight as typed and may differ by a cent"
)
SLIGHT_MG = 1_000
Fetch = Callable[[], Sequence[ValuedHarvest]]


@dataclass(frozen=True, slots=True)
class Sold:
    """The weighings of a span that sales are about, the lines of those sales, and how they lie over each other."""

    measures: Measures
    marked: Mapping[int, MarkedSold]
    lines: Mapping[int, SoldOn]
    covers: Mapping[int, Sequence[Cover]]
    beyond: str | None = None

    def none(self) -> Sold:
        """The same where there are no sales."""
        return self._with([])

    def by_unit(self) -> dict[int, Sold]:
        """The same for each unit that has some."""
        groups: dict[int, list[MarkedSold]] = {}
        for one in self.marked.values():
            groups.setdefault(one.unit_id, []).append(one)
        return {unit: self._with(own) for unit, own in groups.items()}

    def of(self, fits: Callable[[MarkedSold], bool]) -> Sold:
        """The same for some of the weighings."""
        return self._with([one for one in self.marked.values() if fits(one)])

    def _with(self, marked: Sequence[MarkedSold]) -> Sold:
        covers = {one.id: self.covers[one.id] for one in marked}
        return Sold(self.measures, {one.id: one for one in marked}, self.lines, covers)

    @property
    def covered_mg(self) -> int:
        """The weight that sales cover."""
        return sum(one.mass_mg for parts in self.covers.values() for one in parts)

    def rest_mg(self, harvest_id: int) -> int | None:
        """What no sale covers of a weighing that sales are about; None for any other."""
        one = self.marked.get(harvest_id)
        return None if one is None else one.mass_mg - sum(part.mass_mg for part in self.covers[harvest_id])


@dataclass(frozen=True, slots=True)
class Told:
    """How complete the sales of a span are: what is marked sold and what sales cover of it in milligrams, in words."""

    marked_mg: int
    covered_mg: int
    words: tuple[str, ...]


def told(sums: Sequence[HarvestTotal], sold: Sold) -> Told:
    """How complete the sales are beside these weighings."""
    words = tuple(one for one in (coverage(sums, sold), sold.beyond) if one)
    return Told(sum(one.sold_mg for one in sums), sold.covered_mg, words)


def sold_in(reader: Reader, measures: Measures, first: date, last: date) -> Sold:
    """What sales say of the weighings of a span; a weighing may be sold on a later day."""
    lines = {one.line.id: one for one in sold_facts.lines_of(reader, first, last)}
    marked = {one.id: one for one in sold_facts.marked_sold(reader, first, last)} if lines else {}
    covers = [one for group in _by_source(marked.values(), lines.values()) for one in cover(*group)]
    parts: dict[int, list[Cover]] = {}
    for one in covers:
        if first <= marked[one.marked_id].day <= last:
            parts.setdefault(one.marked_id, []).append(one)
    own = [one for one in lines.values() if first <= one.day <= last]
    return Sold(measures, {id: marked[id] for id in parts}, lines, parts, _beyond(own, covers, measures))


def _by_source(
    marked: Iterable[MarkedSold], lines: Iterable[SoldOn]
) -> Iterable[tuple[Sequence[Marked], Sequence[Paid]]]:
    groups: dict[tuple[int | None, int | None], tuple[list[Marked], list[Paid]]] = {}
    for one in marked:
        held = groups.setdefault((one.planting_id, one.fish_lot_id), ([], []))
        held[0].append(Marked(one.id, one.day, one.mass_mg))
    for sale in lines:
        line = sale.line
        if line.sold:
            held = groups.setdefault((line.planting_id, line.fish_lot_id), ([], []))
            held[1].append(Paid(line.id, sale.day, line.paid_minor, line.sold_mg))
    return groups.values()


def _beyond(lines: Sequence[SoldOn], covers: Sequence[Cover], measures: Measures) -> str | None:
    """What was paid for more than is marked sold, in words; it is in no value, for its weight is in no harvest."""
    paid = sum(one.line.paid_minor for one in lines)
    ids = {one.line.id for one in lines}
    left = paid - sum(one.minor for one in covers if one.paid_id in ids)
    if not left:
        return None
    return (
        f"{show_money(left, measures)} was paid for more than is marked sold, and is left out: "
        "mark those weighings as sold, or give the sale its weight."
    )


def worth(name: str, sums: Sequence[HarvestTotal], sold: Sold, fetch: Fetch) -> Figure:
    """The value of what counts, down to weighings and lines of sales; missing where a list price is.

    `sums` and `sold` are of the same weighings, which `fetch` lists.
    """
    unpriced = _without_price(sums, sold)
    if unpriced:
        return missing(name, MONEY, no_price(unpriced))
    note = coverage(sums, sold)
    if not sold.covers:
        return _listed(name, AT_LIST, sums, fetch, note)
    of = name.partition(" of ")[2]
    parts = [_paid(f"paid in sales of {of}", sold)]
    if _open_weighings(sums, sold):
        parts.append(_open(f"sold and in no sale, {of}", sums, sold, fetch))
    if any(one.eaten_weighings for one in sums):
        parts.append(_eaten(f"eaten at home or given, {of}", sums, fetch))
    return total(name, MONEY, parts, "what was paid for what sales cover + all else at the price list", note)


def coverage(sums: Sequence[HarvestTotal], sold: Sold) -> str | None:
    """How much of what is marked sold the sales cover, in words; None where nothing is."""
    marked_mg = sum(one.sold_mg for one in sums)
    if not marked_mg:
        return None
    marked = MASS.show(marked_mg, sold.measures)
    if not sold.covers:
        return f"No sale covers the {marked} marked sold: valued at the price list."
    if marked_mg - sold.covered_mg < SLIGHT_MG:
        return f"Sales cover all of the {marked} marked sold."
    covered = MASS.show(sold.covered_mg, sold.measures)
    return f"Sales cover {covered} of the {marked} marked sold; the rest is valued at the price list."


def no_price(names: str) -> str:
    """That a list price lacks, and how one is entered."""
    return f"no list price for {names} on some days; enter one with farmops prices add, or F5, g, l"


def _without_price(sums: Sequence[HarvestTotal], sold: Sold) -> str:
    """The names of what has no list price on a day that needs one."""
    spared: dict[object, int] = {}
    for one in sold.marked.values():
        if one.per_mg is None and not sold.rest_mg(one.id):
            key = _place(one)
            spared[key] = spared.get(key, 0) + 1
    names = {one.crop or one.species or "" for one in sums if one.unpriced > spared.get(_place(one), 0)}
    return ", ".join(sorted(names))


def _place(one: HarvestTotal | MarkedSold) -> tuple[int, int | None, int | None, str | None]:
    return one.unit_id, one.bed_id, one.crop_id, one.species


def _listed(name: str, formula: str, sums: Sequence[HarvestTotal], fetch: Fetch, note: str | None) -> Figure:
    def lines() -> Sequence[RecordLine]:
        return [_harvest_line(one, one.value_minor) for one in fetch() if one.use.counts]

    records = Records("harvests", sum(one.counting_weighings for one in sums), lines)
    return of_records(name, sum(one.value_minor for one in sums), MONEY, formula, records, note)


def _paid(name: str, sold: Sold) -> Figure:
    shares: dict[int, int] = {}
    for one in (part for parts in sold.covers.values() for part in parts):
        shares[one.paid_id] = shares.get(one.paid_id, 0) + one.minor
    ordered = sorted(shares, key=lambda id: (sold.lines[id].day, id))

    def lines() -> Sequence[RecordLine]:
        return [_sale_line(sold.lines[id], shares[id], sold.measures) for id in ordered]

    value = sum(shares.values())
    return of_records(name, value, MONEY, "lines of sales", Records("sales", len(shares), lines))


def _sale_line(one: SoldOn, minor: int, measures: Measures) -> RecordLine:
    paid = one.line.paid_minor
    part = "" if minor == paid else f", a part of {show_money(paid, measures)}"
    return RecordLine("sales", one.line.sale_id, f"{one.day} {one.buyer}, {show_sold(one.line, measures)}{part}", minor)


def _open_weighings(sums: Sequence[HarvestTotal], sold: Sold) -> int:
    return sum(one.sold_weighings for one in sums) - sum(not sold.rest_mg(id) for id in sold.marked)


def _open(name: str, sums: Sequence[HarvestTotal], sold: Sold, fetch: Fetch) -> Figure:
    value = sum(one.sold_value_minor for one in sums)
    value -= sum(_at_list(one, one.mass_mg) - _at_list(one, sold.rest_mg(one.id)) for one in sold.marked.values())

    def lines() -> Sequence[RecordLine]:
        found = [(one, sold.rest_mg(one.id)) for one in fetch() if one.use is Use.SOLD]
        return [_open_line(one, rest, sold) for one, rest in found if rest != 0]

    formula = "the weight marked sold that no sale covers, at the list price of its day"
    return of_records(name, value, MONEY, formula, Records("harvests", _open_weighings(sums, sold), lines))


def _open_line(one: ValuedHarvest, rest_mg: int | None, sold: Sold) -> RecordLine:
    if rest_mg is None or rest_mg == one.mass_mg:
        return _harvest_line(one, one.value_minor)
    rest = f"{one.words}, {MASS.show(rest_mg, sold.measures)} of it in no sale"
    return RecordLine("harvests", one.id, rest, _at_list(sold.marked[one.id], rest_mg))


def _at_list(one: MarkedSold, mass_mg: int | None) -> int:
    if one.price_minor is None or one.per_mg is None:
        return 0
    return halves_up((mass_mg or 0) * one.price_minor, one.per_mg)


def _eaten(name: str, sums: Sequence[HarvestTotal], fetch: Fetch) -> Figure:
    def lines() -> Sequence[RecordLine]:
        return [_harvest_line(one, one.value_minor) for one in fetch() if one.use.counts and one.use is not Use.SOLD]

    count = sum(one.eaten_weighings for one in sums)
    value = sum(one.eaten_value_minor for one in sums)
    return of_records(name, value, MONEY, AT_LIST, Records("harvests", count, lines))


def _harvest_line(one: ValuedHarvest, minor: int) -> RecordLine:
    return RecordLine("harvests", one.id, one.words, minor)
