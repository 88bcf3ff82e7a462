"""Two fish dead in a unit on one day: what is done at once, and whom to call."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from farmops.facts import contacts as contact_facts
from farmops.facts import fish_events as event_facts
from farmops.facts import units as unit_facts
from farmops.facts.sets import sets
from farmops.farm.operation import Operation
from farmops.farm.sets import leave_out_feed
from farmops.farm.templates import give
from farmops.model.chores import Occasion
from farmops.model.fish import LossCause
from farmops.model.fish_events import LossBooked

ALARM = 2
"""So many dead fish in a unit on one day call for steps. Common practice, no source."""
LATE_ENTRY = timedelta(days=1)
"""How late deaths may be booked for the steps still to be taken; later than that they are history."""
CALL = "deaths-call"
NO_FEED = "fish died: no feed until the water is tested"
NOBODY = "No vet is among the contacts yet: farmops contacts add. Ask the state's fish health office or extension."


def steps_after(op: Operation, booked: LossBooked, unit_id: int) -> LossBooked:
    """The steps that a loss calls for, given in its own operation when it makes the number that alarms full."""
    loss = booked.loss
    died = event_facts.died_in_unit(op.reader, unit_id, loss.day)
    crossed = died >= ALARM > died - loss.number
    if loss.cause is LossCause.CULLED or not crossed or loss.day + LATE_ENTRY < op.today:
        return booked
    unit = unit_facts.unit(op.reader, unit_id)
    assert unit is not None  # noqa: S101 - a lot lives in it
    known, call = sets(op.reader, unit_id), whom_to_call(op)
    coming = [
        replace(one, template=replace(one.template, instructions=f"{call} {one.template.instructions}"))
        if one.template.key == CALL
        else one
        for one in known.on_occasion(Occasion.DEATHS, unit, loss.day)
    ]
    give(op, coming, loss.day)
    left_out = leave_out_feed(op, known, unit_id, loss.day, NO_FEED)
    return replace(booked, steps=tuple(one.template.title for one in coming), left_out=left_out, call=call)


def whom_to_call(op: Operation) -> str:
    """The name and number of the vet among the contacts, or where to look for one."""
    for one in contact_facts.contacts(op.reader):
        if "vet" in one.calls_for.casefold():
            return f"{one.name}, {one.phone}."
    return NOBODY
