"""What it means that a reading moves away from what was usual, in the words of people who run a pump."""

from __future__ import annotations

from farmops.model.readings import Measure
from farmops.quantities.measures import Measures
from farmops.quantities.readings import show_number, show_value

COUNTED = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
SUBJECT = {
    Measure.FILL_TIME: "Bed fills in",
    Measure.DRAIN_TIME: "Bed drains in",
    Measure.FLOW: "The pump moves",
}
HOW = {
    (Measure.FILL_TIME, 1): ("slower", "A blocked intake or a tired pump would explain it."),
    (Measure.FILL_TIME, -1): ("faster", "A bed that clogs with solids holds less water and fills sooner."),
    (Measure.DRAIN_TIME, 1): ("slower", "Roots or dirt in the siphon would explain it."),
    (Measure.DRAIN_TIME, -1): ("faster", "Less water in the bed would explain it: see how high it gets."),
    (Measure.FLOW, 1): ("more", "A leak behind the meter, or a valve that was opened, would explain it."),
    (Measure.FLOW, -1): ("less", "A blocked intake or a tired pump would explain it."),
}
NO_CYCLE_WORDS = "No siphon cycle: it dribbles. Too little comes in to start it, or air gets in: the pump first."


def drift_words(
    measure: Measure, value: float, usual: tuple[float, float], side: int, running: int, measures: Measures
) -> str:
    """`Bed fills in 14.6 min, usual 11.6 to 12.1: slower, four readings running. A blocked intake would ...`

    One reading alone asks to be taken again; `side` 0 says that it is as usual.
    """
    low, high = (show_number(limit, measures) for limit in usual)
    said = f"{SUBJECT[measure]} {show_value(value, measure, measures)}, usual {low} to {high}"
    if not side:
        return f"{said}: as usual."
    how, explains = HOW[measure, side]
    if running == 1:
        return f"{said}: {how}, one reading. Take it once more: it may be a slip."
    return f"{said}: {how}, {counted(running)} readings running. {explains}"


def drift_brief(measure: Measure, usual: tuple[float, float], side: int, running: int, measures: Measures) -> str:
    """`slower, 4 running (11.5 to 12.2)`; nothing where it is as usual."""
    if not side:
        return ""
    low, high = (show_number(limit, measures) for limit in usual)
    return f"{HOW[measure, side][0]}, {running} running ({low} to {high})"


def counted(number: int) -> str:
    """A small number as a word."""
    return COUNTED[number] if number < len(COUNTED) else str(number)
