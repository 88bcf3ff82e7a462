"""Readings on the command line: as they are typed beside a measure, and as they are told."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

import click

from farmops import clock
from farmops.model.errors import NotUnderstood, Refused, Unlikely
from farmops.model.readings import NITROGEN, READ_IN, Form, Measure, NewReading, Reading, measure_called
from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.quantities.readings import parse_reading, show_value
from farmops.reports.water import WaterLine

F = TypeVar("F", bound=Callable[..., Any])


def form_options(command: F) -> F:
    """--as-ion, --as-n and --sure."""
    command = click.option("--sure", is_flag=True, help="Book an unlikely value all the same.")(command)
    command = click.option("--as-n", "form", flag_value=Form.AS_N.value, help="The kit reports the nitrogen only.")(
        command
    )
    return click.option(
        "--as-ion",
        "form",
        flag_value=Form.AS_ION.value,
        help="The kit reports the ion: NH4, NO2, NO3. [as the last time, first as N]",
    )(command)


def typed_reading(measure: str, text: str, measures: Measures, form: str | None, *, sure: bool) -> NewReading:
    """A reading as typed; its form stands in its text or in the options. Raises NotUnderstood when they differ."""
    kind = measure_called(measure)
    read = parse_reading(text, kind, measures)
    said = Form(form) if form and kind in NITROGEN else read.form
    if read.form not in (None, said):
        raise NotUnderstood(f"{plain(text)!r} says {read.form}, the option {said}. Say one of them.")
    return NewReading(kind, read.value, text.strip(), said, sure=sure)


def typed_pairs(texts: Iterable[str]) -> list[tuple[str, str]]:
    """`pH=7.2` as measure and value. Raises NotUnderstood."""
    pairs = [tuple(text.partition("=")[::2]) for text in texts]
    lacking = next((name for name, value in pairs if not name.strip() or not value.strip()), None)
    if lacking is not None:
        raise NotUnderstood(f"{lacking!r} is no reading. Understood: a measure, = and its value, such as pH=7.2.")
    return [(name, value) for name, value in pairs]


@contextmanager
def asked() -> Iterator[None]:
    """Where an unlikely value is asked about, say how to answer."""
    try:
        yield
    except Unlikely as error:
        raise Refused(f"{error} If it is, say so: --sure") from None


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
    """`0.152 mg/L as N`, with what was typed where the kit said it otherwise."""
    words = f"{one.bound}{show_value(one.value, one.measure, measures)}"
    return f"{words} (read {one.typed.lstrip('<> ')} as ion)" if one.form is Form.AS_ION else words


def told(line: WaterLine, measures: Measures) -> str:
    """A reading and what it means, in a line; what to do first where it is bad."""
    one, verdict = line.reading, line.judged
    words = f"{one.unit} {one.measure} {value_words(one, measures)}"
    says = f"{words}: {verdict.says}." if verdict.says else f"{words}."
    return f"{says} {verdict.first}".rstrip()


def not_read(measures: Iterable[Measure], readings: Iterable[Reading | NewReading]) -> list[Measure]:
    """Which of the measures asked for were not read."""
    read = {one.measure for one in readings}
    return [measure for measure in measures if measure not in read]
