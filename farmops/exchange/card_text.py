"""The wall card of a unit as plain text: 72 columns."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.exchange.round_text import COLUMNS, wrapped
from farmops.model.text import plain
from farmops.quantities import MASS, TEMPERATURE, VOLUME
from farmops.reports.power_cut import GROWN_DAYS
from farmops.reports.power_cut_words import minutes_words
from farmops.reports.wall_card import WallCard

BLANK = "_" * 24
HEADLINE = "IF THE POWER IS OUT"
WATCH = "Rather too few minutes than too many. Watch the fish, not the clock: gasping means air now."
PRINT_AGAIN = "Print it again after fish come, go or are weighed, and when the season turns."


def text_of(card: WallCard) -> str:
    """The whole card, each line at most 72 columns wide."""
    return "\n".join(_lines(card)) + "\n"


def _lines(card: WallCard) -> Iterator[str]:
    yield f"{plain(card.unit.code)}   {HEADLINE}"
    yield ""
    yield from _minutes(card)
    yield ""
    for number, step in enumerate(card.steps, start=1):
        yield from _hung(f"{number}. ", f"{step.title.upper()}. {step.words}")
    yield ""
    yield "WHEN IT IS BACK"
    for step in card.checks:
        yield from _hung("[ ] ", f"{step.title}. {step.words}")
    yield ""
    for what, place in shut_off(card):
        yield from _hung(f"{what}: ", place)
    for one in card.contacts:
        yield from _hung("Call ", f"{one.calls_for}: {one.name}, {one.phone}")
    if not card.contacts:
        yield f"Call {BLANK}{BLANK}"
    yield ""
    yield from wrapped(f"{rests_on(card)} {PRINT_AGAIN}", COLUMNS)


def _minutes(card: WallCard) -> Iterator[str]:
    if card.missing:
        yield from wrapped(f"How long cannot be said: {card.missing}.", COLUMNS)
        return
    for warmth, minutes in times_of(card):
        yield f"water of {warmth:>8}   {minutes}"
    yield from wrapped(WATCH, COLUMNS)


def times_of(card: WallCard) -> list[tuple[str, str]]:
    """Each temperature with how long there is, in words."""
    return [
        (
            TEMPERATURE.show(one.temperature_c, card.farm.measures),
            "cannot be said" if one.minutes is None else minutes_words(one.minutes),
        )
        for one in card.times
    ]


def shut_off(card: WallCard) -> tuple[tuple[str, str], ...]:
    """Where power and water are shut off, with a blank where it is not written down."""
    return ("Breaker", card.unit.breaker or BLANK), ("Valve", card.unit.valve or BLANK)


def rests_on(card: WallCard) -> str:
    """When it was printed and what the minutes were worked out from."""
    printed = f"Printed {card.printed_on.day} {card.printed_on:%B %Y}, {card.farm.name}."
    basis, measures = card.basis, card.farm.measures
    if basis is None:
        return printed
    fish = f"{basis.number} fish, {MASS.show(round(basis.biomass_kg * 1_000_000), measures)} together"
    water = f"{VOLUME.show(round(basis.volume_l * 1000), measures)} of water"
    weighed = f"weighed on {basis.weighed_day.day} {basis.weighed_day:%B %Y}"
    grown = " Grown since: there is less time." if (card.printed_on - basis.weighed_day).days > GROWN_DAYS else ""
    limit = f"oxygen not below {basis.floor_mg_per_l:g} mg/L"
    return f"{printed} Worked out from {fish}, {weighed}; {water}; {limit}; fed.{grown}"


def _hung(head: str, words: str) -> Iterator[str]:
    for at, text in enumerate(wrapped(words, COLUMNS - len(head))):
        yield (head if at == 0 else " " * len(head)) + text
