"""What the tables say of what went into the water: doses, sources and what they are like, top-ups."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.facts import doses, sources
from farmops.model.readings import Form, Measure
from farmops.model.supplies import HeldBy
from farmops.model.water import Dose, SourceKind, SourceValue, TopUp, WaterSource
from farmops.records.journal import JournalRow
from farmops.records.supplies import SupplyRow, SupplyUseRow
from farmops.records.units import UnitRow
from farmops.records.water import DoseRow, SourceValueRow, TopUpRow, WaterSourceRow
from tests.facts.tables import SPANS, Answer, Tables, columns, in_span, says


def _dose(rows: Tables, row: DoseRow) -> Dose:
    used = rows.find(SupplyUseRow, row.supply_use_id)
    return Dose(
        **columns(row, "id", "day", "unit_id", "what", "amount", "amount_typed", "why", "note"),
        unit=rows.get(UnitRow, row.unit_id).code,
        held_by=HeldBy(row.held_by),
        by=next((one.actor for one in rows[JournalRow] if one.operation == row.operation), None),
        supply=None if used is None else rows.get(SupplyRow, used.supply_id).name,
    )


@says(doses.doses)
def doses_of_spans(rows: Tables) -> Iterator[Answer]:
    latest_first = sorted(rows[DoseRow], key=lambda row: (row.day, row.id), reverse=True)
    for span in SPANS:
        yield span, [_dose(rows, row) for row in latest_first if in_span(row.day, span)]


@says(doses.dose)
def each_dose(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[DoseRow]:
        yield (row.id,), _dose(rows, row)


def _source(row: WaterSourceRow) -> WaterSource:
    return WaterSource(**columns(row, "id", "name", "note"), kind=SourceKind(row.kind))


@says(sources.sources)
def every_source(rows: Tables) -> Iterator[Answer]:
    yield (), [_source(row) for row in rows[WaterSourceRow]]


@says(sources.source)
def each_source(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[WaterSourceRow]:
        yield (row.id,), _source(row)


@says(sources.values)
def what_sources_are_like(rows: Tables) -> Iterator[Answer]:
    yield (
        (),
        [
            SourceValue(
                **columns(row, "id", "from_day", "value", "typed"),
                source_id=row.water_source_id,
                source=rows.get(WaterSourceRow, row.water_source_id).name,
                measure=Measure(row.measure),
                form=Form(row.form) if row.form else None,
            )
            for row in sorted(rows[SourceValueRow], key=lambda row: (row.from_day, row.id))
        ],
    )


def _top_up(rows: Tables, row: TopUpRow) -> TopUp:
    source = rows.find(WaterSourceRow, row.water_source_id)
    return TopUp(
        **columns(row, "id", "day", "unit_id", "volume_ml", "volume_typed", "note"),
        unit=rows.get(UnitRow, row.unit_id).code,
        source_id=row.water_source_id,
        source=source.name if source else None,
        kind=SourceKind(source.kind) if source else None,
    )


@says(sources.top_ups)
def top_ups_of_spans(rows: Tables) -> Iterator[Answer]:
    latest_first = sorted(rows[TopUpRow], key=lambda row: (row.day, row.id), reverse=True)
    for span in SPANS:
        yield span, [_top_up(rows, row) for row in latest_first if in_span(row.day, span)]


@says(sources.top_up)
def each_top_up(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[TopUpRow]:
        yield (row.id,), _top_up(rows, row)
