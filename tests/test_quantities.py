"""Quantities: what people type is read exactly or refused in words; what is shown can be read again."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.model.errors import FarmopsError, NotUnderstood, OutOfRange
from farmops.quantities import (
    AREA,
    LENGTH,
    MASS,
    METRIC,
    TEMPERATURE,
    US,
    VOLUME,
    Dimension,
    Measures,
    Price,
    Weighing,
    from_unit,
    in_unit,
    main_area_unit,
    main_length_unit,
    main_mass_unit,
    main_volume_unit,
    parse_money,
    parse_price,
    show_money,
    show_money_exact,
    show_price,
    show_price_exact,
    weigh,
)
from farmops.quantities.measures import CHOICES

CURRENCIES = ("USD", "EUR", "JPY", "KWD", "CHF", "CLF")
ALL_MEASURES = [
    Measures(*words, currency=currency, decimal_comma=comma)
    for words, currency, comma in itertools.product(itertools.product(*CHOICES.values()), CURRENCIES, (False, True))
]
COMMA = Measures("kg", "L", "m2", "cm", "C", "EUR", decimal_comma=True)
YEN = Measures("kg", "L", "m2", "m", "C", "JPY")
DINAR = Measures("kg", "L", "m2", "m", "C", "KWD")
FRANC = Measures("kg", "L", "m2", "m", "C", "CHF")
DIMENSIONS = (MASS, VOLUME, AREA, LENGTH)

any_measures = st.sampled_from(ALL_MEASURES)
any_dimension = st.sampled_from(DIMENSIONS)
near_text = st.text(alphabet="0123456789.,+-x/ lbozkgmtfingaq'\"°$€²½¼CF", max_size=20)
any_text = st.one_of(st.text(), near_text)


def for_all(*strategies: st.SearchStrategy[object]) -> Callable[..., Callable[..., None]]:
    """Hypothesis' given, without its limit on time."""
    return lambda check: settings(deadline=None)(given(*strategies)(check))


def refusal(call: Callable[..., object], *args: object, **kwargs: object) -> str:
    with pytest.raises((NotUnderstood, OutOfRange)) as caught:
        call(*args, **kwargs)
    return str(caught.value)


class TestWeightsAsTyped:
    @pytest.mark.parametrize(
        ("text", "mg"),
        [
            ("1 lb 6 oz", 623_690),
            ("1lb6oz", 623_690),
            ("1 6", 623_690),
            ("  1   6 ", 623_690),
            ("22 oz", 623_690),
            ("1 LB 6 OZ", 623_690),
            ("1 pound 6 ounces", 623_690),
            ("1 lb. 6 oz.", 623_690),
            ("1 lb\u00a06 oz", 623_690),
            ("0 12", 340_194),
            ("1.4", 635_029),
            ("1.4 lb", 635_029),
            ("1 1/2 lb", 680_389),
            ("1½ lbs", 680_389),
            ("1/2 lb", 226_796),
            ("1 lb 6.5 oz", 637_864),
            (".5 lb", 226_796),
            ("620 g", 620_000),
            ("0.62 kg", 620_000),
            ("2 kilos", 2_000_000),
            ("1 kg 240 g", 1_240_000),
            ("350 mg", 350),
            ("1 t", 1_000_000_000),
        ],
    )
    def test_every_usual_way_of_writing_a_weight(self, text: str, mg: int) -> None:
        assert MASS.parse(text, US) == mg

    def test_a_bare_number_is_in_the_main_unit_of_the_farm(self) -> None:
        assert MASS.parse("2", US) == 907_185
        assert MASS.parse("2", METRIC) == 2_000_000

    def test_weighings_joined_with_plus_add_up(self) -> None:
        assert MASS.parse("1 6 + 0 12", US) == 963_884
        assert MASS.parse("620 g + 1 kg", US) == 1_620_000
        assert MASS.parse("1.2+0.4", METRIC) == 1_600_000

    def test_joined_weighings_are_rounded_once(self) -> None:
        assert MASS.parse("1 oz + 1 oz", US) == 56_699
        assert 2 * MASS.parse("1 oz", US) == 56_700

    def test_halves_go_to_the_even_milligram(self) -> None:
        assert MASS.parse("0.0005 g + 2 mg", METRIC) == 2
        assert MASS.parse("0.0015 g", METRIC) == 2

    def test_decimals_are_written_in_the_sign_of_the_farm(self) -> None:
        assert MASS.parse("0,62 kg", COMMA) == 620_000
        assert "writes decimals with a comma" in refusal(MASS.parse, "0.62 kg", COMMA)
        assert "writes decimals with a point" in refusal(MASS.parse, "0,62 kg", US)

    def test_an_amount_of_nothing_is_taken_only_where_asked_for(self) -> None:
        assert MASS.parse("0", US, zero_ok=True) == 0
        assert "comes to nothing" in refusal(MASS.parse, "0 lb 0 oz", US)


class TestRefusals:
    def test_a_refusal_names_what_was_typed_why_and_what_is_understood(self) -> None:
        assert refusal(MASS.parse, "12 oz 1 lb", US) == (
            '"12 oz 1 lb" puts ounces before pounds. Understood: 1 lb 6 oz, 1 6, 22 oz, 1.4 lb, 620 g.'
        )

    @pytest.mark.parametrize(
        ("text", "words"),
        [
            ("", "Nothing was typed. Understood: 1 lb 6 oz"),
            ("  \t ", "Nothing was typed"),
            ("kale", 'has "kale" where a number'),
            ("-3", "minus sign"),
            ("−3 lb", "minus sign"),
            ("1-6", "minus sign"),
            ("0", "comes to nothing"),
            ("1 lb 2 lb", "pounds twice"),
            ("1 16", "16 ounces or more, but 16 ounces are 1 lb"),
            ("1 lb 16 oz", "16 ounces or more"),
            ("1.5 lb 6 oz", "fraction of pounds before ounces"),
            ("1.5 6", "fraction of pounds before ounces"),
            ("1 lb 200 g", "mixes pounds and grams"),
            ("1 lb 6", "a number without a unit"),
            ("1 2 3", "several numbers without a unit"),
            ("1 1/2", "name the unit"),
            ("3/0 lb", "fraction that does not work out"),
            ("1 5/4 lb", "fraction that does not work out"),
            ("nan", '"nan"'),
            ("inf", '"inf"'),
            ("1e5", "exponent"),
            ("1e5 lb", "exponent"),
            ("١٢", "digits other than 0 to 9"),
            ("１２ lb", "digits other than 0 to 9"),
            ("1.2.3 kg", "two decimal signs"),
            ("1 +", "nothing on one side of a +"),
            ("+ 1", "nothing on one side of a +"),
            ("1 ton", "short ton (2,000 lb) or tonne"),
            ("3 gal", '"gal" in it, a unit of volume'),
            ("lb 3", '"lb" without a number before it'),
            ("5 lb!", '"!" where'),
            ("1_000", '"_" where'),
        ],
    )
    def test_what_cannot_be_a_weight(self, text: str, words: str) -> None:
        with pytest.raises(NotUnderstood) as caught:
            MASS.parse(text, US)
        assert words in str(caught.value)
        assert "Understood: 1 lb 6 oz" in str(caught.value)

    def test_two_bare_numbers_mean_nothing_on_a_farm_that_weighs_in_kg(self) -> None:
        assert "several numbers without a unit" in refusal(MASS.parse, "1 6", METRIC)

    def test_examples_are_in_the_measures_of_the_farm(self) -> None:
        assert refusal(MASS.parse, "x", COMMA).endswith("Understood: 620 g, 0,62 kg, 1,24, 1 lb 6 oz.")

    def test_control_characters_are_made_visible(self) -> None:
        words = refusal(MASS.parse, "\x1b[31m1 lb\u202e", US)
        assert words.isprintable()
        assert r"\x1b[31m1 lb\u202e" in words

    def test_a_long_text_is_shortened(self) -> None:
        assert len(refusal(MASS.parse, "9" * 5000, US)) < 200

    @pytest.mark.parametrize(
        ("dimension", "text"),
        [(MASS, "10000.001 kg"), (VOLUME, "10001 m3"), (AREA, "101 ha"), (LENGTH, "10001 m")],
    )
    def test_more_than_a_farm_can_mean(self, dimension: Dimension, text: str) -> None:
        with pytest.raises(OutOfRange, match=f"largest {dimension.word} taken"):
            dimension.parse(text, METRIC)

    def test_the_largest_amounts_themselves_are_taken(self) -> None:
        assert MASS.parse("10000 kg", US) == MASS.largest
        assert VOLUME.parse("10000 m3", US) == VOLUME.largest
        assert AREA.parse("100 ha", US) == AREA.largest
        assert LENGTH.parse("10000 m", US) == LENGTH.largest

    def test_so_little_that_nothing_would_be_kept(self) -> None:
        with pytest.raises(OutOfRange, match="less than 1 mL, the smallest volume kept"):
            VOLUME.parse("0.3 mL", METRIC)


class TestVolumes:
    @pytest.mark.parametrize(
        ("text", "ml"),
        [
            ("275 gal", 1_040_988),
            ("1 gallon", 3_785),
            ("3 qt 1 pt", 3_312),
            ("2 cups", 473),
            ("8 fl oz", 237),
            ("8 fl. oz.", 237),
            ("1 tbsp", 15),
            ("40 L", 40_000),
            ("350 mL", 350),
            ("1.2 m3", 1_200_000),
            ("1 m³ 200 l", 1_200_000),
            ("2 cu ft", 56_634),
            ("2 ft3", 56_634),
        ],
    )
    def test_every_usual_way_of_writing_a_volume(self, text: str, ml: int) -> None:
        assert VOLUME.parse(text, US) == ml

    def test_a_bare_number_is_in_the_unit_of_the_farm(self) -> None:
        assert VOLUME.parse("10", US) == 37_854
        assert VOLUME.parse("10", METRIC) == 10_000

    @pytest.mark.parametrize("text", ["5 imperial gallons", "imperial gallon", "5 imp. gal", "5 UK gal"])
    def test_an_imperial_gallon_is_refused_by_name(self, text: str) -> None:
        assert "only US measures are known here" in refusal(VOLUME.parse, text, US)

    def test_an_ounce_of_weight_is_no_volume(self) -> None:
        assert '"oz" in it, a unit of weight' in refusal(VOLUME.parse, "5 oz", US)


class TestAreasAndLengths:
    @pytest.mark.parametrize(
        ("text", "mm2"),
        [
            ("25 sq ft", 2_322_576),
            ("25 ft2", 2_322_576),
            ("25 ft²", 2_322_576),
            ("25", 2_322_576),
            ("4 x 6 ft", 2_229_673),
            ("4 ft x 6 ft", 2_229_673),
            ("4 ft x 6", 2_229_673),
            ("4x6", 2_229_673),
            ("4×6", 2_229_673),
            ("4 by 6 ft", 2_229_673),
            ("4 ft 6 in x 6 ft", 2_508_382),
            ("1.2 x 1 m", 1_200_000),
            ("1.2m²", 1_200_000),
            ("1 sq m", 1_000_000),
            ("1 x 1 m + 0.5 m2", 1_500_000),
        ],
    )
    def test_every_usual_way_of_writing_an_area(self, text: str, mm2: int) -> None:
        assert AREA.parse(text, US) == mm2

    def test_sides_without_a_unit_are_in_the_unit_of_the_farm(self) -> None:
        assert AREA.parse("120x100", METRIC) == 1_200_000
        assert AREA.parse("1.2 x 1", YEN) == 1_200_000

    def test_sides_of_a_few_centimetres_are_surely_metres(self) -> None:
        assert "name the unit, m or cm" in refusal(AREA.parse, "4x6", METRIC)
        assert AREA.parse("4 x 6 cm", METRIC) == 2_400

    @pytest.mark.parametrize("text", ["4 x 6 x 2", "x 4", "4 x", "4 x 6 gal", "4 ft 6 in x 6"])
    def test_what_is_no_area(self, text: str) -> None:
        assert "Understood: 25 sq ft" in refusal(AREA.parse, text, US)

    @pytest.mark.parametrize(
        ("text", "um"),
        [
            ("3 ft 6 in", 1_066_800),
            ("3ft6in", 1_066_800),
            ("3'6\"", 1_066_800),
            ("3′ 6″", 1_066_800),
            ("42 inches", 1_066_800),
            ("3.5", 1_066_800),
            ("30 cm", 300_000),
            ("1.2 m", 1_200_000),
            ("8 mm", 8_000),
        ],
    )
    def test_every_usual_way_of_writing_a_length(self, text: str, um: int) -> None:
        assert LENGTH.parse(text, US) == um

    def test_a_bare_length_is_in_the_unit_of_the_farm(self) -> None:
        assert LENGTH.parse("30", METRIC) == 300_000
        assert LENGTH.parse("30", YEN) == 30_000_000


class TestWhatIsShown:
    @pytest.mark.parametrize(
        ("mg", "us", "comma"),
        [
            (623_690, "1 lb 6 oz", "624 g"),
            (340_194, "12 oz", "340 g"),
            (907_185, "2 lb", "907 g"),
            (635_029, "1 lb 6.4 oz", "635 g"),
            (453_000, "1 lb", "453 g"),
            (620_000, "1 lb 5.9 oz", "620 g"),
            (999_700, "2 lb 3.3 oz", "1,00 kg"),
            (1_240_000, "2 lb 11.7 oz", "1,24 kg"),
            (123_456_789, "272 lb 3 oz", "123,5 kg"),
            (12_000, "0.42 oz", "12 g"),
            (2_000, "2 g", "2 g"),
            (350, "350 mg", "350 mg"),
            (0, "0 lb", "0 kg"),
            (-623_690, "-1 lb 6 oz", "-624 g"),
        ],
    )
    def test_weights(self, mg: int, us: str, comma: str) -> None:
        assert MASS.show(mg, US) == us
        assert MASS.show(mg, COMMA) == comma

    @pytest.mark.parametrize(
        ("mm2", "us", "metric"),
        [
            (2_322_576, "25.0 sq ft", "2.32 m2"),
            (620_000, "6.7 sq ft", "0.62 m2"),
            (40_468_564, "436 sq ft", "40.5 m2"),
            (2_400, "3.7 sq in", "24 cm2"),
            (9, "9 mm2", "9 mm2"),
        ],
    )
    def test_areas(self, mm2: int, us: str, metric: str) -> None:
        assert AREA.show(mm2, US) == us
        assert AREA.show(mm2, METRIC) == metric

    @pytest.mark.parametrize(
        ("ml", "us", "metric"),
        [
            (1_040_988, "275 gal", "1041 L"),
            (37_854, "10.0 gal", "37.9 L"),
            (355, "12 fl oz", "355 mL"),
            (2, "2 mL", "2 mL"),
        ],
    )
    def test_volumes(self, ml: int, us: str, metric: str) -> None:
        assert VOLUME.show(ml, US) == us
        assert VOLUME.show(ml, METRIC) == metric

    @pytest.mark.parametrize(
        ("um", "us", "metric"),
        [
            (1_066_800, "3 ft 6 in", "106.7 cm"),
            (304_800, "1 ft", "30.5 cm"),
            (300_000, "11.8 in", "30 cm"),
            (3_048_000, "10 ft", "3.05 m"),
            (8_000, "0.31 in", "8 mm"),
        ],
    )
    def test_lengths(self, um: int, us: str, metric: str) -> None:
        assert LENGTH.show(um, US) == us
        assert LENGTH.show(um, METRIC) == metric

    def test_an_exact_amount_keeps_the_units_of_the_farm_where_they_hold_it(self) -> None:
        assert MASS.show_exact(623_690, US) == "1 lb 6 oz"
        assert MASS.show_exact(MASS.parse("1 lb 6.25 oz", US), US) == "1 lb 6.25 oz"
        assert MASS.show_exact(623_689, US) == "623.689 g"
        assert MASS.show_exact(1_240_001, COMMA) == "1,240001 kg"

    @for_all(any_dimension, any_measures, st.data())
    def test_an_exact_amount_is_read_back_as_itself(
        self, dimension: Dimension, measures: Measures, data: st.DataObject
    ) -> None:
        value = data.draw(st.one_of(st.integers(1, 2000), st.integers(1, dimension.largest)))
        assert dimension.parse(dimension.show_exact(value, measures), measures) == value

    @pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda dimension: dimension.word)
    def test_the_ends_of_the_range_are_read_back_on_every_farm(self, dimension: Dimension) -> None:
        for measures, value in itertools.product(ALL_MEASURES[::11], (1, dimension.largest - 1, dimension.largest)):
            assert dimension.parse(dimension.show_exact(value, measures), measures) == value

    @for_all(any_dimension, any_measures, st.integers(1, 10**9))
    def test_what_is_shown_is_understood_and_near(self, dimension: Dimension, measures: Measures, value: int) -> None:
        read = dimension.parse(dimension.show(value, measures), measures)
        assert abs(read - value) <= max(value * 0.06, 1)

    @for_all(any_dimension, any_measures, st.integers())
    def test_showing_never_fails(self, dimension: Dimension, measures: Measures, value: int) -> None:
        assert dimension.show(value, measures).startswith("-") <= (value < 0)
        assert dimension.show_exact(value, measures)


class TestAnyTextAtAll:
    @for_all(any_dimension, any_measures, any_text)
    def test_amounts_are_read_or_refused_in_words(self, dimension: Dimension, measures: Measures, text: str) -> None:
        self.read_or_refused(lambda: dimension.parse(text, measures), least=1)

    @for_all(any_measures, any_text)
    def test_sums_are_read_or_refused_in_words(self, measures: Measures, text: str) -> None:
        self.read_or_refused(lambda: parse_money(text, measures), least=1)

    @for_all(any_measures, any_text)
    def test_temperatures_are_read_or_refused_in_words(self, measures: Measures, text: str) -> None:
        self.read_or_refused(lambda: TEMPERATURE.parse(text, measures), least=-60)

    @for_all(any_measures, st.one_of(any_text, st.tuples(near_text, near_text).map("/".join)))
    def test_prices_are_read_or_refused_in_words(self, measures: Measures, text: str) -> None:
        self.read_or_refused(lambda: parse_price(text, measures).per_mg, least=1)

    @for_all(any_measures, any_text, any_text)
    def test_weighings_are_read_or_refused_in_words(self, measures: Measures, gross: str, tare: str) -> None:
        self.read_or_refused(lambda: weigh(gross, tare, measures).net_mg, least=1)

    @staticmethod
    def read_or_refused(read: Callable[[], float], *, least: float) -> None:
        words = ""
        try:
            assert read() >= least
        except (NotUnderstood, OutOfRange) as error:
            words = str(error)
        assert words.isprintable()
        assert not words or "Understood: " in words
        assert len(words) < 400


class TestSums:
    @for_all(any_measures, st.lists(st.integers(1, 10**7), min_size=1, max_size=8))
    def test_weighings_in_whole_milligrams_add_up_exactly(self, measures: Measures, weights: list[int]) -> None:
        assert MASS.parse(" + ".join(f"{mg} mg" for mg in weights), measures) == sum(weights)

    @for_all(st.lists(st.tuples(st.integers(0, 300), st.integers(1, 15)), min_size=1, max_size=12))
    def test_pounds_and_ounces_add_up_before_they_are_rounded(self, weights: list[tuple[int, int]]) -> None:
        ounces = sum(16 * lb + oz for lb, oz in weights)
        assert MASS.parse(" + ".join(f"{lb} {oz}" for lb, oz in weights), US) == MASS.parse(f"{ounces} oz", US)


class TestTemperatures:
    @pytest.mark.parametrize(
        ("text", "c"),
        [
            ("24C", 24),
            ("24 C", 24),
            ("24 °C", 24),
            ("75.2F", 24),
            ("75.2 °f", 24),
            ("75.2", 24),
            ("-4 F", -20),
        ],
    )
    def test_both_scales_are_read(self, text: str, c: float) -> None:
        assert TEMPERATURE.parse(text, US) == c

    def test_a_bare_number_is_in_the_scale_of_the_farm(self) -> None:
        assert TEMPERATURE.parse("24", METRIC) == 24
        assert TEMPERATURE.parse("24,5", COMMA) == 24.5

    def test_what_is_shown(self) -> None:
        assert TEMPERATURE.show(24.04, METRIC) == "24.0 °C"
        assert TEMPERATURE.show(24.04, COMMA) == "24,0 °C"
        assert TEMPERATURE.show(24.0, US) == "75.2 °F"
        assert TEMPERATURE.show(-0.01, METRIC) == "0.0 °C"
        assert TEMPERATURE.show(float("nan"), US) == "no temperature"

    def test_no_water_or_air_is_that_hot(self) -> None:
        with pytest.raises(OutOfRange, match=r"outside -60\.0 °C to 100\.0 °C"):
            TEMPERATURE.parse("101", METRIC)

    @pytest.mark.parametrize("text", ["", "warm", "24 K", "1e5", "nan", "24,5"])
    def test_what_is_no_temperature(self, text: str) -> None:
        assert "Understood: 76.1 F" in refusal(TEMPERATURE.parse, text, US)

    @for_all(any_measures, st.floats(-60, 100))
    def test_what_is_shown_is_read_back_to_the_tenth(self, measures: Measures, c: float) -> None:
        assert TEMPERATURE.parse(TEMPERATURE.show(c, measures), measures) == pytest.approx(c, abs=0.0501)

    @for_all(any_measures, st.floats())
    def test_showing_never_fails(self, measures: Measures, c: float) -> None:
        assert TEMPERATURE.show(c, measures)


class TestMoney:
    @pytest.mark.parametrize(
        ("text", "measures", "minor"),
        [
            ("12", US, 1200),
            ("12.5", US, 1250),
            ("12.50", US, 1250),
            ("$12.50", US, 1250),
            ("$ 12.50", US, 1250),
            ("USD 12.50", US, 1250),
            ("12.50 usd", US, 1250),
            (".50", US, 50),
            ("1,234", US, 123_400),
            ("1,234.50", US, 123_450),
            ("1 234.50", US, 123_450),
            ("12,50", COMMA, 1250),
            ("12,50 €", COMMA, 1250),
            ("1.234,50", COMMA, 123_450),
            ("1250", YEN, 1250),
            ("¥1,250", YEN, 1250),
            ("1.250", DINAR, 1250),
            ("1,234,567", DINAR, 1_234_567_000),
            ("CHF 12.50", FRANC, 1250),
        ],
    )
    def test_every_usual_way_of_writing_a_sum(self, text: str, measures: Measures, minor: int) -> None:
        assert parse_money(text, measures) == minor

    @pytest.mark.parametrize(
        ("text", "measures", "words"),
        [
            ("12,50", US, "writes decimals with a point"),
            ("12.50", COMMA, "writes decimals with a comma"),
            ("1,234", DINAR, "ambiguous"),
            ("12.505", US, "more decimals than USD, which has 2"),
            ("12.5", YEN, "more decimals than JPY, which has none"),
            ("-3", US, "minus sign"),
            ("$-3", US, "minus sign"),
            ("0", US, "comes to nothing"),
            ("€5", US, "not in USD"),
            ("EUR 5", US, "not in USD"),
            ("1,23,456", US, "set apart in threes"),
            ("12.", US, "decimals that are no number"),
            ("1e5", US, "no sum of money"),
            ("$", US, "no sum of money"),
            ("$5$", US, "currency twice"),
            ("", US, "Nothing was typed"),
        ],
    )
    def test_what_is_refused(self, text: str, measures: Measures, words: str) -> None:
        assert words in refusal(parse_money, text, measures)

    def test_nothing_is_taken_only_where_asked_for(self) -> None:
        assert parse_money("0", US, zero_ok=True) == 0

    def test_an_absurd_sum_is_out_of_range(self) -> None:
        with pytest.raises(OutOfRange, match="largest sum"):
            parse_money("10,000,000,000.01", US)

    @pytest.mark.parametrize(
        ("minor", "measures", "shown"),
        [
            (123_450, US, "$1,234.50"),
            (-300, US, "-$3.00"),
            (0, US, "$0.00"),
            (123_450, COMMA, "1.234,50 €"),
            (1250, YEN, "¥1,250"),
            (1250, DINAR, "KWD 1.250"),
            (5, FRANC, "CHF 0.05"),
        ],
    )
    def test_what_is_shown(self, minor: int, measures: Measures, shown: str) -> None:
        assert show_money(minor, measures) == shown

    @for_all(any_measures, st.integers(0, 10**12))
    def test_a_sum_shown_is_read_back_as_itself(self, measures: Measures, minor: int) -> None:
        assert parse_money(show_money(minor, measures), measures, zero_ok=True) == minor
        assert parse_money(show_money_exact(minor, measures), measures, zero_ok=True) == minor

    @for_all(any_measures, st.integers())
    def test_showing_never_fails(self, measures: Measures, minor: int) -> None:
        assert ("-" in show_money(minor, measures)) == (minor < 0)


class TestPrices:
    def test_a_price_per_pound_is_kept_exactly(self) -> None:
        price = parse_price("3.50/lb", US)
        assert price == Price(35_000, 45_359_237)
        assert price.per("lb") == 350
        assert price.per("oz") == Fraction(350, 16)

    @pytest.mark.parametrize("text", ["3.50/lb", "3.50 / lb", "3.50 per lb", "$3.50 PER LB", "3.50", "7/2 lb"])
    def test_ways_of_writing_a_price(self, text: str) -> None:
        assert parse_price(text, US).per("lb") == 350

    def test_a_price_alone_is_per_main_unit_of_weight(self) -> None:
        assert parse_price("3.50", METRIC) == Price(350, 1_000_000)
        assert parse_price("2 / 100 g", METRIC).per("kg") == 2000
        assert parse_price("3,50/kg", COMMA) == Price(350, 1_000_000)

    def test_what_a_weight_costs_is_rounded_once_to_the_even_cent(self) -> None:
        assert parse_price("3.50/lb", US).amount(MASS.parse("10000 lb", US)) == 3_500_000
        assert Price(1, 2).amount(1) == 0
        assert Price(1, 2).amount(3) == 2

    def test_what_is_shown(self) -> None:
        assert show_price(parse_price("3.50/lb", US), US) == "$3.50 per lb"
        assert show_price(parse_price("2 / 100 g", COMMA), COMMA) == "20,00 € per kg"
        assert show_price(parse_price("0.02 / 10 lb", US), US) == "$0.0020 per lb"
        assert show_price(Price(713, 1_234_567), US) == "$2.62 per lb"

    @pytest.mark.parametrize("text", ["", "/lb", "3.50 per", "3.50 /", "3.50/gal", "cheap", "3,50/lb", "2 / 0 g"])
    def test_what_is_no_price(self, text: str) -> None:
        assert "Understood: " in refusal(parse_price, text, US)

    def test_a_price_for_no_weight_cannot_be(self) -> None:
        with pytest.raises(OutOfRange):
            Price(100, 0)

    @for_all(any_measures, st.integers(1, 10**9), st.integers(1, 10**10))
    def test_an_exact_price_is_read_back_as_itself(self, measures: Measures, minor: int, mg: int) -> None:
        price = Price(minor, mg)
        assert parse_price(show_price_exact(price, measures), measures) == price

    @for_all(any_measures, st.integers(), st.integers(1))
    def test_showing_never_fails(self, measures: Measures, minor: int, mg: int) -> None:
        assert show_price(Price(minor, mg), measures)


class TestWeighing:
    def test_the_tare_comes_off_once(self) -> None:
        assert weigh("1 lb", "6 oz", US) == Weighing(net_mg=283_495, tare_mg=170_097)
        assert weigh("1 kg + 1 kg", "200 g", US) == Weighing(net_mg=1_800_000, tare_mg=200_000)

    @pytest.mark.parametrize("tare", [None, "", "  ", "0"])
    def test_no_tare(self, tare: str | None) -> None:
        assert weigh("620 g", tare, METRIC) == Weighing(net_mg=620_000, tare_mg=0)

    @pytest.mark.parametrize("tare", ["16 oz", "2 lb"])
    def test_a_tare_that_leaves_nothing_is_refused(self, tare: str) -> None:
        assert f'"{tare}" as tare leaves nothing of 1 lb' in refusal(weigh, "1 lb", tare, US)


class TestMeasures:
    def test_a_word_that_is_no_choice_is_refused_in_words(self) -> None:
        with pytest.raises(NotUnderstood, match='"stone" is no choice for mass'):
            Measures("stone", "gal", "sq_ft", "ft", "F", "USD")  # type: ignore[arg-type]

    @pytest.mark.parametrize("code", ["usd", "US", "QQQ", "", "$"])
    def test_a_currency_must_be_of_iso_4217(self, code: str) -> None:
        with pytest.raises(NotUnderstood, match="no currency of ISO 4217"):
            Measures("kg", "L", "m2", "cm", "C", code)

    def test_the_main_units(self) -> None:
        assert [main(US) for main in (main_mass_unit, main_volume_unit, main_area_unit, main_length_unit)] == [
            "lb",
            "gal",
            "sq ft",
            "ft",
        ]
        assert [main(METRIC) for main in (main_mass_unit, main_volume_unit, main_area_unit, main_length_unit)] == [
            "kg",
            "L",
            "m2",
            "cm",
        ]


class TestConverting:
    def test_an_amount_in_another_unit_is_exact(self) -> None:
        assert in_unit(45_359_237, MASS, "lb") == 100
        assert in_unit(1_000_000, MASS, "kg") == 1
        assert in_unit(929_030_400, AREA, "sq ft") == 10_000
        assert from_unit(100, MASS, "lb") == 45_359_237
        assert from_unit(Fraction(1, 3), VOLUME, "L") == 333

    def test_an_unknown_unit_is_refused_in_words(self) -> None:
        assert '"stone" is no unit of weight' in refusal(in_unit, 1, MASS, "stone")

    def test_every_spelling_means_one_unit_and_is_read(self) -> None:
        for dimension in DIMENSIONS:
            for unit in dimension.all_units:
                for word in unit.spellings:
                    assert dimension.parse_fraction(f"7 {word}", US) == 7 * unit.size

    def test_refusals_can_be_caught_as_one_kind(self) -> None:
        with pytest.raises(FarmopsError):
            MASS.parse("kale", US)
