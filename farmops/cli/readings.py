"""Readings on the command line: as they are typed beside a measure, and as they are told."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

import click

from farmops import clock
from farmops.cli.entries import NOTHING
from farmops.cli.options import sure_option
from farmops.model.errors import NotUnderstood
from farmops.model.readings import NITROGEN, READ_IN, Form, Measure, NewReading, Reading
from farmops.model.values import KEEP, Keep
from farmops.quantities import Measures
from farmops.quantities.readings import show_number, show_value
from farmops.reports import names
from farmops.reports.store import Store
from farmops.reports.water import WaterLine
from farmops.science.judging import as_reported

F = TypeVar("F", bound=Callable[..., Any])


def form_options(command: F) -> F:
    """--as-ion, --as-n and --sure."""
    command = sure_option(command)
    command = click.option("--as-n", "form", flag_value=Form.AS_N.value, help="The kit reports the nitrogen only.")(
        command
    )
    return click.option(
        "--as-ion",
        "form",
        flag_value=Form.AS_ION.value,
        help="The kit reports the ion: NH4, NO2, NO3. [as the last time, first as N]",
    )(command)


def with_option(command: F) -> F:
    """--with."""
    return click.option(
        "--with",
        "instrument",
        metavar="INSTRUMENT",
        help="What it was read with; - for none. [what it was read with last]",
    )(command)


def instrument_named(store: Store, text: str | None) -> int | Keep | None:
    """The instrument that --with names: KEEP where it was not given, None for `-`."""
    if text is None:
        return KEEP
    return None if text == NOTHING else names.instrument(store, text).id


def form_of_options(form: str | None) -> Form | None:
    """The form that --as-ion or --as-n names."""
    return Form(form) if form else None


def typed_pairs(texts: Iterable[str]) -> list[tuple[str, str]]:
    """`pH=7.2` as measure and value. Raises NotUnderstood."""
    pairs = [tuple(text.partition("=")[::2]) for text in texts]
    lacking = next((name for name, value in pairs if not name.strip() or not value.strip()), None)
    if lacking is not None:
        raise NotUnderstood(f"{lacking!r} is no reading. Understood: a measure, = and its value, such as pH=7.2.")
    return [(name, value) for name, value in pairs]


def reading_object(one: Reading) -> dict[str, object]:
    """A reading in JSON's words; `value` is in the unit that `in` names."""
    return {
        "id": one.id,
        "date": one.day,
        "time": None if one.minute is None else clock.show_minute(one.minute),
        "unit": one.unit,
        "measure": one.measure,
        "value": one.value,
        "in": READ_IN[one.measure] + (" as N" if one.measure in NITROGEN else ""),
        "form": one.form,
        "typed": one.typed,
        "instrument": one.instrument,
        "doubtful": one.doubtful or None,
        "settlement": one.settlement_id,
        "note": one.note,
        "operation": one.operation,
    }


def judged_object(line: WaterLine) -> dict[str, object]:
    """A reading with its verdict in JSON's words."""
    verdict = line.judged
    return {
        **reading_object(line.reading),
        "verdict": verdict.level,
        "says": verdict.says or None,
        "first": verdict.first or None,
        "source": verdict.source or None,
    }


def value_words(one: Reading, measures: Measures) -> str:
    """`0.152 mg/L as N`, with the ion where the kit reports that."""
    words = f"{one.bound}{show_value(one.value, one.measure, measures)}"
    if one.form is not Form.AS_ION:
        return words
    return f"{words} ({show_number(as_reported(one.measure, one.value, one.form), measures)} as ion)"


def doubt_words(one: Reading) -> str:
    """`Doubtful: pH pen failed its check`, nothing where it is not."""
    return f"Doubtful: {one.doubtful.removeprefix('doubtful: ')}" if one.doubtful else ""


def told(line: WaterLine, measures: Measures) -> str:
    """A reading and what it means, in a line; what to do first where it is bad."""
    one, verdict = line.reading, line.judged
    words = f"{one.unit} {one.measure} {value_words(one, measures)}"
    says = f"{words}: {verdict.says}." if verdict.says else f"{words}."
    doubt = f"{doubt_words(one)}." if one.doubtful else ""
    return " ".join(part for part in (says, doubt, verdict.first) if part)


def not_read(measures: Iterable[Measure], readings: Iterable[Reading | NewReading]) -> list[Measure]:
    """Which of the measures asked for were not read."""
    read = {one.measure for one in readings}
    return [measure for measure in measures if measure not in read]
