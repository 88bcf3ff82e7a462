"""What a stand-in gives to the fish of a unit: a ceiling in grams, rather too little, or what is missing to say it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.facts.live_fish import LiveLot
from farmops.facts.rations import feeding_temperatures
from farmops.library import SpeciesFacts, species
from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure, Reading
from farmops.quantities import TEMPERATURE, Measures
from farmops.reports.rations import water_words
from farmops.science.rations import (
    GROW_OUT_TABLE,
    TILAPIA_TABLE,
    FeedingTemperatures,
    Ration,
    helpers_bag,
    ration,
)

READ_AGAIN_DAYS = 7
TILAPIA = "nile-tilapia"
MG_PER_G = 1000


@dataclass(frozen=True, slots=True)
class Feed:
    """What one bag of a unit holds: grams, or None with `why` it cannot be worked out or there is none.

    `portions` is over how many feeds of the day it goes; `stop` says outside which water no feed is given; `remarks`
    what to look at before the bags are filled.
    """

    grams: int | None
    portions: int
    why: str
    stop: str
    remarks: tuple[str, ...] = ()


def feed_of(
    lots: Sequence[LiveLot], warmth: Reading | None, out: Measure | None, measures: Measures, today: date
) -> Feed:
    """What goes into the bag of a unit: rather too little, for the lots that are known, at the last temperature.

    Nothing where `out` stops the feed.
    """
    stops = [feeding_temperatures(_facts(lot)) for lot in lots]
    stop = _stop_words(stops, measures)
    if out is not None:
        return Feed(0, 1, f"no feed, {water_words(out)}", stop, (f"read {out} again before filling bags",))
    unknown = [lot.species for lot, one in zip(lots, stops, strict=True) if one is None]
    missing = [f"how warm {name} want it to eat is not in the tables" for name in dict.fromkeys(unknown)]
    if warmth is None:
        missing.append("no water temperature was read")
    if missing or warmth is None:
        return Feed(None, 1, "; ".join(missing), stop)
    try:
        found = [_ration(lot, warmth.value, one) for lot, one in zip(lots, stops, strict=True) if one is not None]
    except OutOfRange as error:
        return Feed(None, 1, str(error), stop)
    return _feed(found, warmth, stop, measures, today)


def _feed(found: Sequence[Ration], warmth: Reading, stop: str, measures: Measures, today: date) -> Feed:
    grams = helpers_bag(sum(one.grams for one in found))
    read = f"worked out at {TEMPERATURE.show(warmth.value, measures)}, read on {warmth.day}"
    again = (f"{read}: read it again before filling bags",) if (today - warmth.day).days > READ_AGAIN_DAYS else (read,)
    if grams == 0:
        return Feed(0, 1, f"no feed at {TEMPERATURE.show(warmth.value, measures)}", stop, again)
    return Feed(grams, max(one.feeds_a_day for one in found), "", stop, again)


def _ration(lot: LiveLot, temperature_c: float, temperatures: FeedingTemperatures) -> Ration:
    facts = _facts(lot)
    table = TILAPIA_TABLE if facts and facts.key == TILAPIA else GROW_OUT_TABLE
    return ration(lot.number, lot.mean_mg / MG_PER_G, temperature_c, temperatures=temperatures, table=table)


def _facts(lot: LiveLot) -> SpeciesFacts | None:
    return species(lot.library_key or lot.species)


def _stop_words(stops: Sequence[FeedingTemperatures | None], measures: Measures) -> str:
    known = [one for one in stops if one is not None]
    if not known:
        return ""
    low = TEMPERATURE.show(max(one.stop_below_c for one in known), measures)
    high = TEMPERATURE.show(min(one.stop_above_c for one in known), measures)
    return f"no feed at {low} and colder, or {high} and warmer"
