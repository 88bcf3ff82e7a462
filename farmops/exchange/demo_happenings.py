"""What happened on the invented farm besides work and weighings: fish fed and lost, a power cut, people away."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any

from farmops import clock
from farmops.exchange.demo_files import Cells, rows, some
from farmops.farm import absences, contacts, fish_events, incidents, notes
from farmops.model.absences import NewAbsence
from farmops.model.contacts import NewContact
from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.fish_events import NewFeeding, NewLoss, NewSample
from farmops.model.frozen import dataclass
from farmops.model.incidents import Ending, IncidentKind, NewIncident
from farmops.model.notes import Changed, NewNote
from farmops.model.values import Measured
from farmops.quantities import MASS, Measures
from farmops.records.store import Store
from farmops.reports import lists


@dataclass(frozen=True, slots=True)
class Happenings:
    """Where it is booked: the store, what is there by name, how the farm measures, its zone, and who books."""

    store: Store
    unit_ids: Mapping[str, int]
    lot_ids: Mapping[str, int]
    supply_ids: Mapping[str, int]
    measures: Measures
    zone: str
    hand: Callable[..., Mapping[str, Any]]

    def book(self) -> None:
        """The fish first, then what befell people and the farm."""
        for row in rows("samples"):
            fish_events.weigh_sample(self.store, self._sample(row), **self.hand(row["by"]))
        for row in rows("losses"):
            fish_events.record_loss(self.store, self._loss(row), **self.hand(row["by"]))
        feeds = {row["lot"]: self.supply_ids[row["supply"]] for row in rows("fed_with")}
        for row in rows("feedings"):
            fish_events.record_feeding(self.store, self._feeding(row, feeds), **self.hand(row["by"]))
        for row in rows("contacts"):
            entry = NewContact(row["name"], row["phone"], row["calls_for"], row["note"])
            contacts.add_contact(self.store, entry, **self.hand())
        self._absences()
        self._incidents()
        for row in rows("notes"):
            notes.add_note(self.store, self._note(row), **self.hand(row["by"]))

    def _weight(self, typed: str) -> Measured:
        return Measured(MASS.parse(typed, self.measures), typed)

    def _sample(self, row: Cells) -> NewSample:
        lot, day = self.lot_ids[row["lot"]], date.fromisoformat(row["date"])
        if row["number"]:
            return NewSample(lot, day, int(row["number"]), self._weight(row["weight"]))
        return NewSample(lot, day, each=tuple(self._weight(one.strip()) for one in row["weight"].split(";")))

    def _loss(self, row: Cells) -> NewLoss:
        return NewLoss(
            self.lot_ids[row["lot"]],
            date.fromisoformat(row["date"]),
            int(row["number"]),
            LossCause(row["cause"]),
            some(row["disposal"], Disposal),
            note=row["note"],
        )

    def _feeding(self, row: Cells, feeds: Mapping[str, int]) -> NewFeeding:
        lot, day = self.lot_ids[row["lot"]], date.fromisoformat(row["date"])
        given, ate = self._weight(row["amount"]), some(row["ate"], Ate)
        return NewFeeding(lot, day, given, ate, row["note"], feeds[row["lot"]], sure=True)

    def _absences(self) -> None:
        people = {one.name: one.id for one in lists.people(self.store)}
        for row in rows("absences"):
            first, last = (date.fromisoformat(row[head]) for head in ("from", "until"))
            entry = NewAbsence(people[row["person"]], first, last, people[row["stand_in"]], row["note"])
            absences.go_away(self.store, entry, **self.hand(row["person"]))

    def _incidents(self) -> None:
        for row in rows("incidents"):
            began = NewIncident(IncidentKind(row["kind"]), self._instant(row["began"]), row["note"])
            incidents.begin_incident(self.store, began, **self.hand(row["by"]))
            ending = Ending(self._instant(row["ended"]), all_running=True)
            incidents.end_incident(self.store, ending, **self.hand(row["by"]))

    def _instant(self, cell: str) -> datetime:
        there = datetime.fromisoformat(cell)
        return clock.instant_of(there.date(), there.hour * 60 + there.minute, self.zone)

    def _note(self, row: Cells) -> NewNote:
        changed = some(row["changed"], Changed)
        return NewNote(date.fromisoformat(row["date"]), row["text"], self.unit_ids[row["unit"]], changed=changed)
