"""Until when records are kept, by whose rule, and whether that rule speaks to this farm."""

from __future__ import annotations

from datetime import date

from dateutil.relativedelta import relativedelta

from farmops.facts import farm as farm_facts
from farmops.facts import keeping as keeping_facts
from farmops.facts import sales as sale_facts
from farmops.facts.reading import Store
from farmops.library.keeping import KeepFor, keeping
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.quantities import show_money

YEARS_OF_SALES = 3
OUTSIDE_MINOR = 25_000_00
"""Yearly sales of produce up to which a farm lies outside the Produce Safety Rule, before adjustment, in US cents:
21 CFR 112.4(a), from memory."""
DOLLARS = "USD"
NOTHING_GOES = "Nothing is ever deleted by itself, whatever its age."
ASK = "Not legal advice: ask the state's department of agriculture or extension which rules are yours."


@dataclass(frozen=True, slots=True)
class Kept:
    """Records of one kind: how many, the oldest, and the day until which the newest is to be kept; None: none yet.

    `free` is the day before which records are older than the rule asks.
    """

    rule: KeepFor
    number: int
    oldest: date | None
    until: date | None
    free: date


@dataclass(frozen=True, slots=True)
class Keeping:
    """Every kind, and in words to whom the rules speak."""

    settings: Farm
    kinds: tuple[Kept, ...]
    applies: tuple[str, ...]


def keeping_of(store: Store, on: date | None = None) -> Keeping:
    """Until when this farm keeps its records. Raises NoFarm."""
    with store.reading() as reader:
        settings = farm_facts.farm(reader)
        day = on or settings.today()
        held = {one.kind: one for one in keeping_facts.counted(reader)}
        first = day - relativedelta(years=YEARS_OF_SALES)
        paid = sum(one.paid_minor for one in sale_facts.sales(reader, first, day))
    kinds = tuple(_kept(rule, held[rule.kind], day) for rule in keeping())
    return Keeping(settings, kinds, (NOTHING_GOES, *_speaks(settings, paid), ASK))


def _kept(rule: KeepFor, held: keeping_facts.Counted, day: date) -> Kept:
    years = relativedelta(years=rule.years)
    until = held.last_day + years if held.last_day else None
    return Kept(rule, held.number, held.first_day, until, day - years)


def _speaks(settings: Farm, paid_minor: int) -> tuple[str, ...]:
    """Whether the Produce Safety Rule speaks to this farm, as far as its sales tell."""
    if settings.measures.currency != DOLLARS:
        return ("These rules are those of the United States: elsewhere others hold.",)
    average = show_money(round(paid_minor / YEARS_OF_SALES), settings.measures)
    limit = show_money(OUTSIDE_MINOR, settings.measures)
    sold = f"Sales booked over the last {YEARS_OF_SALES} years: {average} a year."
    if paid_minor / YEARS_OF_SALES <= OUTSIDE_MINOR:
        return (
            f"{sold} Up to {limit} of produce a year (adjusted since) a farm lies outside the Produce Safety Rule; its "
            "two years are then only a good habit.",
        )
    return (f"{sold} Above {limit} (adjusted since) the Produce Safety Rule speaks to the farm, or its exemptions do.",)
