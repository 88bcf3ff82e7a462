"""A power cut on paper and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from farmops.cli.output import line, say, terminal_width
from farmops.model.incidents import Incident, Phase, Ticked
from farmops.reports.power_cut import Basis, Standing, StepLine, UnitTime, elapsed
from farmops.reports.power_cut_words import SAFE_SIDE, basis_words, left_words, mark_words, since_words

INDENT, KEY_ROOM, LEAST_ROOM = 2, 12, 30
TOGETHER = "\N{NO-BREAK SPACE}"


def print_standing(found: Standing) -> None:
    """How a power cut stands: minutes left, steps with their ticks, what is seen running again, whom to call."""
    line(since_words(found))
    if found.times:
        line("Air first, the least time first")
        for time in found.times:
            _tell(time.unit.code, _time_words(time, found), KEY_ROOM)
        say(SAFE_SIDE)
    elif not found.over:
        line("No live fish are booked in any unit.")
    _print_steps(found)
    _print_checks(found)
    if found.contacts:
        line("Call")
        for one in found.contacts:
            line(f"{' ' * INDENT}{one.calls_for}: {one.name}, {one.phone}")


def _time_words(time: UnitTime, found: Standing) -> str:
    left = left_words(time, found.now, found.farm.time_zone) + _remedies(time)
    rests_on = (basis_words(time.basis, found.farm.measures), *time.remarks) if time.basis else ()
    return ". ".join((left, *(("; ".join(rests_on),) if rests_on else ()))) + "."


def _remedies(time: UnitTime) -> str:
    """The commands by which what is missing is written down."""
    code = time.unit.code
    tank = f"farmops units edit {code} --tank VOLUME" if any("tank" in words for words in time.missing) else ""
    read = f"farmops water add {code} temperature VALUE" if any("temperature" in one for one in time.missing) else ""
    commands = ", ".join(one for one in (tank, read) if one)
    return f" ({commands})" if commands and time.air is None else ""


def _print_steps(found: Standing) -> None:
    lines = found.of(Phase.DURING)
    if lines:
        line("Steps")
    for key in dict.fromkeys(one.step.key for one in lines):
        own = [one for one in lines if one.step.key == key]
        marks = ", ".join(filter(None, (_mark(one, found) for one in own)))
        words = f"{own[0].step.title}{f' ({marks})' if marks else ''}. {own[0].step.words}"
        _tell(f"{_box(own)} {key}", words if not found.over else marks, KEY_ROOM + 4)


def _print_checks(found: Standing) -> None:
    lines = found.of(Phase.AFTER)
    if lines:
        line("Seen running again")
    for code in dict.fromkeys(one.unit.code for one in lines if one.unit):
        own = [one for one in lines if one.unit and one.unit.code == code]
        _tell(code, "   ".join(f"{_box([one])} {one.step.key}".replace(" ", TOGETHER) for one in own), KEY_ROOM)


def _box(lines: Sequence[StepLine]) -> str:
    return "[x]" if all(one.ticked for one in lines) else "[ ]"


def _mark(one: StepLine, found: Standing) -> str:
    where, done = one.unit.code if one.unit else "", mark_words(one, found.farm.time_zone)
    return f"{where} {done or 'open'}".strip() if where else done


def _tell(head: str, words: str, room: int) -> None:
    """A head, and words beside it in as many lines as they take."""
    start = f"{' ' * INDENT}{head.ljust(room)}  "
    width = max(terminal_width(), len(start) + LEAST_ROOM)
    for text in wrap(words, width, initial_indent=start, subsequent_indent=" " * len(start)):
        line(text.replace(TOGETHER, " "))


def incident_object(one: Incident) -> dict[str, object]:
    """An incident in JSON's words."""
    return {"id": one.id, "kind": one.kind, "began_at": one.began_at, "ended_at": one.ended_at, "note": one.note}


def ticked_object(one: Ticked) -> dict[str, object]:
    """A step that was taken in JSON's words."""
    return {"step": one.step, "unit": one.unit, "at": one.at, "by": one.actor, "note": one.note}


def standing_object(found: Standing) -> dict[str, object]:
    """A power cut in JSON's words; without one, what would come of one that begins now."""
    one = found.incident
    began = one.began_at if one else found.now
    return {
        "incident": incident_object(one) if one else None,
        "now": found.now,
        "lasting_minutes": elapsed(began, (one and one.ended_at) or found.now).total_seconds() / 60,
        "units": [_time_object(time, found) for time in found.times],
        "steps": [_step_object(line) for line in found.steps],
        "all_running": found.all_running,
    }


def _time_object(time: UnitTime, found: Standing) -> dict[str, object]:
    return {
        "unit": time.unit.code,
        "minutes_left": time.left(found.now),
        "minutes": time.minutes,
        "counted_from": time.since,
        "missing": time.missing,
        "remarks": time.remarks,
        "air_since": time.air.at if time.air else None,
        "rests_on": _basis_object(time.basis) if time.basis else None,
    }


def _basis_object(basis: Basis) -> dict[str, object]:
    return {
        "water_l": basis.volume_l,
        "fish": basis.number,
        "mean_g": basis.mean_g,
        "biomass_kg": basis.biomass_kg,
        "temperature_c": basis.temperature_c,
        "temperature_read": basis.temperature_day,
        "floor_mg_per_l": basis.floor_mg_per_l,
        "oxygen_mg_per_l": basis.oxygen_mg_per_l,
        "weighed": basis.weighed_day,
    }


def _step_object(line: StepLine) -> dict[str, object]:
    ticked = ticked_object(line.ticked) if line.ticked else None
    return {
        "step": line.step.key,
        "phase": line.step.phase,
        "unit": line.unit.code if line.unit else None,
        "title": line.step.title,
        "words": line.step.words,
        "standing": line.step.standing,
        "at": ticked and ticked["at"],
        "by": ticked and ticked["by"],
    }
