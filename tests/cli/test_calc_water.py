"""`farmops calc` on water: ammonia, oxygen, time without power, doses; against printed tables and by unit."""

from __future__ import annotations

import pytest

from tests.cli.calc_runs import answer, plainly, refusal
from tests.labels import common_practice, from_memory, published, rows

IFAS = "Francis-Floyd, Watson, Petty, Pouder, Ammonia in Aquatic Systems, UF/IFAS FA-16"


@published(f"{IFAS}, worked example: 1.0 mg/L at pH 8.0 and 24 C is 0.0502 mg/L")
def test_worked_example_of_toxic_ammonia() -> None:
    found = answer("ammonia --tan 1.0 --ph 8.0 --temp 24C")
    assert found["unionized_mg_per_l"] == pytest.approx(0.0502, abs=0.0001)
    assert found["unionized_fraction"] == pytest.approx(0.0502, abs=0.0001)
    assert (found["total_as"], found["unionized_as"]) == ("N", "N")
    told = plainly("ammonia --tan 1.0 --ph 8.0 --temp 24C").splitlines()
    assert told[0] == "Toxic (un-ionised) ammonia 0.0502 mg/L as N, 0.061 as NH3: 5.02 % of the total."
    assert told[1].startswith("Harmful: ")


SHARES = [row for row in rows("unionized_ammonia.csv") if row[0] != "32"][::5]


@published(f"{IFAS}, table of un-ionised fraction", note="every fifth row without its misprinted 32 C column")
@pytest.mark.parametrize(("temperature", "ph", "printed"), SHARES)
def test_share_matches_the_printed_table(temperature: str, ph: str, printed: str) -> None:
    found = answer(f"ammonia --tan 1 --ph {ph} --temp {temperature}C")
    assert found["unionized_fraction"] == pytest.approx(float(printed), abs=0.00015)


@published("US EPA 2013, EPA-822-R-13-001: chronic 1.9 mg/L at pH 7 and 20 C")
def test_wild_water_is_the_yardstick() -> None:
    assert answer("ammonia --tan 1 --ph 7 --temp 20C")["epa_chronic_total_as_n_mg_per_l"] == pytest.approx(
        1.9, abs=0.05
    )
    assert "here: 1.9 mg/L" in plainly("ammonia --tan 1 --ph 7 --temp 20C").replace("\n" + " " * 9, " ")


def test_no_yardstick_where_its_tables_end() -> None:
    assert answer("ammonia --tan 1 --ph 10 --temp 35C")["epa_chronic_total_as_n_mg_per_l"] is None
    assert "EPA" not in plainly("ammonia --tan 1 --ph 10 --temp 35C")


@pytest.mark.parametrize(("form", "mass"), [("n", 14.007), ("nh3", 17.031), ("nh4", 18.039), ("NH4", 18.039)])
def test_what_the_kit_counts_is_part_of_the_reading(form: str, mass: float) -> None:
    found = answer(f"ammonia --tan 2 --ph 8.0 --temp 24C --as {form}")
    assert found["unionized_mg_per_l"] == pytest.approx(2 * found["unionized_fraction"] * 14.007 / mass)
    assert found["unionized_as_nh3_mg_per_l"] == pytest.approx(found["unionized_mg_per_l"] * 17.031 / 14.007)


@pytest.mark.parametrize(
    ("tan", "verdict", "word"), [("0.1", "low", "Below"), ("1", "harmful", "Harmful"), ("40", "deadly", "Deadly")]
)
def test_verdict_on_ammonia(tan: str, verdict: str, word: str) -> None:
    assert answer(f"ammonia --tan {tan} --ph 8 --temp 24C")["verdict"] == verdict
    assert plainly(f"ammonia --tan {tan} --ph 8 --temp 24C").splitlines()[1].startswith(word)


def test_oxygen_at_an_altitude_worked_apart_from_this_code() -> None:
    found = answer("oxygen --temp 20C --altitude 1500m --measured 6.1")
    assert found["saturation_mg_per_l"] == pytest.approx(7.55, abs=0.01)
    assert found["saturation_percent"] == pytest.approx(100 * 6.1 / 7.55, abs=0.15)
    told = plainly("oxygen --temp 20C --altitude 1500m --measured 6.1").splitlines()
    assert "holds 7.55 mg/L" in told[0]
    assert told[1].startswith("6.1 mg/L is 81 % of that. Good")


@published("EN 25814:1992, table of oxygen saturation", note="to one decimal below 16 C")
@pytest.mark.parametrize(("temperature", "printed"), rows("do_saturation.csv"))
def test_oxygen_matches_the_printed_table(temperature: str, printed: str) -> None:
    allowed = 0.01 if float(temperature) >= 16 else 0.07
    found = answer(f"oxygen --temp {temperature}C")
    assert found["saturation_mg_per_l"] == pytest.approx(float(printed), abs=allowed)
    assert found["saturation_percent"] is None


@pytest.mark.parametrize(("altitude", "atm", "temperature", "expected"), rows("do_altitude.csv")[::3])
def test_oxygen_by_altitude_and_by_pressure(altitude: str, atm: str, temperature: str, expected: str) -> None:
    by_altitude = answer(f"oxygen --temp {temperature}C --altitude {altitude}m")["saturation_mg_per_l"]
    by_pressure = answer(f"oxygen --temp {temperature}C --pressure {float(atm) * 1013.25:.3f}hPa")
    assert by_altitude == pytest.approx(float(expected), abs=0.005)
    assert by_pressure["saturation_mg_per_l"] == pytest.approx(float(expected), abs=0.005)
    assert by_pressure["altitude_m"] is None


@pytest.mark.parametrize("pressure", ["1013.25hPa", "1013.25mbar", "101.325kPa", "760mmHg", "29.9213inHg"])
def test_pressures_of_one_atmosphere_are_one(pressure: str) -> None:
    assert answer(f"oxygen --temp 20C --pressure {pressure}")["station_pressure_hpa"] == pytest.approx(
        1013.25, abs=0.01
    )


@pytest.mark.parametrize(
    ("measured", "verdict"), [("3.9", "dangerous"), ("4", "low"), ("5", "enough"), ("6", "good"), ("12", "good")]
)
def test_verdict_on_oxygen(measured: str, verdict: str) -> None:
    assert answer(f"oxygen --temp 20C --measured {measured}")["verdict"] == verdict


def test_water_that_cannot_hold_enough_says_so_without_a_reading() -> None:
    assert "Even when full: low" in plainly("oxygen --temp 30C --altitude 3500m")
    assert "Even when full: dangerous" in plainly("oxygen --temp 36C --altitude 4500m")


POWER_CUT = "power-cut --water 1000L --fish 10kg --mean 250g --temp 24C"


def test_minutes_without_power_are_the_oxygen_to_spare_over_what_all_breathe() -> None:
    found = answer(f"{POWER_CUT} --measured 7 --limit 4")
    demand = found["fish_demand_g_per_h"] + found["other_demand_g_per_h"]
    assert found["minutes"] == pytest.approx(60 * 1000 * (7 - 4) / 1000 / demand)
    assert found["start_measured"] is True


def test_power_cut_says_minutes_then_air_then_what_it_leaves_out() -> None:
    told = plainly(POWER_CUT)
    assert told.startswith("About 23 minutes until oxygen falls to 4 mg/L")
    assert told.splitlines()[1].startswith("1. Air: ")
    assert "Rising carbon dioxide and ammonia" in told
    assert "from memory" in told
    assert answer(POWER_CUT)["leaves_out"]


def test_unfed_fish_and_a_lower_limit_give_more_time() -> None:
    usual = answer(POWER_CUT)["minutes"]
    assert answer(f"{POWER_CUT} --unfed")["minutes"] > usual
    assert answer(f"{POWER_CUT} --species channel-catfish")["limit_mg_per_l"] == 3
    assert answer(f"{POWER_CUT} --species channel-catfish")["minutes"] > usual
    assert answer(f"{POWER_CUT} --species yellow-perch")["limit_mg_per_l"] == 4


def test_time_is_told_in_words_that_fit_it() -> None:
    assert plainly(f"{POWER_CUT} --measured 3").startswith("No time left")
    assert plainly(f"{POWER_CUT} --measured 4.05").startswith("Less than a minute")
    assert " hours until" in plainly("power-cut --water 1000L --fish 1kg --mean 250g --temp 15C").splitlines()[0]


@pytest.mark.parametrize(
    ("metric", "imperial"),
    [
        ("ammonia --tan 1 --ph 8 --temp 24C", "ammonia --tan 1 --ph 8 --temp 75.2F"),
        ("oxygen --temp 20C --altitude 1524m", "oxygen --temp 68F --altitude 5000ft"),
        (
            "power-cut --water 1000L --fish 4.5359237kg --mean 28.349523125g --temp 20C",
            "power-cut --water 264.172052358gal --fish 10lb --mean 1oz --temp 68F",
        ),
        (
            "dose alkalinity --water 378.5411784L --rise 20 --with baking-soda",
            "dose alkalinity --water 100gal --rise 20 --with sodium-bicarbonate",
        ),
    ],
)
def test_imperial_and_metric_lead_to_the_same_numbers(metric: str, imperial: str) -> None:
    one, other = answer(metric), answer(imperial)
    for name, value in one.items():
        assert other[name] == (pytest.approx(value, rel=1e-6) if isinstance(value, float) else value)


@pytest.mark.parametrize(("base", "grams"), rows("alkalinity_dosing.csv"))
def test_base_for_alkalinity_worked_apart_from_this_code(base: str, grams: str) -> None:
    found = answer(f"dose alkalinity --water 1000L --rise 20 --with {base.replace(' ', '-')}")
    assert found["grams"] == pytest.approx(float(grams), rel=0.005)


def test_dose_is_told_in_grams_and_ounces_with_what_it_brings_and_cautions() -> None:
    told = plainly("dose alkalinity --water 1000L --rise 20 --with baking-soda")
    assert told.startswith("33.6 g (1.2 oz) of sodium bicarbonate into 1000 L (264 gal): 20 mg/L more alkalinity")
    assert "It brings along 9.19 mg/L sodium." in told
    assert "The label, the safety data sheet and local rules stand above this figure." in told


def test_caustic_base_says_who_may_handle_it_and_how() -> None:
    told = plainly("dose alkalinity --water 1000L --rise 20 --with hydrated-lime")
    assert "Adults only: goggles and gloves." in told
    assert "never water to it" in told


def test_half_the_purity_takes_twice_the_product() -> None:
    line = "dose alkalinity --water 1000L --rise 20 --with baking-soda"
    assert answer(f"{line} --purity 50%")["grams"] == pytest.approx(2 * answer(line)["grams"])


SALT = [row for row in rows("nitrite_chloride.csv") if row[2] == "10"]


@published("Durborow, Crosby, Brunson 1997, SRAC 462, ten parts to one", note="the grams are arithmetic on the ratio")
@pytest.mark.parametrize(("nitrite", "chloride", "ratio", "volume", "rise", "grams"), SALT)
def test_salt_against_nitrite(nitrite: str, chloride: str, ratio: str, volume: str, rise: str, grams: str) -> None:
    line = f"dose chloride --water {volume}L --nitrite {nitrite} --as no2 --chloride {chloride} --with salt"
    found = answer(f"{line} --ratio {ratio}")
    assert found["rise_mg_per_l"] == pytest.approx(float(rise))
    assert found["grams"] == pytest.approx(float(grams), abs=0.06)


def test_nitrite_as_nitrogen_counts_more_than_threefold() -> None:
    line = "dose chloride --water 1000L --nitrite 2 --with salt --as"
    assert answer(f"{line} n")["grams"] == pytest.approx(answer(f"{line} no2")["grams"] * 46.005 / 14.007, rel=1e-6)


def test_enough_chloride_needs_no_salt() -> None:
    line = "dose chloride --water 1000L --nitrite 2 --as no2 --chloride 100 --with salt"
    assert answer(line)["grams"] == 0
    assert plainly(line).startswith("Nothing to add")


@common_practice("seven parts of sodium thiosulfate crystals take out one part of chlorine")
def test_thiosulfate() -> None:
    found = answer("dose chlorine --water 1000L --chlorine 1")
    assert found["grams"] == pytest.approx(7.0, abs=0.05)
    assert "ammonia_left_as_n_mg_per_l" not in found
    assert answer("dose chlorine --water 1000L --chlorine 1 --with anhydrous")["grams"] == pytest.approx(4.46, abs=0.02)


def test_chloramine_leaves_ammonia_behind() -> None:
    line = "dose chlorine --water 1000L --chlorine 2 --chloramine"
    assert answer(line)["ammonia_left_as_n_mg_per_l"] == pytest.approx(2 * 14.007 / 70.9)
    assert "Chloramine leaves 0.395 mg/L of ammonia as N behind" in plainly(line)


def test_nutrients_by_the_strength_on_the_label() -> None:
    assert answer("dose iron --water 1000L --rise 2 --strength 10")["grams"] == pytest.approx(20)
    assert answer("dose calcium --water 1000L --rise 27 --strength 27% --as ca")["grams"] == pytest.approx(100)
    as_oxide = answer("dose potassium --water 1000L --rise 20 --strength 50 --as k2o")["grams"]
    assert as_oxide == pytest.approx(20 / 0.5 * 94.195 / 78.196, rel=1e-4)


def test_steps_of_ph() -> None:
    assert plainly("dose ph --now 6.2 --target 6.8").startswith("pH 6.8 in 3 days, at the end of each: 6.4, 6.6, 6.8.")
    assert answer("dose ph --now 6.2 --target 6.8")["daily_ph"] == pytest.approx([6.4, 6.6, 6.8])
    assert plainly("dose ph --now 6.8 --target 6.8").startswith("The water has pH 6.8 already")
    assert "..., 8.5." in plainly("dose ph --now 5 --target 8.5")
    assert "faster harms fish" in plainly("dose ph --now 7 --target 6.8").replace("\n" + " " * 9, " ")


@from_memory("common practice: no more than 0.3 of pH a day")
def test_larger_steps_of_ph_are_refused() -> None:
    assert "outside 0.05 to 0.3" in refusal("dose ph --now 6.2 --target 6.8 --step 0.5")


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("ammonia --tan 1 --ph 12 --temp 24C", "pH 12 is outside 5 to 11"),
        ("ammonia --tan 1 --ph 8 --temp 124F", "temperature 51.1111 C is outside 0 to 50 C"),
        ("ammonia --tan -1 --ph 8 --temp 24C", "-1 mg/L is outside 0 mg/L and more"),
        ("ammonia --tan 1 --ph 8 --temp 24K", "names no scale known here"),
        ("oxygen --temp 41C", "temperature 41 C is outside 0 to 40 C"),
        ("oxygen --temp 20C --altitude 9000m", "altitude 9000 m is outside -430 to 5000 m"),
        ("oxygen --temp 20C --pressure 20hPa", "outside 500 to 1100 hPa"),
        ("oxygen --temp 20C --pressure 1013", "no pressure with its unit"),
        ("oxygen --temp 20C --measured 50", "oxygen 50 mg/L is outside 0 to 40 mg/L"),
        (f"{POWER_CUT} --limit 20", "limit 20 mg/L is outside 0 to 15 mg/L"),
        (f"{POWER_CUT} --species unicorn", 'No facts about "unicorn". Known: barramundi'),
        ("dose alkalinity --water 1000L --rise 301 --with baking-soda", "outside 0 to 300 mg/L"),
        ("dose alkalinity --water 0L --rise 30 --with baking-soda", "volume 0 L is not above 0"),
        ("dose alkalinity --water 1000L --rise 3 --with baking-soda --purity 0.98", "could be a share or a percentage"),
        ("dose alkalinity --water 1000L --rise 3 --with baking-soda --purity 101", "outside 0 to 100 %"),
        ("dose iron --water 1000L --rise 6 --strength 11", "rise of iron 6 mg/L is outside 0 to 5 mg/L"),
        ("dose chlorine --water 1000L --chlorine 21", "chlorine 21 mg/L is outside 0 to 20 mg/L"),
    ],
)
def test_outside_its_range_it_refuses_and_names_the_range(line: str, words: str) -> None:
    assert words in refusal(line)


def test_below_the_sea_the_air_is_heavier() -> None:
    assert answer("oxygen --temp 20C --altitude -400m")["station_pressure_hpa"] > 1013.25
    assert answer("oxygen --temp 20C --altitude 0")["station_pressure_hpa"] == 1013.25
