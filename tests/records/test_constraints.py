"""What no program can write into a store: nonsense, two of one kind where there is one, links to nothing."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import CheckConstraint, UniqueConstraint

from farmops import clock
from farmops.model.errors import OutOfRange, Refused
from farmops.model.ids import new_id
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE, JournalRow, metadata
from tests.records.examples import AT, DAY, VALID, write, write_one_of_each

BEFORE, LONG_BEFORE = DAY - timedelta(days=1), DAY - timedelta(days=2)
NONSENSE: dict[str, dict[str, Any]] = {
    "ck_farm_one": {"id": 2},
    "ck_farm_mass_known": {"mass": "stone"},
    "ck_farm_volume_known": {"volume": "barrel"},
    "ck_farm_area_known": {"area": "acre"},
    "ck_farm_length_known": {"length": "rod"},
    "ck_farm_temperature_known": {"temperature": "K"},
    "ck_farm_currency_code": {"currency": "$"},
    "ck_unit_kind_known": {"kind": "pond"},
    "ck_unit_tank_positive": {"tank_ml": 0},
    "ck_unit_state_state_known": {"state": "lost"},
    "ck_bed_kind_known": {"kind": "water"},
    "ck_bed_depth_positive": {"depth_um": 0},
    "ck_bed_size_area_positive": {"area_mm2": 0},
    "ck_planting_started_by_known": {"started_by": "wishing"},
    "ck_planting_cleared_after_start": {"cleared_day": BEFORE},
    "ck_planting_plants_positive": {"plants": 0},
    "ck_planting_area_positive": {"area_mm2": -1},
    "ck_fish_lot_number_not_negative": {"number": -1},
    "ck_fish_lot_mean_positive": {"mean_mg": 0},
    "ck_fish_lot_closed_after_stocking": {"closed_day": BEFORE},
    "ck_harvest_one_origin": {"fish_lot_id": 1},
    "ck_harvest_mass_positive": {"mass_mg": 0},
    "ck_harvest_tare_not_negative": {"tare_mg": -1},
    "ck_harvest_number_positive": {"number": 0},
    "ck_harvest_use_known": {"use": "lost"},
    "ck_cost_kind_known": {"kind": "gift", "life_months": None, "salvage_minor": None},
    "ck_cost_category_known": {"category": "sundries"},
    "ck_cost_amount_positive": {"amount_minor": 0},
    "ck_cost_life_with_capital": {"life_months": None},
    "ck_cost_life_positive": {"life_months": 0},
    "ck_cost_salvage_with_capital": {"salvage_minor": None},
    "ck_cost_salvage_below_amount": {"salvage_minor": 64_001},
    "ck_price_one_product": {"species": "yellow perch"},
    "ck_price_price_not_negative": {"price_minor": -1},
    "ck_price_per_positive": {"per_mg": 0},
    "ck_chore_grade_known": {"grade": "nice to have"},
    "ck_chore_part_known": {"part": "night"},
    "ck_chore_rule_kind_known": {"rule_kind": "whenever"},
    "ck_chore_minutes_sensible": {"minutes": 1441},
    "ck_chore_one_place": {"bed_id": 1},
    "ck_settlement_kind_known": {"kind": "forgotten"},
    "ck_settlement_until_with_deferred": {"until_day": DAY},
    "ck_settlement_reason_with_skipped": {"kind": "skipped"},
    "ck_settlement_minutes_not_negative": {"minutes": -1},
    "ck_chore_pause_until_after_from": {"until_day": LONG_BEFORE},
    "ck_chore_template_applies_to_known": {"applies_to": "tank"},
    "ck_chore_template_occasion_known": {"occasion": "birthday"},
    "ck_chore_template_grade_known": {"grade": "nice to have"},
    "ck_chore_template_part_known": {"part": "night"},
    "ck_chore_template_minutes_sensible": {"minutes": 1441},
    "ck_chore_template_version_positive": {"version": 0},
    "ck_reading_measure_known": {"measure": "mood"},
    "ck_reading_form_known": {"form": "as guessed"},
    "ck_reading_minute_of_a_day": {"minute": 1440},
    "ck_usage_counter_known": {"counter": "miles"},
    "ck_usage_amount_positive": {"amount": 0},
    "ck_forecast_says_something": {"low_c": None, "high_c": None},
    "ck_forecast_low_below_high": {"low_c": 9.5},
    "ck_note_changed_known": {"changed": "mind"},
    "ck_note_says_something": {"text": None, "changed": None},
    "ck_note_file_whole": {"file": "a.jpg"},
    "ck_note_changed_on_a_unit": {"unit_id": None},
    "ck_note_one_place": {"chore_id": 1},
    "ck_absence_until_after_from": {"until_day": BEFORE},
    "ck_absence_somebody_else_stands_in": {"stand_in_id": 1},
    "ck_harvest_minutes_sensible": {"minutes": 1441},
    "ck_cost_one_place": {"unit_id": 1, "bed_id": 1},
    "ck_cost_receipt_whole": {"receipt": "a.pdf"},
    "ck_recurring_cost_category_known": {"category": "sundries"},
    "ck_recurring_cost_amount_positive": {"amount_minor": 0},
    "ck_recurring_cost_until_after_start": {"until_day": BEFORE},
    "ck_driver_driver_known": {"driver": "mood"},
    "ck_driver_category_known": {"category": "sundries"},
    "ck_driver_share_parts_not_negative": {"parts": -1},
    "ck_joint_split_method_known": {"method": "dice", "produce_thousandths": None},
    "ck_joint_split_share_with_fixed": {"produce_thousandths": None},
    "ck_joint_split_share_of_all": {"produce_thousandths": 1001},
    "ck_labour_rate_rate_not_negative": {"rate_minor": -1},
    "ck_sale_line_one_origin": {"fish_lot_id": 1},
    "ck_sale_line_sold_by_known": {"sold_by": "bushel"},
    "ck_sale_line_amount_positive": {"amount": 0, "unsold": 0},
    "ck_sale_line_rest_not_negative": {"returned": 12},
    "ck_sale_line_price_not_negative": {"price_minor": -1},
    "ck_sale_line_per_positive": {"per_amount": 0},
    "ck_sale_line_mass_positive": {"mass_mg": 0},
    "ck_standing_order_one_product": {"species": "yellow perch"},
    "ck_standing_order_sold_by_known": {"sold_by": "bushel"},
    "ck_standing_order_amount_positive": {"amount": 0},
    "ck_standing_order_price_not_negative": {"price_minor": -1},
    "ck_standing_order_per_positive": {"per_amount": 0},
    "ck_standing_order_until_after_start": {"until_day": BEFORE},
    "ck_supply_category_known": {"category": "sundries"},
    "ck_supply_held_by_known": {"held_by": "armful"},
    "ck_supply_reorder_not_negative": {"reorder_at": -1},
    "ck_supply_lot_amount_positive": {"amount": 0},
    "ck_supply_lot_expires_after_day": {"expires_day": BEFORE},
    "ck_supply_lot_opened_after_day": {"opened_day": BEFORE},
    "ck_supply_use_kind_known": {"kind": "lost"},
    "ck_supply_use_amount_sensible": {"amount": 0},
    "ck_supply_use_counted_for_all": {"kind": "counted"},
    "ck_paper_kind_known": {"kind": "napkin"},
    "ck_paper_until_after_from": {"until_day": BEFORE},
    "ck_paper_file_whole": {"file": "a.pdf"},
    "ck_device_rated_positive": {"rated_mw": 0},
    "ck_device_minutes_of_a_day": {"minutes_a_day": 1441},
    "ck_device_until_after_from": {"until_day": BEFORE},
    "ck_meter_shown_not_negative": {"shown_wh": -1},
    "ck_power_price_price_not_negative": {"price_minor": -1},
    "ck_power_price_per_positive": {"per_wh": 0},
    "ck_harvest_dressed_below_whole": {"dressed_mg": 623_691},
    "ck_sample_weighing_number_positive": {"number": 0},
    "ck_sample_weighing_mass_positive": {"mass_mg": 0},
    "ck_sample_fish_mass_positive": {"mass_mg": 0},
    "ck_loss_number_positive": {"number": 0},
    "ck_loss_mass_positive": {"mass_mg": 0},
    "ck_loss_cause_known": {"cause": "boredom"},
    "ck_loss_disposal_known": {"disposal": "lost"},
    "ck_transfer_number_positive": {"number": 0},
    "ck_transfer_mean_positive": {"mean_mg": 0},
    "ck_transfer_two_lots": {"to_lot_id": 1},
    "ck_feeding_mass_positive": {"mass_mg": 0},
    "ck_feeding_ate_known": {"ate": "politely"},
    "ck_instrument_form_known": {"form": "as guessed"},
    "ck_instrument_expires_after_from": {"expires_day": BEFORE},
    "ck_instrument_until_after_from": {"until_day": BEFORE},
    "ck_instrument_check_days_positive": {"check_days": 0},
    "ck_own_limit_measure_known": {"measure": "mood"},
    "ck_own_limit_says_something": {"low": None, "high": None},
    "ck_own_limit_low_below_high": {"low": 24.5},
    "ck_dose_held_by_known": {"held_by": "count"},
    "ck_dose_amount_positive": {"amount": 0},
    "ck_water_source_kind_known": {"kind": "dew"},
    "ck_source_value_measure_known": {"measure": "mood"},
    "ck_source_value_form_known": {"form": "as guessed"},
    "ck_top_up_volume_positive": {"volume_ml": 0},
    "ck_treatment_one_place": {"unit_id": 1},
    "ck_treatment_reentry_not_negative": {"reentry_hours": -1},
    "ck_treatment_harvest_not_negative": {"harvest_days": -1},
    "ck_treatment_fish_not_negative": {"fish_days": -1},
    "ck_incident_kind_known": {"kind": "party"},
    "ck_incident_ends_after_it_began": {"ended_at": AT - timedelta(days=1)},
}
FREED = {
    "person": {"name": "Bea"},
    "unit": {"code": "ALDER"},
    "unit_state": {"from_day": BEFORE},
    "bed": {"name": "S"},
    "bed_size": {"from_day": BEFORE},
    "crop": {"name": "kale"},
    "fish_lot": {"code": "PERCH-27"},
    "lot_place": {"from_day": BEFORE},
    "harvest": {"fingerprint": "b"},
    "price": {"from_day": BEFORE},
    "chore_pause": {"from_day": BEFORE},
    "chore_template": {"key": "own"},
    "forecast": {"day": BEFORE},
    "presence": {"day": BEFORE},
    "driver": {"from_day": BEFORE},
    "driver_share": {},
    "joint_split": {"from_day": BEFORE},
    "labour_rate": {"from_day": BEFORE},
    "cost_label": {"label": "Seed"},
    "supply": {"name": "filter pads"},
    "meter": {"day": BEFORE},
    "power_price": {"from_day": BEFORE},
    "instrument": {"name": "pen"},
    "water_source": {"name": "well"},
    "source_value": {"from_day": BEFORE},
}
LINKS = [(key.parent.table.name, key.parent.name) for table in metadata.tables.values() for key in table.foreign_keys]


def rules(table: str, kind: type) -> set[str]:
    """The names of the constraints of that kind on a table."""
    return {str(found.name) for found in metadata.tables[table].constraints if isinstance(found, kind)}


@pytest.fixture
def full_store(store: Store) -> Store:
    """A store with one valid row in every table."""
    write_one_of_each(store)
    return store


def breaking(store: Store, table: str, **values: Any) -> str:
    """The words with which a row is refused."""
    with pytest.raises(Refused) as refused:
        write(store, table, **(VALID[table] | values))
    return str(refused.value)


def test_every_check_has_its_nonsense_here() -> None:
    assert set().union(*(rules(table, CheckConstraint) for table in BY_TABLE)) == set(NONSENSE)


def test_nonsense_is_refused_by_the_name_of_the_rule(full_store: Store) -> None:
    for table in VALID:
        for rule in rules(table, CheckConstraint):
            assert rule in breaking(full_store, table, **(FREED.get(table, {}) | NONSENSE[rule]))


def test_a_hash_in_the_journal_has_its_length(store: Store) -> None:
    values = dict.fromkeys(JournalRow.model_fields, "x") | {"seq": 1, "at": clock.now()}
    enter(store, JournalRow(**values | {"hash": "0" * 64}))
    with pytest.raises(Refused, match="ck_journal_hash_length"):
        enter(store, JournalRow(**values | {"seq": 2, "operation": "y", "hash": "short"}))


def enter(store: Store, row: JournalRow) -> None:
    with store.writing(new_id()) as transaction:
        transaction.session.add(row)
        transaction.session.flush()


def test_every_table_that_must_not_hold_two_alike_is_tried_here() -> None:
    assert {table for table in BY_TABLE if rules(table, UniqueConstraint)} == set(FREED)


def test_two_alike_are_refused_and_two_that_differ_are_not(full_store: Store) -> None:
    written: dict[str, int] = {}
    for table, values in FREED.items():
        assert "unique" in breaking(full_store, table).lower()
        other = {"unit_id": written["unit"]} if table == "driver_share" else values
        written[table] = write(full_store, table, **(VALID[table] | other))
        assert written[table] > 1


def test_one_species_has_one_price_from_a_day(full_store: Store) -> None:
    fish = VALID["price"] | {"crop_id": None, "species": "yellow perch"}
    write(full_store, "price", **fish)
    with pytest.raises(Refused):
        write(full_store, "price", **fish)
    write(full_store, "price", **(fish | {"species": "koi"}))


def test_a_link_to_nothing_is_refused(full_store: Store) -> None:
    for table, column in LINKS:
        values: dict[str, Any] = FREED.get(table, {}) | {column: 99}
        if table in ("harvest", "sale_line") and column == "fish_lot_id":
            values["planting_id"] = None
        if table == "chore" and column in ("bed_id", "fish_lot_id"):
            values["unit_id"] = None
        if table == "treatment" and column != "bed_id":
            values["bed_id"] = None
        if table == "note" and column != "unit_id":
            values |= {"unit_id": None, "changed": None}
        assert "foreign key" in breaking(full_store, table, **values).lower()


def remove(store: Store, table: str, *, links_wait: bool = False) -> None:
    with store.writing(new_id()) as transaction:
        if links_wait:
            transaction.defer_links()
        transaction.remove(transaction.get(BY_TABLE[table], 1))


@pytest.mark.parametrize("links_wait", [False, True])
def test_a_row_that_others_point_to_stays_and_the_store_goes_on(full_store: Store, links_wait: bool) -> None:
    with pytest.raises(Refused, match=r"(?i)foreign key"):
        remove(full_store, "crop", links_wait=links_wait)
    with full_store.reading() as reader:
        assert reader.value("SELECT COUNT(*) FROM crop") == 1
    assert write(full_store, "person", name="Bea") == 2


def test_a_type_is_kept_strictly(store: Store) -> None:
    with pytest.raises(Refused):
        write(store, "unit", **(VALID["unit"] | {"position": "first"}))


def test_a_number_too_large_is_refused_in_words(store: Store) -> None:
    with pytest.raises(OutOfRange, match="larger than any"):
        write(store, "unit", **(VALID["unit"] | {"position": 10**20}))
    with pytest.raises(OutOfRange, match="larger than any"), store.writing(new_id()) as transaction:
        transaction.get(BY_TABLE["unit"], 10**20)


def test_an_id_is_never_used_again(full_store: Store) -> None:
    for table in reversed(VALID):
        remove(full_store, table)
    for table in ("person", "unit", "crop", "supply", "cost"):
        assert write(full_store, table, **VALID[table]) == 2


def test_what_is_refused_halfway_leaves_nothing(store: Store) -> None:
    with pytest.raises(Refused, match="no"):
        add_and_refuse(store)
    with store.reading() as reader:
        assert reader.value("SELECT COUNT(*) FROM person") == 0


def add_and_refuse(store: Store) -> None:
    with store.writing(new_id()) as transaction:
        transaction.add(BY_TABLE["person"](name="Ada"))
        raise Refused("no")
