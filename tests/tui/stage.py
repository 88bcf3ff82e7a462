"""A stage for forms: a laid farm whose day stands still, an app with nothing but a form, and hands to fill it in."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from textual.app import App
from textual.pilot import Pilot

from farmops.farm.absences import go_away
from farmops.farm.contacts import add_contact
from farmops.farm.doses import record_dose
from farmops.farm.farm import add_person, open_farm
from farmops.farm.incidents import begin_incident, end_incident
from farmops.farm.instruments import add_instrument
from farmops.farm.notes import add_note
from farmops.farm.own_limits import set_own_limit
from farmops.farm.papers import add_paper
from farmops.farm.power import add_device, read_meter, set_power_price
from farmops.farm.recurring import add_recurring
from farmops.farm.sources import add_source, record_top_up
from farmops.farm.supplies import add_supply, buy_supply, use_supply
from farmops.farm.treatments import book_treatment
from farmops.model.absences import NewAbsence
from farmops.model.chores import Chore, ChoreClass
from farmops.model.contacts import NewContact
from farmops.model.costs import Category
from farmops.model.farm import NewFarm, NewPerson
from farmops.model.incidents import Ending, NewIncident
from farmops.model.instruments import NewInstrument
from farmops.model.journal import JournalLine
from farmops.model.limits import NewOwnLimit
from farmops.model.notes import NewNote
from farmops.model.papers import NewPaper, PaperKind
from farmops.model.power import NewDevice, NewMeterReading, NewPowerPrice
from farmops.model.readings import Measure
from farmops.model.recurring import NewRecurring
from farmops.model.supplies import HeldBy, NewSupply, NewSupplyLot, NewSupplyUse
from farmops.model.treatments import NewTreatment
from farmops.model.units import UnitState
from farmops.model.usage import Counter
from farmops.model.values import Measured
from farmops.model.water import Amount, NewDose, NewSource, NewTopUp, SourceKind
from farmops.quantities import US
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.forms import Context, edit_form, like_form, load_context, new_form
from farmops.tui.themes import FIRST, THEMES
from farmops.tui.widgets.forms import FieldBox, FormScreen, FormSpec
from tests import farmhand as hand

TODAY = date(2026, 10, 14)
WIDE, NARROW = (80, 24), (60, 20)


def lay(store: Store) -> None:
    """Quillet Bank on 14 October 2026: three units, beds, crops, fish, money, chores."""
    open_farm(store, NewFarm("Quillet Bank", US, "America/New_York", stands_on=TODAY), by="Ada")
    add_person(store, NewPerson("Ada", "mornings"), by="Ada")
    go_away(store, NewAbsence(1, date(2026, 11, 1), date(2026, 11, 3)), by="Ada")
    add_contact(store, NewContact("Old Lane Wiring", "555 0142", "electrician"), by="Ada")
    begin_incident(store, NewIncident(began_at=datetime(2026, 9, 20, 16, 10, tzinfo=UTC)), by="Ada")
    end_incident(store, Ending(datetime(2026, 9, 20, 17, 40, tzinfo=UTC), all_running=True), by="Ada")
    wren = hand.a_unit(store, "WREN", tank=hand.volume("275 gal"), note="by the gate")
    hand.a_unit(store, "ROOK", hand.on(5, 1), UnitState.CYCLING)
    hand.a_unit(store, "TEAL", hand.on(9, 1), UnitState.PLANNED)
    north, south = hand.a_bed(store, wren), hand.a_bed(store, wren, "S", depth=hand.length("12 in"))
    chard, kale = hand.a_crop(store, "CHARD"), hand.a_crop(store, "KALE")
    hand.a_crop(store, "CHIVES")
    planting = hand.plant(store, north, chard, variety="Bright Stem", plants=30)
    hand.plant(store, south, kale, hand.on(8, 1))
    lot = hand.stock(store, wren)
    calm = NewTreatment(hand.on(9, 20), 1080, "Bt", "1 g in 1 L", 4, 0, 0, wren.id)
    book_treatment(store, calm, by="Ada")
    hand.weigh(store, planting, "1 6", hand.on(9, 1))
    hand.weigh(store, lot, "2 lb", hand.on(9, 2), number=4)
    hand.pay(store, "42.50", hand.on(9, 3), "fish feed 50 lb", wren, payee="The mill")
    hand.buy(store, "120", hand.on(3, 1), "pump", 96, wren, salvage=1000)
    add_paper(store, NewPaper(PaperKind.INSURANCE, "liability", hand.on(1, 1), hand.on(11, 1)), by="Ada")
    insured = NewRecurring("insurance", hand.money("180"), "year on 1 sep", hand.on(8, 1), payee="Old Lane Mutual")
    add_recurring(store, insured, by="Ada")
    hand.sell(store, "the gate stall", hand.on(9, 2), (planting, "1 lb at 3.50/lb"), (lot, "6 pieces at 4"))
    hand.order(store, "the inn", chard, "2 lb at 3.25/lb", "Wed", hand.on(10, 1))
    hand.price(store, chard, "3/lb", hand.on(4, 1))
    hand.price(store, "yellow perch", "8/lb", hand.on(4, 1))
    strips = NewInstrument("strips", (Measure.PH, Measure.NITRITE), hand.on(5, 1), check_days=30)
    add_instrument(store, strips, by="Ada")
    set_own_limit(store, NewOwnLimit(hand.on(5, 1), Measure.PH, 6.4, 7.4), by="Ada")
    record_dose(
        store, NewDose(wren.id, hand.on(10, 2), "chelated iron", Amount(HeldBy.MASS, hand.mass("1 oz"))), by="Ada"
    )
    add_source(store, NewSource("Mains", SourceKind.CHLORAMINE), by="Ada")
    record_top_up(store, NewTopUp(wren.id, hand.on(10, 3), hand.volume("10 gal"), 1), by="Ada")
    hand.read(store, wren, hand.on(10, 12), ph="7.2", nitrite="0.5 ion", minute=450)
    add_note(store, NewNote(hand.on(10, 5), "pale leaves", wren.id), by="Ada")
    hand.use(store, wren, Counter.PUMP_HOURS, 168 * 60, hand.on(10, 7), note="off the meter")
    add_supply(store, NewSupply("pellets", category=Category.FEED, reorder=hand.mass("10 lb")), by="Ada")
    bag = NewSupplyLot(1, hand.on(9, 20), hand.mass("20 lb"), hand.money("24"), "The mill", "B-7")
    buy_supply(store, bag, by="Ada")
    use_supply(store, NewSupplyUse(1, hand.on(10, 1), hand.mass("8 lb"), wren.id), by="Ada")
    set_power_price(store, NewPowerPrice(hand.on(1, 1), 16, 1000, "0.16"), by="Ada")
    add_device(store, NewDevice("pump", Measured(40_000, "40 W"), hand.on(3, 1), unit_id=wren.id), by="Ada")
    read_meter(store, NewMeterReading(hand.on(10, 1), Measured(1_234_500, "1234.5"), wren.id), by="Ada")
    hand.foretell(store, hand.on(10, 15), low="34 F", high="50 F")
    hand.a_chore(store, "Change the pad", "14 days after", hand.on(10, 10), unit_id=wren.id, months=(3, 4, 10))
    hand.a_chore(store, "Look for leaks", "day", hand.on(10, 1), grade=ChoreClass.LIFE_SUPPORT)


@contextmanager
def laid_copy(template: Path, folder: Path) -> Iterator[Store]:
    """A copy of the laid farm to write into."""
    store = Store(str(shutil.copy(template, folder / "stage.db")))
    try:
        yield store
    finally:
        store.close()


class Stage(App[None]):
    """An app that opens forms, and keeps what they said when they closed."""

    def __init__(self, store: Store, *specs: FormSpec, theme: str = FIRST) -> None:
        super().__init__()
        self.store = store
        self.by = "Bea"
        self.drafts: dict[str, dict[str, str]] = {}
        self.specs = list(specs)
        self.said: list[str | None] = []
        self.first_theme = theme

    def on_mount(self) -> None:
        """The first form opens by itself."""
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = self.first_theme
        if self.specs:
            self.open_form(self.specs[0])

    def open_form(self, spec: FormSpec) -> None:
        """Open a form over the empty screen."""
        self.push_screen(FormScreen(spec), self.said.append)

    @property
    def form(self) -> FormScreen:
        """The form that is open."""
        assert isinstance(self.screen, FormScreen), f"no form is open; said: {self.said}"
        return self.screen

    @property
    def closed(self) -> bool:
        """Whether the form is gone."""
        return not isinstance(self.screen, FormScreen)

    @property
    def here(self) -> FieldBox:
        """The field with the cursor."""
        return next(box for box in self.form.boxes if box.has_focus_within)

    @property
    def top(self) -> str:
        """What the form says above its fields."""
        return str(self.form.query_one("#top").render())


Driver = Pilot[None]


def stage_of(pilot: Driver) -> Stage:
    """The stage that a pilot flies."""
    app = pilot.app
    assert isinstance(app, Stage)
    return app


async def settle_down(pilot: Driver) -> None:
    """Until the workers are through and everything is drawn."""
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()
    await pilot.pause()


async def type_text(pilot: Driver, text: str) -> None:
    """Type a text, key by key."""
    await pilot.press(*text)
    await pilot.pause()


async def fill(pilot: Driver, **texts: str) -> None:
    """Put texts into fields by name."""
    for name, text in texts.items():
        stage_of(pilot).form.box(name).text = text
    await pilot.pause()


async def book(pilot: Driver) -> None:
    """F2, and wait for what comes of it."""
    await pilot.press("f2")
    await settle_down(pilot)


def shown(box: FieldBox) -> str:
    """What stands beside and below a field."""
    parts = [box.query_one(".under"), *box.query(".beside")]
    return " ".join(str(part.render()) for part in parts if part.display).strip()


def screen_text(app: App[Any]) -> list[str]:
    """The rows of the screen as a person sees them."""
    strips = app.screen._compositor.render_strips()
    return ["".join(segment.text for segment in strip) for strip in strips]


def last_entry(store: Store) -> JournalLine:
    """The newest line of the journal."""
    return lists.journal(store, 1)[0]


@dataclass(frozen=True, slots=True)
class Scene:
    """A form by name: how it is made, what is typed into it, and what it books."""

    how: str
    kind: str
    typed: dict[str, str]
    journal: str
    check: Callable[[Store], Any]
    expected: Any
    record: Callable[[Store], Any] | None = None
    unit: str | None = "WREN"

    def __str__(self) -> str:
        return f"{self.how}-{self.kind}"

    def spec(self, store: Store) -> FormSpec:
        """The form, made from the store as it is."""
        context = load_context(store, self.unit)
        return made(self.how, self.kind, self.record(store) if self.record else None, context)


def made(how: str, kind: str, record: Any, context: Context) -> FormSpec:
    """The form of a kind."""
    if how == "new":
        return new_form(kind, context)
    return (edit_form if how == "edit" else like_form)(kind, record, context)


def chore_called(store: Store, title: str) -> Chore:
    """The chore of that title."""
    return next(chore for chore in lists.chores(store) if chore.title == title)
