"""Fish weighed, counted and grown: weight, biomass, survival, feed conversion, growth, projection."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from enum import IntEnum

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.science.ranges import check_positive, check_range

STUDENT_T_95 = (
    *(12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228),
    *(2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086),
    *(2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042),
)
"""Student's t, two-sided 95 %, for 1 to 30 degrees of freedom; the last one holds beyond, a little wide."""


@dataclass(frozen=True, slots=True)
class MeanWeight:
    """Mean weight of a sample [g] and how sure it is.

    `sd_g` and `se_g` (standard deviation, standard error of the mean) are None when the fish were not
    weighed one by one, or only one was.
    """

    mean_g: float
    count: int
    sd_g: float | None = None
    se_g: float | None = None

    @property
    def band_g(self) -> tuple[float, float] | None:
        """Where the mean of the lot lies with 95 % confidence [g], never below 0; None without `se_g`."""
        if self.se_g is None:
            return None
        half = STUDENT_T_95[min(self.count - 1, len(STUDENT_T_95)) - 1] * self.se_g
        return max(0.0, self.mean_g - half), self.mean_g + half


def mean_weight(weights_g: Sequence[float]) -> MeanWeight:
    """Mean, standard deviation and standard error of fish weighed one by one.

    Args:
        weights_g: one weight per fish [g], each above 0, at least one.

    Returns:
        s = sqrt(sum (w - mean)^2 / (n - 1)), SE = s / sqrt(n), both None for a single fish.

    Raises:
        OutOfRange: no weights, or a weight is not above 0.

    Source:
        Definitions of statistics; the sample is taken as drawn at random from a much larger lot.
    """
    count = len(weights_g)
    check_positive(number_of_weights=count)
    for weight_g in weights_g:
        check_positive(weight_g=weight_g)
    mean_g = math.fsum(weights_g) / count
    if count == 1:
        return MeanWeight(mean_g, 1)
    sd_g = math.sqrt(math.fsum((w - mean_g) ** 2 for w in weights_g) / (count - 1))
    return MeanWeight(mean_g, count, sd_g, sd_g / math.sqrt(count))


def mean_weight_in_bulk(total_g: float, count: int) -> MeanWeight:
    """Mean weight of fish weighed together; nothing is known of their spread.

    Args:
        total_g: weight of all of them [g], above 0.
        count: how many, at least one.

    Returns:
        total / count, without a standard error.

    Raises:
        OutOfRange: weight or count is not above 0.

    Source:
        Definition.
    """
    check_positive(weight_g=total_g, count=count)
    return MeanWeight(total_g / count, count)


def biomass_kg(mean_g: float, alive: int) -> float:
    """Weight of all live fish: mean weight times number alive.

    Args:
        mean_g: mean weight [g], 0 or more.
        alive: number of live fish, 0 or more.

    Returns:
        Biomass [kg].

    Raises:
        OutOfRange: an argument is negative.

    Source:
        Definition.
    """
    check_range(mean_weight_g=(mean_g, 0, math.inf), number_alive=(alive, 0, math.inf))
    return mean_g * alive / 1000


def survival_percent(alive: int, stocked: int) -> float:
    """Share of the stocked fish that are alive, those taken out alive counted as alive.

    Args:
        alive: fish alive, or alive when they were taken out, 0 to `stocked`.
        stocked: fish put in, at least one.

    Returns:
        100 * alive / stocked [%].

    Raises:
        OutOfRange: none were stocked, or more live than were stocked.

    Source:
        Definition.
    """
    check_positive(number_stocked=stocked)
    check_range(number_alive=(alive, 0, stocked))
    return 100 * alive / stocked


def biomass_gain(start: float, end: float, *, stocked: float = 0.0, taken_out: float = 0.0) -> float:
    """Growth of a lot between two days: what is there and was taken out, less what was there and came in.

    Args:
        start: biomass on the first day, any unit of mass, 0 or more.
        end: biomass on the last day, same unit, 0 or more.
        stocked: put in between, same unit, 0 or more.
        taken_out: harvested or moved out alive between, same unit, 0 or more.

    Returns:
        Gain in the same unit; negative when the lot lost weight or fish died.

    Raises:
        OutOfRange: an argument is negative.

    Source:
        Mass balance.
    """
    for name, mass in {"start": start, "end": end, "stocked": stocked, "taken out": taken_out}.items():
        check_range(**{f"biomass {name}": (mass, 0, math.inf)})
    return end + taken_out - start - stocked


def feed_conversion(feed: float, gain: float) -> float:
    """Feed conversion ratio: feed given per gain of live fish.

    Args:
        feed: feed given, any unit of mass, 0 or more.
        gain: gain of biomass, same unit, above 0 (`biomass_gain`).

    Returns:
        FCR [-].

    Raises:
        OutOfRange: nothing was gained; the ratio has no meaning then.

    Source:
        Somerville et al. (2014), FAO Fish. Aquac. Tech. Paper 589: total feed / total growth.
    """
    check_range(feed=(feed, 0, math.inf))
    check_positive(gain=gain)
    return feed / gain


def biological_feed_conversion(feed: float, gain: float, dead: float) -> float:
    """Feed conversion with the weight of dead fish added back: what the fish made of the feed.

    Args:
        feed: feed given, any unit of mass, 0 or more.
        gain: gain of live biomass, same unit; may be negative when many died.
        dead: weight of the fish that died, same unit, 0 or more.

    Returns:
        Biological FCR [-], never above the plain one.

    Raises:
        OutOfRange: nothing was gained even with the dead added back.

    Source:
        Usual definition in aquaculture texts, from memory.
    """
    check_range(weight_of_dead=(dead, 0, math.inf))
    return feed_conversion(feed, gain + dead)


def specific_growth_rate(start_g: float, end_g: float, days: float) -> float:
    """Specific growth rate, the slope of the logarithm of weight.

    Args:
        start_g: mean weight on the first day [g], above 0.
        end_g: mean weight on the last day [g], above 0.
        days: days between [d], above 0.

    Returns:
        SGR = 100 (ln W2 - ln W1) / days [% per day]. It falls as fish grow: compare like sizes only.

    Raises:
        OutOfRange: an argument is not above 0.

    Source:
        Marquez et al. (2024), Front. Mar. Sci. 11:1332912.
    """
    check_positive(first_weight_g=start_g, last_weight_g=end_g, days=days)
    return 100 * (math.log(end_g) - math.log(start_g)) / days


def daily_growth_percent(sgr_percent: float) -> float:
    """Growth in one day that a specific growth rate amounts to.

    Args:
        sgr_percent: SGR [% per day], -50 to 50.

    Returns:
        100 (exp(SGR / 100) - 1) [% of weight per day].

    Raises:
        OutOfRange: the rate lies outside the range.

    Source:
        Algebra.
    """
    check_range(growth_rate_percent=(sgr_percent, -50, 50))
    return 100 * math.expm1(sgr_percent / 100)


class TgcScale(IntEnum):
    """The factor by which a thermal growth coefficient is written: both are in use."""

    TIMES_100 = 100
    TIMES_1000 = 1000


def degree_days(daily_temperatures_c: Sequence[float]) -> float:
    """Sum of daily mean water temperatures.

    Args:
        daily_temperatures_c: one per day [deg C], each 0 to 40.

    Returns:
        Degree-days above 0 deg C [deg C d].

    Raises:
        OutOfRange: a temperature lies outside the range.

    Source:
        Definition, as used by the thermal growth coefficient.
    """
    for temperature_c in daily_temperatures_c:
        check_range(temperature_c=(temperature_c, 0, 40))
    return math.fsum(daily_temperatures_c)


def thermal_growth_coefficient(
    start_g: float, end_g: float, degree_days_c: float, scale: TgcScale = TgcScale.TIMES_1000
) -> float:
    """Thermal growth coefficient: growth of the cube root of weight per degree-day.

    Args:
        start_g: mean weight on the first day [g], above 0.
        end_g: mean weight on the last day [g], above 0.
        degree_days_c: sum of daily mean temperatures between [deg C d], above 0.
        scale: whether it is written times 100 or times 1000.

    Returns:
        TGC = scale * (W2^(1/3) - W1^(1/3)) / degree-days.

    Raises:
        OutOfRange: an argument is not above 0.

    Source:
        Iwama, Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656; Jobling (2003), Aquac. Res. 34:581-584,
        who shows that it fails near and above the best temperature of a species.
    """
    check_positive(first_weight_g=start_g, last_weight_g=end_g, degree_day_sum=degree_days_c)
    return scale * (math.cbrt(end_g) - math.cbrt(start_g)) / degree_days_c


@dataclass(frozen=True, slots=True)
class Projection:
    """Weight expected [g], its band from the weighing (None without one), and what to mind."""

    mean_g: float
    band_g: tuple[float, float] | None
    warning: str | None = None


def project_by_sgr(start: MeanWeight, sgr_percent: float, days: float) -> Projection:
    """Weight after some days of growth at a constant specific growth rate.

    Args:
        start: mean weight today; its standard error makes the band.
        sgr_percent: SGR [% per day], -50 to 50.
        days: days ahead [d], 0 to 120: over longer spans growth slows and the rate no longer holds.

    Returns:
        W2 = W1 exp(SGR days / 100). The band carries the doubt of the weighing alone, not that of the rate.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source:
        Inverse of `specific_growth_rate`; the limit of 120 days is a choice made here.
    """
    check_range(growth_rate_percent=(sgr_percent, -50, 50), days=(days, 0, 120))
    return _projected(start, lambda weight_g: weight_g * math.exp(sgr_percent * days / 100))


def project_by_tgc(
    start: MeanWeight,
    tgc: float,
    daily_temperatures_c: Sequence[float],
    *,
    scale: TgcScale = TgcScale.TIMES_1000,
    best_high_c: float | None = None,
) -> Projection:
    """Weight after days of known temperatures, by the thermal growth coefficient.

    Args:
        start: mean weight today; its standard error makes the band.
        tgc: coefficient, written by `scale`; from -10 to 10 when times 1000.
        daily_temperatures_c: mean water temperature of each day ahead [deg C], each 0 to 40.
        scale: whether `tgc` is written times 100 or times 1000.
        best_high_c: upper end of the best range of the species [deg C], for the warning.

    Returns:
        W2 = (W1^(1/3) + TGC / scale * degree-days)^3, with a warning when days are warmer than the best
        range. The band carries the doubt of the weighing alone, not that of the coefficient.

    Raises:
        OutOfRange: an argument lies outside its range, or the fish would shrink to nothing.

    Source:
        Iwama, Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656; Jobling (2003), Aquac. Res. 34:581-584.
    """
    per_degree_day = tgc / scale
    check_range(tgc_times_1000=(1000 * per_degree_day, -10, 10))
    root_gain = per_degree_day * degree_days(daily_temperatures_c)
    if math.cbrt(start.mean_g) + root_gain <= 0:
        raise OutOfRange("a fish cannot shrink to nothing; the coefficient does not hold that long")
    warning = _too_warm(daily_temperatures_c, best_high_c)
    return _projected(start, lambda weight_g: max(0.0, math.cbrt(weight_g) + root_gain) ** 3, warning)


def _projected(start: MeanWeight, grown: Callable[[float], float], warning: str | None = None) -> Projection:
    check_positive(weight_g=start.mean_g)
    band = start.band_g
    return Projection(grown(start.mean_g), band and (grown(band[0]), grown(band[1])), warning)


def _too_warm(daily_temperatures_c: Sequence[float], best_high_c: float | None) -> str | None:
    if best_high_c is None:
        return None
    warm_days = sum(temperature_c > best_high_c for temperature_c in daily_temperatures_c)
    if not warm_days:
        return None
    days = "1 day is" if warm_days == 1 else f"{warm_days} days are"
    return f"too high a forecast: {days} warmer than {best_high_c:g} C, where growth slows"


def condition_factor(weight_g: float, length_cm: float) -> float:
    """Fulton's condition factor, how stout a fish is for its length.

    Args:
        weight_g: weight of the fish [g], above 0.
        length_cm: its length [cm], above 0; total or standard length, but always the same one.

    Returns:
        K = 100 W / L^3 [g/cm3]. Compare within one species and one kind of length.

    Raises:
        OutOfRange: an argument is not above 0.

    Source:
        Fulton, as discussed by Nash, Valencia, Geffen (2006), Fisheries 31(5):236-238.
    """
    check_positive(weight_g=weight_g, length_cm=length_cm)
    return 100 * weight_g / length_cm**3
