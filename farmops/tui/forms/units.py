"""Forms for units: joining the row, corrections, and entering a state."""

from __future__ import annotations

from typing import Any

from farmops.model.units import NewState, NewUnit, Unit, UnitChange, UnitKind, UnitState
from farmops.quantities.hours import parse_hours, show_hours
from farmops.reports.lists import UnitLine
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

NEXT_STATE = {
    UnitState.PLANNED: UnitState.BUILDING,
    UnitState.BUILDING: UnitState.CYCLING,
    UnitState.CYCLING: UnitState.RUNNING,
    UnitState.RUNNING: UnitState.WINTERING,
    UnitState.WINTERING: UnitState.RUNNING,
    UnitState.RESTING: UnitState.CYCLING,
}
CODE_TAKEN = ("already a unit", "holds a dash")
DOUBTED_TANK = ("a tank of",)


def new(context: Context) -> FormSpec:
    """A unit joins the row."""
    fields = (
        making.code("code", "Code", what="code of a unit", blamed=CODE_TAKEN, hint="short, such as WREN"),
        Field("kind", "Kind", Kind.CHOICE, UnitKind.COUPLED.value, making.words_of(UnitKind), keep=True),
        Field("state", "State", Kind.CHOICE, UnitState.BUILDING.value, making.words_of(UnitState)),
        making.day("from_day", "In it since"),
        Field("tank", "Tank", Kind.VOLUME, keep=True, blamed=DOUBTED_TANK),
        Field("position", "Place in row", Kind.COUNT, hint="its end, unless you say so"),
        Field("chores", "Give chores", Kind.YES, "yes"),
        _cure_time(),
        *_shut_off(None, None),
        making.note(),
    )
    return FormSpec("New unit", fields, _add, context.setting, preview=_joining)


def _cure_time() -> Field:
    return Field(
        "cure_hours",
        "Cure time",
        Kind.TEXT,
        hint="being built; labels say: 72 h",
        read=lambda text, setting: parse_hours(text),
        told=lambda hours, setting: show_hours(hours),
        blamed=("time to cure",),
    )


def _joining(store: Store, values: dict[str, Any], hand: Hand) -> str:
    from farmops.reports.coming import coming_words, titles_on_joining

    if not values["chores"]:
        return "No chores, nor with its beds and fish, until a state brings some."
    return coming_words(titles_on_joining(store, UnitKind(values["kind"]), UnitState(values["state"])))


def _shut_off(breaker: str | None, valve: str | None) -> tuple[Field, ...]:
    """Where power and water are shut off, for whoever is there when something goes wrong."""
    return (
        making.note(breaker, name="breaker", label="Breaker", hint="where, such as box by the door, No. 3"),
        making.note(valve, name="valve", label="Valve", hint="where the water is shut off"),
    )


def _add(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
    from farmops.farm.units import add_unit

    entry = NewUnit(**making.mapped(values, kind=UnitKind, state=UnitState), sure=hand.sure)
    added = add_unit(store, entry, **making.hand_of(hand, operation))
    return f"{added.code} joins the row, {values['state']}."


def like(record: Unit | UnitLine, context: Context) -> FormSpec:
    """Another unit built like one."""
    one = record.unit if isinstance(record, UnitLine) else record
    tank = making.typed_volume(one.tank_ml, one.tank_typed, context.farm.measures)
    values = {"kind": one.kind.value, "tank": tank, "note": one.note or ""}
    spec = new(context)
    fields = tuple(making.afresh(field, values.get(field.name, field.value)) for field in spec.fields)
    return FormSpec(f"New unit like {one.code}", fields, _add, context.setting, preview=_joining)


def edit(record: Unit | UnitLine, context: Context) -> FormSpec:
    """Correct a unit."""
    one = record.unit if isinstance(record, UnitLine) else record
    tank = making.typed_volume(one.tank_ml, one.tank_typed, context.farm.measures)
    fields = (
        making.code("code", "Code", one.code, what="code of a unit", blamed=CODE_TAKEN),
        Field("kind", "Kind", Kind.CHOICE, one.kind.value, making.words_of(UnitKind)),
        Field("position", "Place in row", Kind.COUNT, str(one.position), required=True),
        Field("tank", "Tank", Kind.VOLUME, tank, blamed=DOUBTED_TANK),
        *_shut_off(one.breaker, one.valve),
        making.note(one.note),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.units import change_unit

        entry = UnitChange(one.id, **making.mapped(values, kind=UnitKind), sure=hand.sure)
        return f"{change_unit(store, entry, **making.hand_of(hand, operation)).code} changed."

    return FormSpec(f"Unit {one.code}", fields, save, context.setting, edits=True, verb="Change")


def state(record: Unit | UnitLine | None, context: Context) -> FormSpec:
    """A unit enters a state, the one that follows unless told otherwise."""
    one = record.unit if isinstance(record, UnitLine) else record or context.unit
    states = next((line.states for line in context.units if one is not None and line.unit.id == one.id), ())
    held = [held.state for held in states if held.from_day <= context.today]
    following = NEXT_STATE.get(held[-1], UnitState.RUNNING) if held else UnitState.BUILDING
    fields = (
        making.unit(context, one.code if one else None),
        Field("state", "State", Kind.CHOICE, following.value, making.words_of(UnitState), blamed=("has been",)),
        making.day("from_day", "From"),
        Field("chores", "Give chores", Kind.YES, "yes"),
        _cure_time(),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.units import enter_state

        unit = context.unit_called(values["unit"])
        state, day = UnitState(values["state"]), values["from_day"]
        entry = NewState(unit.id, state, day, values["chores"], values["cure_hours"])
        entered = enter_state(store, entry, **making.hand_of(hand, operation))
        return f"{unit.code} is {entered.state} from {entered.from_day}."

    about = f"{one.code} is {held[-1]} now." if one and held else ""

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        from farmops.reports.coming import coming_titles, coming_words

        unit, state = context.unit_called(values["unit"]), UnitState(values["state"])
        coming = coming_titles(store, unit, state, values["from_day"]) if values["chores"] else []
        return f"{about} {coming_words(coming)}".strip()

    title = f"{one.code} enters a state" if one else "A unit enters a state"
    return FormSpec(title, fields, save, context.setting, about=about, start="state", preview=preview)
