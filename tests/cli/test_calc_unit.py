"""`farmops calc` on fish, plants, beds and pumps: against printed figures, by unit, and refused in words."""

from __future__ import annotations

import pytest

from tests.cli.calc_runs import answer, calc, plainly, refusal
from tests.labels import from_memory, published

FAO = "Somerville et al. 2014, FAO Tech. Paper 589"
RATION = "ration --count 40 --mean 125g --stop 18C 34C"


@published(
    f"{FAO}, s.7.3: growing out, 1 to 2 % of body weight a day", note="40 fish of 125 g; the high end is the cap"
)
def test_ration_at_its_best_temperature_is_the_cap() -> None:
    found = answer(f"{RATION} --temp 28C --best 27C 30C")
    assert found["feed_g_per_day"] == pytest.approx(100)
    assert found["percent_of_weight"] == pytest.approx(2)
    assert plainly(f"{RATION} --temp 28C --best 27C 30C").startswith(
        "Up to 100 g (3.5 oz) of feed today, in 2 portions of 50 g (1.8 oz). Full ration."
    )


def test_ration_falls_evenly_to_where_feeding_stops() -> None:
    found = answer(f"{RATION} --temp 22.5C --best 27C 30C")
    assert found["temperature_factor"] == pytest.approx(0.5)
    assert found["feed_g_per_day"] == pytest.approx(50)


def test_no_feed_in_the_cold_nor_where_the_unit_takes_none() -> None:
    assert plainly(f"{RATION} --temp 17C --best 27C 30C").startswith("No feed: at or below 18 C.")
    assert plainly(f"{RATION} --temp 12C --species nile-tilapia").startswith("No feed: 12 C can kill them")
    assert answer(f"{RATION} --temp 28C --best 27C 30C --unit-limit 30g")["feed_g_per_day"] == 30
    assert "held to 30 g" in plainly(f"{RATION} --temp 28C --best 27C 30C --unit-limit 30g").lower()


def test_tilapia_has_a_table_of_its_own() -> None:
    by_species = answer(f"{RATION} --temp 28C --species nile-tilapia")
    assert by_species["feeds_a_day"] == 3
    assert by_species == answer(f"{RATION} --temp 28C --species nile-tilapia --table tilapia")
    assert by_species["feed_g_per_day"] > answer(f"{RATION} --temp 28C --best 27C 30C")["feed_g_per_day"]


@published("University of the Virgin Islands AES: tilapia from 50 to about 900 g in 24 weeks", note="SGR by definition")
def test_growth_rate_of_the_uvi_tilapia() -> None:
    assert answer("growth --from 50g --to 900g --days 168")["sgr_percent_per_day"] == pytest.approx(1.720, abs=0.001)
    assert plainly("growth --from 50g --to 900g --days 168").startswith("1.72 % a day (SGR)")


@published("Iwama and Tautz 1981: 10 to 350 g in 200 days at 11 C", note="0.2224 when written times 100")
def test_thermal_growth_coefficient() -> None:
    found = answer("growth --from 10g --to 350g --days 200 --temp 11C")
    assert found["tgc_times_1000"] == pytest.approx(2.224, abs=0.001)


def test_forecasts_undo_what_the_rates_measure() -> None:
    by_sgr = answer("growth --from 50g --days 100 --sgr 1.7")["end_g"]
    assert answer(f"growth --from 50g --to {by_sgr:.6f}g --days 100")["sgr_percent_per_day"] == pytest.approx(1.7)
    assert answer("growth --from 50g --days 60 --tgc 1.5 --temp 27C")["end_g"] == pytest.approx(228.6, abs=0.05)


def test_forecast_for_water_too_warm_warns() -> None:
    line = "growth --from 50g --days 60 --tgc 1.5 --temp 27C --species"
    assert "Too high a forecast: 60 days are warmer than 16 C" in plainly(f"{line} rainbow-trout")
    assert answer(f"{line} nile-tilapia")["warning"] is None


BALANCE = "balance --feed 200g --area 4m2 --fish 15kg --tank 1000L --flow 2000L/h"


@published(f"{FAO}, s.2.1.4: 40 to 50 g of feed per m2 a day for leafy plants")
def test_feed_per_bed_area() -> None:
    found = answer(BALANCE)
    assert found["feed_per_area_g_per_m2_day"] == 50
    assert found["feed_per_area_place"] == "within"
    assert plainly(BALANCE).startswith("Feed per bed 50 g/m2 a day, 40 to 50 wanted: in balance.")
    assert answer("balance --feed 200g --area 10m2")["feed_per_area_place"] == "below"
    assert answer("balance --feed 200g --area 2m2 --plants fruiting")["feed_per_area_place"] == "above"


@published(f"{FAO}, s.2.1.4: 40 to 50 g of feed per m2 a day for leafy plants", note="area and feed are arithmetic")
def test_bed_for_a_feed_and_feed_for_a_bed() -> None:
    carried = answer("balance --feed 200g")
    assert (carried["area_low_m2"], carried["area_high_m2"]) == (4, 5)
    needed = answer("balance --area 4m2")
    assert (needed["feed_low_g_per_day"], needed["feed_high_g_per_day"]) == (160, 200)


@from_memory(f"{FAO}, Appendix 4: 200 g of 32 % feed, 7.5 g NH3, 13.2 m2, 44 L of tuff; Timmons and Ebeling 0.092")
def test_ammonia_by_both_chains_and_the_filter_it_takes() -> None:
    found = answer(f"{BALANCE} --medium volcanic-tuff")
    fao, other = found["ammonia"]
    assert fao["nh3_g_per_day"] == pytest.approx(7.5, abs=0.1)
    assert other["nitrogen_g_per_day"] == pytest.approx(5.89, abs=0.01)
    assert found["filter_surface_m2"] == pytest.approx(13.2, abs=0.1)
    assert found["medium_l"] == pytest.approx(44, abs=0.5)
    assert found["alkalinity_used_g_caco3_per_day"] == pytest.approx(44.6, abs=0.1)
    assert answer(BALANCE)["medium_l"] is None


def test_stocking_and_turnover_are_judged() -> None:
    found = answer(BALANCE)
    assert (found["stocking_kg_per_1000_l"], found["stocking_place"]) == (15, "within")
    assert (found["turnover_per_h"], found["turnover_place"]) == (2, "within")
    assert "too dense" in plainly("balance --fish 30kg --tank 1000L")
    assert "slow" in plainly("balance --flow 100L/h --tank 1000L")


@published(
    "University of the Virgin Islands AES: 7,800 L at 100 L/min, printed 1:20 h", note="78 minutes by arithmetic"
)
def test_turnover_of_the_uvi_tanks() -> None:
    assert 60 / answer("balance --tank 7800L --flow 100L/min")["turnover_per_h"] == pytest.approx(78)
    assert "once in 78 minutes" in plainly("balance --tank 7800L --flow 100L/min")


@published(f"{FAO}, s.7.3: growing out, 1 to 2 % of body weight a day", note="15 kg of fish")
def test_what_fish_eat() -> None:
    found = answer("balance --fish 15kg")
    assert (found["eaten_low_g_per_day"], found["eaten_high_g_per_day"]) == (150, 300)


def test_plants_on_a_bed() -> None:
    assert answer("plants --spacing 25cm --area 4m2")["plants"] == 64
    assert answer("plants --spacing 25cm --rows 50cm --area 4m2")["plants"] == 32
    staggered = answer("plants --spacing 25cm --staggered --area 4m2")
    assert staggered["plants_per_m2"] == pytest.approx(16 * 2 / 3**0.5)
    assert plainly("plants --spacing 25cm --area 4m2").startswith("64 plants on 4 m2 (43.1 sq ft). 16 plants/m2")


@published(f"{FAO}, Appendix 1: basil 15 to 25 cm apart, 8 to 40 plants per m2")
def test_published_spacing_stands_beside_it() -> None:
    told = plainly("plants --spacing 20cm --crop basil")
    assert "BASIL: 15 to 25 cm apart, 8 to 40 plants/m2." in told
    assert "verified" in told
    assert "CELERY: 20 to 30 cm apart." in plainly("plants --spacing 20cm --crop celery")


@from_memory(f"{FAO}, s.8.1.1: 25 heads a week: 100 plants, 4 m2, 200 g of feed, 10 to 20 kg of fish")
def test_lettuce_plan() -> None:
    found = answer("crop-plan --per-week 25 --weeks 4 --density 25/m2")
    assert (found["plants"], found["area_m2"], found["feed_high_g_per_day"]) == (100, 4, 200)
    plan = found["at_high_rate"]
    assert (plan["fish_kg_low"], plan["fish_kg_high"]) == (10, 20)
    assert plainly("crop-plan --per-week 25 --weeks 4 --density 25/m2").startswith("100 plants stand on 4 m2")


SIPHON = "siphon --bed-water 120L --inflow 500L/h"


def test_siphon_cycle_worked_apart_from_this_code() -> None:
    found = answer(f"{SIPHON} --outflow 1500L/h")
    assert found["fill_minutes"] == pytest.approx(14.4, abs=0.05)
    assert found["drain_minutes"] == pytest.approx(7.2, abs=0.05)
    assert found["cycle_minutes"] == pytest.approx(21.6, abs=0.05)
    assert found["cycles_per_hour"] == pytest.approx(2.78, abs=0.005)
    assert plainly(f"{SIPHON} --outflow 1500L/h").startswith(
        "Fills in 14.4 minutes, drains in 7.2: a cycle of 21.6 minutes, 2.78 floods an hour."
    )


def test_bed_discharge_and_level_worked_apart_from_this_code() -> None:
    found = answer("siphon --area 1.2m2 --depth 25cm --void 40 --tank-area 0.96m2 --bore 25mm --drop 50cm")
    assert found["drainable_l"] == pytest.approx(120)
    assert found["level_fall_m"] == pytest.approx(0.125)
    assert found["discharge_l_per_h"] == pytest.approx(3320, abs=5)
    longer = answer("siphon --bore 25mm --drop 50cm --pipe 1m --elbows 2")["discharge_l_per_h"]
    assert longer < answer("siphon --bore 25mm --drop 50cm --pipe 1m")["discharge_l_per_h"] < 5000


def test_fill_alone_when_the_siphon_is_not_known() -> None:
    assert plainly(SIPHON).startswith("Fills in 14.4 minutes.\n")


def test_water_left_for_the_fish() -> None:
    found = answer("siphon --tank 1000L --below-intake 300L --brim 200L")
    assert (found["left_if_bed_leaks_l"], found["left_if_siphon_blocks_l"]) == (300, 800)
    assert "none: the pump can empty the tank" in plainly("siphon --tank 1000L --below-intake 0")


PUMP = "pump --lift 1.5m --flow 2000L/h"


def test_head_power_and_cost_worked_apart_from_this_code() -> None:
    found = answer(f"{PUMP} --bore 26.6mm --pipe 3m --watts 24 --price 0.16")
    assert found["pipe_loss_m"] == pytest.approx(0.140, rel=0.01)
    assert found["velocity_m_per_s"] == pytest.approx(1.00, abs=0.005)
    assert found["head_m"] == pytest.approx(1.5 + found["pipe_loss_m"] + found["outlet_loss_m"])
    assert answer(PUMP)["hydraulic_w"] == pytest.approx(8.16, abs=0.01)
    assert 30 * found["kwh_per_day"] == pytest.approx(17.28)
    assert found["cost_per_day"] == pytest.approx(0.576 * 0.16)
    assert "0.09 a day and 2.76 in 30 days" in plainly("pump --watts 24 --price $0.16")


def test_each_elbow_takes_nine_tenths_of_the_velocity_head() -> None:
    line = f"{PUMP} --bore 26.6mm --pipe 3m"
    straight, bent = answer(line), answer(f"{line} --elbows 2")
    velocity_head = straight["velocity_m_per_s"] ** 2 / (2 * 9.80665)
    assert bent["pipe_loss_m"] - straight["pipe_loss_m"] == pytest.approx(2 * 0.9 * velocity_head)
    assert straight["outlet_loss_m"] == pytest.approx(velocity_head)


def test_duty_point_lies_on_curve_and_pipe() -> None:
    points = "--point 0@2.5m --point 1000L/h@2m --point 2500L/h@0m"
    free = answer(f"pump --lift 1m {points}")
    assert free["flow_l_per_h"] == pytest.approx(1750)
    narrow = answer(f"pump --lift 1m {points} --bore 15mm --pipe 3m")
    assert narrow["flow_l_per_h"] < 1750
    assert narrow["head_m"] == pytest.approx(1 + narrow["loss_m"])


def test_what_a_unit_weighs_and_who_must_judge_the_floor() -> None:
    line = "weight --tank 1000L --bed-water 120L --media 300L --media-litre 0.9kg --frame 60kg --footprint 1.2m2"
    found = answer(line)
    assert found["total_kg"] == pytest.approx(1450)
    assert found["floor_load_kg_per_m2"] == pytest.approx(1450 / 1.2)
    assert plainly(line).startswith("1450 kg (3197 lb) when full")
    assert "licensed engineer" in plainly(line)


@pytest.mark.parametrize(
    ("metric", "imperial"),
    [
        (
            "ration --count 40 --mean 113.3980925g --temp 24C --best 27C 30C --stop 18C 34C",
            "ration --count 40 --mean 4oz --temp 75.2F --best 80.6F 86F --stop 64.4F 93.2F",
        ),
        ("growth --from 453.59237g --to 907.18474g --days 60", "growth --from 1lb --to 2lb --days 60"),
        (
            "balance --feed 226.796185g --area 3.7161216m2 --fish 9.0718474kg --tank 378.5411784L"
            " --flow 757.0823568L/h",
            "balance --feed 8oz --area 4x10ft --fish 20lb --tank 100gal --flow 200gph",
        ),
        ("plants --spacing 25.4cm --area 3.7161216m2", "plants --spacing 10in --area 40sqft"),
        (
            "crop-plan --per-week 25 --weeks 4 --density 21.52782083344/m2",
            "crop-plan --per-week 25 --weeks 4 --density 2/sqft",
        ),
        (
            "siphon --area 1.11483648m2 --depth 25.4cm --void 40 --inflow 492.10353192L/h --bore 25.4mm --drop 50.8cm",
            "siphon --area 3x4ft --depth 10in --void 40 --inflow 130gph --bore 1in --drop 20in",
        ),
        (
            "pump --lift 1.524m --flow 1892.705892L/h --bore 25.4mm --pipe 3.048m --temp 20C",
            "pump --lift 5ft --flow 500gph --bore 1in --pipe 10ft --temp 68F",
        ),
        ("weight --tank 1040.9882406L --frame 45.359237kg", "weight --tank 275gal --frame 100lb"),
    ],
)
def test_imperial_and_metric_lead_to_the_same_numbers(metric: str, imperial: str) -> None:
    one, other = answer(metric), answer(imperial)
    assert set(one) == set(other)
    for name, value in one.items():
        if isinstance(value, float):
            assert other[name] == pytest.approx(value, rel=1e-5), name


@pytest.mark.parametrize("flow", ["120L/h", "120lph", "2L/min", "2lpm", "31.7006gph", "31.7006gal/h", "0.528344gpm"])
def test_flows_are_read_by_hour_and_by_minute(flow: str) -> None:
    assert answer(f"balance --tank 120L --flow {flow}")["flow_l_per_h"] == pytest.approx(120, rel=1e-4)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (f"{RATION} --temp 46C --best 27C 30C", "temperature 46 C is outside -1 to 45 C"),
        (f"{RATION} --temp 28C --best 30C 27C", "temperatures must rise"),
        (f"{RATION} --temp 28C --species yellow-perch", "no best temperatures for yellow-perch"),
        ("ration --count 0 --mean 125g --temp 28C --best 27C 30C --stop 18C 34C", "number of fish 0 is not above 0"),
        ("ration --count 4 --mean 20g --temp 28C --best 27C 30C --stop 18C 34C", "covers 50 g and more"),
        ("ration --count 4.5 --mean 20g --temp 28C --best 27C 30C --stop 18C 34C", "no whole number"),
        ("growth --from 50g --to 60g --days 0", "days 0 is not above 0"),
        ("growth --from 50g --days 121 --sgr 1.7", "days 121 is outside 0 to 120"),
        ("growth --from 50g --days 60 --tgc 11 --temp 20C", "TGC times 1000 11 is outside -10 to 10"),
        ("growth --from 50g --days 99999 --tgc 1 --temp 20C", "days 99999 is outside 0 to 3660"),
        ("balance --feed 200g --protein 80", "protein fraction 0.8 is outside 0 to 0.7"),
        ("balance --feed 200g --area 0m2", "bed area 0 m2 is not above 0"),
        ("plants --spacing 0cm", "spacing 0 m is not above 0"),
        ("plants --spacing 20cm --crop triffid", 'No facts about "triffid". Known: basil'),
        ("crop-plan --per-week 25 --weeks 4 --density 25", "does not say on what area"),
        (f"{SIPHON} --outflow 500L/h", "the siphon never breaks, it dribbles"),
        ("siphon --area 1m2 --depth 25cm --void 0.4", "could be a share or a percentage"),
        ("pump --lift 3m --point 0@2m --point 1000L/h@0m", "the pump lifts 2.00 m at most"),
        ("pump --lift 1m --point 0@2m", "needs at least two points"),
        ("pump --lift 1m --point 1000L/h@2m --point 0@3m", "the pump curve turns back"),
        (f"{PUMP} --watts 5", "efficiency 1.6"),
        ("pump --watts 24 --hours 25", "25 hours is outside 0 to 24 hours"),
        ("weight --tank 1000L --media 300L --media-litre 9kg", "outside 0 to 8 kg"),
    ],
)
def test_outside_its_range_it_refuses_and_names_the_range(line: str, words: str) -> None:
    assert words in refusal(line)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("balance", "Give --feed, --area, --fish"),
        ("balance --flow 100L/h", "--flow and --tank belong together"),
        ("balance --medium volcanic-tuff", "--medium and --feed belong together"),
        ("siphon", "Give the bed's water"),
        ("siphon --area 1m2 --depth 25cm", "--area, --depth and --void belong together"),
        ("siphon --bore 25mm", "--bore and --drop belong together"),
        ("siphon --below-intake 20L", "--below-intake and --tank belong together"),
        ("pump", "Give --lift with --flow or --point"),
        ("pump --flow 200L/h", "--flow and --lift belong together"),
        ("pump --lift 1m --flow 200L/h --point 0@2m", "not both"),
        ("growth --from 50g --days 60", "Give one of --to, --sgr and --tgc"),
        ("growth --from 50g --days 60 --tgc 1.5", "A TGC needs the water temperature"),
        (f"{RATION} --temp 20C", "Say where they eat best"),
        ("plants --spacing 20cm --rows 20cm --staggered", "leave --rows out"),
        ("weight --tank 1000L --media 300L", "Weigh a litre of the media"),
    ],
)
def test_options_that_need_each_other_are_a_matter_of_usage(line: str, words: str) -> None:
    ran = calc(*line.split())
    assert ran.code == 2
    assert words in ran.err
