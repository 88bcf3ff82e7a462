"""What the tables say of sales."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from farmops.facts import sales, sold
from farmops.model.sales import Sale, SaleLine, SoldBy, StandingOrder
from farmops.records.fish import FishLotRow
from farmops.records.harvests import HarvestRow
from farmops.records.plantings import CropRow, PlantingRow
from farmops.records.sales import SaleLineRow, SaleRow, StandingOrderRow
from tests.facts.of_books import Anyhow
from tests.facts.of_work import list_price, unit_of
from tests.facts.tables import SPANS, Answer, Tables, columns, in_span, says

LINE_COLUMNS = (
    *("id", "sale_id", "planting_id", "fish_lot_id", "amount", "amount_typed", "unsold", "returned"),
    *("price_minor", "per_amount", "price_typed", "mass_mg", "mass_typed"),
)


def _line(rows: Tables, row: SaleLineRow) -> SaleLine:
    planting = rows.find(PlantingRow, row.planting_id)
    what = (
        rows.get(CropRow, planting.crop_id).name if planting is not None else rows.get(FishLotRow, row.fish_lot_id).code
    )
    bed = rows.bed_code(planting.bed_id) if planting is not None else None
    return SaleLine(**columns(row, *LINE_COLUMNS), what=what, bed=bed, sold_by=SoldBy(row.sold_by))


def _sale(rows: Tables, row: SaleRow) -> Sale:
    lines = tuple(_line(rows, one) for one in rows[SaleLineRow] if one.sale_id == row.id)
    return Sale(**columns(row, "id", "day", "buyer", "note"), lines=lines)


@says(sales.sales)
def sales_of_a_span(rows: Tables) -> Iterator[Answer]:
    ordered = sorted(rows[SaleRow], key=lambda row: (row.day, row.id))
    for span in SPANS:
        yield span, [_sale(rows, row) for row in ordered if in_span(row.day, span)]


@says(sales.sale)
def each_sale(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[SaleRow]:
        yield (row.id,), _sale(rows, row)


@says(sales.last_sold)
def last_days_of_selling(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        last: dict[tuple[int | None, int | None], HarvestRow] = {}
        for row in sorted(rows[HarvestRow], key=lambda row: row.day):
            if row.use == "sold" and in_span(row.day, span):
                last[row.planting_id, row.fish_lot_id] = row
        found = [sales.LastSold(*origin, row.day) for origin, row in last.items()]
        yield span, Anyhow(found)


@says(sales.sold_too_early)
def nothing_is_sold_before_it_is_there(rows: Tables) -> Iterator[Answer]:
    for row in rows[SaleLineRow]:
        planting = rows.find(PlantingRow, row.planting_id)
        since = planting.started_day if planting else rows.get(FishLotRow, row.fish_lot_id).stocked_day
        assert rows.get(SaleRow, row.sale_id).day >= since
    yield (), None


@says(sales.sale_without_lines)
def no_sale_is_without_lines(rows: Tables) -> Iterator[Answer]:
    assert {row.id for row in rows[SaleRow]} == {row.sale_id for row in rows[SaleLineRow]}
    yield (), None


ORDER_COLUMNS = (
    *("id", "buyer", "crop_id", "species", "amount", "amount_typed", "price_minor", "per_amount", "price_typed"),
    *("rule_text", "rule_words", "start_day", "until_day", "note"),
)


def _order(rows: Tables, row: StandingOrderRow) -> StandingOrder:
    crop = rows.find(CropRow, row.crop_id)
    what = crop.name if crop else row.species or ""
    return StandingOrder(**columns(row, *ORDER_COLUMNS), what=what, sold_by=SoldBy(row.sold_by))


@says(sales.orders)
def every_order(rows: Tables) -> Iterator[Answer]:
    yield (), [_order(rows, row) for row in sorted(rows[StandingOrderRow], key=lambda row: (row.buyer, row.id))]


@says(sales.order)
def each_order(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[StandingOrderRow]:
        yield (row.id,), _order(rows, row)


def _touched(rows: Tables, span: tuple[date, date]) -> set[tuple[int | None, int | None]]:
    """What was marked sold or sold in a span."""
    marked = {(row.planting_id, row.fish_lot_id) for row in rows[HarvestRow] if _is_sold(row, span)}
    days = {row.id: row.day for row in rows[SaleRow]}
    lines = {(row.planting_id, row.fish_lot_id) for row in rows[SaleLineRow] if in_span(days[row.sale_id], span)}
    return marked | lines


def _is_sold(row: HarvestRow, span: tuple[date, date]) -> bool:
    return row.use == "sold" and in_span(row.day, span)


@says(sold.lines_of)
def lines_of_what_was_sold(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        touched = _touched(rows, span)
        own = [row for row in rows[SaleLineRow] if (row.planting_id, row.fish_lot_id) in touched]
        heads = [rows.get(SaleRow, row.sale_id) for row in own]
        found = [sold.SoldOn(head.day, head.buyer, _line(rows, row)) for head, row in zip(heads, own, strict=True)]
        yield span, found


@says(sold.marked_sold)
def weighings_beside_lines(rows: Tables) -> Iterator[Answer]:
    with_lines = {(row.planting_id, row.fish_lot_id) for row in rows[SaleLineRow]}
    for span in SPANS:
        wanted = _touched(rows, span) & with_lines
        yield (
            span,
            [
                _marked(rows, row)
                for row in rows[HarvestRow]
                if row.use == "sold" and (row.planting_id, row.fish_lot_id) in wanted
            ],
        )


def _marked(rows: Tables, row: HarvestRow) -> sold.MarkedSold:
    planting, lot = rows.find(PlantingRow, row.planting_id), rows.find(FishLotRow, row.fish_lot_id)
    price = list_price(rows, row)
    return sold.MarkedSold(
        **columns(row, "id", "day", "planting_id", "fish_lot_id", "mass_mg"),
        unit_id=unit_of(rows, row).id,
        bed_id=planting.bed_id if planting else None,
        crop_id=planting.crop_id if planting else None,
        species=lot.species if lot else None,
        price_minor=price.price_minor if price else None,
        per_mg=price.per_mg if price else None,
    )
