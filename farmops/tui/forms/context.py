"""What a form is made from: the farm, its day, where one stands, and the names to complete while typing."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.model.beds import Bed
from farmops.model.costs import Category, Cost
from farmops.model.farm import Farm, Person
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.instruments import Instrument
from farmops.model.plantings import Crop, Planting
from farmops.model.supplies import Supply
from farmops.model.units import Unit
from farmops.model.water import SourceValue, WaterSource
from farmops.reports.label_totals import labels_of
from farmops.reports.lists import BedLine, UnitLine
from farmops.reports.store import Store
from farmops.reports.water import Waters, waters_of
from farmops.tui.widgets.fields import Setting

REMEMBERED = timedelta(days=730)
"""How far back the costs go whose words are offered again."""


@dataclass(frozen=True, slots=True)
class Context:
    """A snapshot of the farm's names; `unit` is where one stands, None for the whole farm."""

    farm: Farm
    today: date
    unit: Unit | None = None
    units: tuple[UnitLine, ...] = ()
    beds: tuple[BedLine, ...] = ()
    crops: tuple[Crop, ...] = ()
    plantings: tuple[Planting, ...] = ()
    lots: tuple[FishLot, ...] = ()
    people: tuple[Person, ...] = ()
    costs: tuple[Cost, ...] = ()
    cost_labels: tuple[str, ...] = ()
    buyers: tuple[str, ...] = ()
    crop_facts: tuple[str, ...] = ()
    species_facts: tuple[str, ...] = ()
    known_waters: Waters | None = None
    instruments: tuple[Instrument, ...] = ()
    sources: tuple[WaterSource, ...] = ()
    source_values: tuple[SourceValue, ...] = ()
    supplies: tuple[Supply, ...] = ()

    @property
    def feeds(self) -> tuple[Supply, ...]:
        """What fish are fed with."""
        return tuple(one for one in self.supplies if one.category is Category.FEED)

    @property
    def waters(self) -> Waters:
        """The water of the units, to judge by what is typed."""
        return self.known_waters or Waters(self.farm, self.today, ())

    @property
    def setting(self) -> Setting:
        """How text typed on this farm today is understood."""
        return Setting(self.farm.measures, self.today)

    @property
    def unit_code(self) -> str:
        """The code of the unit where one stands, or nothing."""
        return self.unit.code if self.unit else ""

    def unit_called(self, code: str) -> Unit:
        """The unit of that code."""
        return next(line.unit for line in self.units if line.unit.code == code)

    def bed_called(self, code: str) -> Bed:
        """The bed of that code."""
        return next(line.bed for line in self.beds if line.bed.code == code)

    def crop_called(self, name: str) -> Crop:
        """The crop of that name."""
        return next(crop for crop in self.crops if crop.name == name)

    def lot_called(self, code: str) -> FishLot:
        """The fish lot of that code."""
        return next(lot for lot in self.lots if lot.code == code)


def load_context(store: Store, unit_code: str | None = None) -> Context:
    """Read all that a form can need; to be run in a thread."""
    from farmops import library
    from farmops.reports import lists, selling
    from farmops.reports.supplies_held import supplies

    farm = lists.farm(store)
    today, units = farm.today(), tuple(lists.units(store))
    return Context(
        farm=farm,
        today=today,
        unit=next((line.unit for line in units if line.unit.code == unit_code), None),
        units=units,
        beds=tuple(lists.beds(store)),
        crops=tuple(lists.crops(store)),
        plantings=tuple(lists.plantings(store)),
        lots=tuple(lists.fish_lots(store)),
        people=tuple(lists.people(store)),
        cost_labels=tuple(dict.fromkeys(one.label for one in labels_of(store))),
        costs=tuple(lists.costs(store, today - REMEMBERED, today)),
        buyers=tuple(dict.fromkeys(one.buyer for one in reversed(selling.sales(store, today - REMEMBERED, today)))),
        crop_facts=tuple(facts.name for facts in library.crops()),
        species_facts=tuple(facts.name for facts in library.all_species()),
        known_waters=waters_of(store),
        instruments=tuple(lists.instruments(store)),
        sources=tuple(lists.sources(store)),
        source_values=tuple(lists.source_values(store)),
        supplies=tuple(supplies(store)),
    )
