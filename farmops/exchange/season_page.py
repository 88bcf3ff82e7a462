"""A season report as one HTML file that carries everything it shows: read in a browser, printed on paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from xml.etree.ElementTree import Element, SubElement, tostring

from farmops.exchange import season_charts as charts
from farmops.figures import Figure
from farmops.model.costs import Basis
from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.reports.returns import UnitReturns
from farmops.reports.season import InTheRow, Season
from farmops.reports.shown import shown

LOOKS = """
body { font: 11pt/1.45 Georgia, 'Times New Roman', serif; color: #222; background: #fff; max-width: 46em;
  margin: 2em auto; padding: 0 1em; overflow-wrap: anywhere }
h1 { font-size: 1.7em; margin: 0 0 .2em } h2 { font-size: 1.2em; margin: 1.8em 0 .4em; border-bottom: 1px solid #999 }
table { border-collapse: collapse; width: 100%; font-size: .86em; overflow-wrap: normal }
th, td { padding: .25em .5em; border-bottom: 1px solid #ccc; text-align: left; vertical-align: top }
td + td.number, th.number { text-align: right; font-variant-numeric: tabular-nums }
tr.whole td { border-top: 2px solid #555; font-weight: bold }
figure { margin: 1em 0; break-inside: avoid } figure img { width: 100% } figcaption { font-size: .86em; color: #444 }
p.under { color: #444; margin-top: 0 }
@media print { body { margin: 0; max-width: none; font-size: 9.5pt }
  tr { break-inside: avoid } h2 { break-after: avoid } }
@page { margin: 16mm }
"""
COUNTED = {
    Basis.CASH: "Cash: the money that was paid in the span, things bought to last counted when they were bought.",
    Basis.OPERATING: "Operating cost: what the span used up. Supplies count when used, at their weighted average.",
    Basis.FULL: (
        "Full cost: operating cost, ownership of things bought to last (straight line by the day over their life), "
        "and labour at the farm's rate where one is set."
    ),
}
METHODS = (
    "Produce and fish are never added into one yield. Weight that counts is what was sold, eaten or given; waste "
    "and what was fed back are weighed too, and left out.",
    "Costs that several units share go to them by the driver set for their kind, by days where none is set; the parts "
    "add up to the whole, to the cent.",
    "What was sold is worth what was paid for it where a sale is booked. What was eaten or given, and what was sold "
    "without one, is valued at the farm's price list of its day.",
    "A number that the records do not carry is left out, and why is said. It is never taken as nothing.",
)
INTERVAL = (
    "The line on a bar is where the yield may lie by the chance of its weeks, 95 times in 100 (block bootstrap over "
    "weeks); a unit without one has too few weeks to tell."
)
HEADS = ("", "Produce", "Per area", "Cost per weight", "Fish", "Value", "Cost", "Net")
CROP_HEADS = ("", "Produce", "Area", "Per area", "Value")


def page(season: Season) -> str:
    """The report of a season; without matplotlib what its charts show stands there in words."""
    farm, span = season.whole.settings, season.whole.span
    top = Element("html", lang="en")
    head, body = SubElement(top, "head"), SubElement(top, "body")
    SubElement(head, "meta", charset="utf-8")
    SubElement(head, "meta", name="viewport", content="width=device-width, initial-scale=1")
    _say(head, "title", f"{farm.name}, {span.first} to {span.last}")
    SubElement(head, "style").text = LOOKS
    _say(body, "h1", farm.name)
    invented = " An invented farm: nothing here was measured." if farm.stands_on else ""
    _say(body, "p", f"{span.first} to {span.last}, {season.whole.basis} cost.{invented}").set("class", "under")
    _farm(body, season)
    _units(body, season)
    _months(body, season)
    _crops(body, season)
    _methods(body, season)
    return "<!doctype html>\n" + tostring(top, encoding="unicode", method="html") + "\n"


def _farm(body: Element, season: Season) -> None:
    _say(body, "h2", "The farm")
    number = len(season.row)
    counted = "One coupled unit" if number == 1 else f"{number} units"
    _say(
        body,
        "p",
        f"{counted} in a row, each a tank with fish below planted beds: what the fish leave feeds the plants, and the "
        "plants clean the water.",
    )
    rows = [_in_the_row(one) for one in season.row]
    _table(body, ("Unit", "Kind", "State", "Tank", "Beds", "Fish"), rows, numbers=())


def _in_the_row(one: InTheRow) -> list[str]:
    fish = ", ".join(dict.fromkeys(lot.species for lot in one.fish))
    state = one.state.value if one.state else "not there yet"
    return [one.unit.code, one.unit.kind.value, state, one.unit.tank_typed or "", ", ".join(one.beds), fish]


def _units(body: Element, season: Season) -> None:
    measures = season.whole.settings.measures
    _say(body, "h2", "What each unit brought and cost")
    lines = season.lines()
    _table(body, HEADS, [_returns(one, measures) for one in lines], numbers=range(1, len(HEADS)), whole=True)
    if season.whole.unshared.value:
        _say(body, "p", f"{shown(season.whole.unshared, measures)} is shared, but no unit was active to bear it.")
    yields = charts.yields(season)
    _chart(body, yields, "Produce that counts, by area of bed", lines[:-1], "yield_per_area", measures)
    if yields:
        _say(body, "p", INTERVAL).set("class", "under")
    _chart(body, charts.value_and_cost(season), "Value and cost", lines[:-1], "net", measures)
    _chart(body, charts.make_up(season), "What the cost is made up of", lines[:-1], "cost", measures)


def _returns(one: UnitReturns, measures: Measures) -> list[str]:
    figures = (one.marketable, one.yield_per_area, one.cost_per_mass, one.fish, one.value, one.cost, one.net)
    return [one.unit, *(_cell(figure, measures) for figure in figures)]


def _cell(figure: Figure, measures: Measures) -> str:
    return "-" if figure.value is None else shown(figure, measures)


def _chart(
    body: Element, source: str, title: str, lines: Sequence[UnitReturns], field: str, measures: Measures
) -> None:
    """A chart with what it shows in words, for those who do not see it."""
    said = "; ".join(f"{one.unit} {_cell(getattr(one, field), measures)}" for one in lines)
    _figure(body, source, title, f"{title}: {said}")


def _months(body: Element, season: Season) -> None:
    measures = season.whole.settings.measures
    _say(body, "h2", "Month by month")
    harvests = "; ".join(f"{one.span.first:%b %Y} {_cell(one.farm.marketable, measures)}" for one in season.months)
    _figure(body, charts.by_month(season), "Produce and fish that count", f"Produce: {harvests}")
    prices = "; ".join(f"{one.span.first:%b %Y} {_cell(one.farm.cost_per_mass, measures)}" for one in season.months)
    _figure(body, charts.cost_by_month(season), "What a weight of produce cost", f"Cost per weight: {prices}")


def _crops(body: Element, season: Season) -> None:
    measures = season.whole.settings.measures
    _say(body, "h2", "Crop by crop")
    rows = [
        [one.name, *(_cell(figure, measures) for figure in (one.marketable, one.area, one.yield_per_area, one.value))]
        for one in season.crops.lines
    ]
    _table(body, CROP_HEADS, rows, numbers=range(1, len(CROP_HEADS)))


def _methods(body: Element, season: Season) -> None:
    _say(body, "h2", "How this is counted, and how complete it is")
    _listed(body, (COUNTED[season.whole.basis], *METHODS, *season.whole.sales.words, *_told(season.notes())))
    gaps = season.missing()
    if gaps:
        _say(body, "p", "Numbers that are missing, and why:")
        _listed(body, (f"{', '.join(units)}: {reason}." for reason, units in gaps.items()))


def _told(notes: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """What is said of every unit once, the rest with the units it is said of."""
    most = max((len(units) for units in notes.values()), default=0)
    for note, units in notes.items():
        yield note if len(units) == most else f"{', '.join(units)}: {note}"


def _say(parent: Element, tag: str, words: str) -> Element:
    child = SubElement(parent, tag)
    child.text = plain(words)
    return child


def _listed(parent: Element, words: Iterable[str]) -> None:
    listed = SubElement(parent, "ul")
    for one in words:
        _say(listed, "li", one)


def _figure(parent: Element, source: str, title: str, said: str) -> None:
    """A picture with its title; what it says in words where there is no picture."""
    if not source:
        _say(parent, "p", f"{said}.")
        return
    held = SubElement(parent, "figure")
    SubElement(held, "img", src=source, alt=plain(said))
    _say(held, "figcaption", title)


def _table(
    parent: Element, heads: Sequence[str], rows: Sequence[Sequence[str]], numbers: Iterable[int], *, whole: bool = False
) -> None:
    """A table; columns of `numbers` to the right, the last row set apart where it is the `whole`."""
    table, right = SubElement(parent, "table"), set(numbers)
    line = SubElement(SubElement(table, "thead"), "tr")
    for at, head in enumerate(heads):
        _say(line, "th", head).set("class", "number" if at in right else "word")
    inside = SubElement(table, "tbody")
    for row in rows:
        line = SubElement(inside, "tr", {"class": "whole"} if whole and row is rows[-1] else {})
        for at, cell in enumerate(row):
            _say(line, "td", cell).set("class", "number" if at in right else "word")
