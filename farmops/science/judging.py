"""Readings judged for those who live in the water: the stricter limit counts."""

from __future__ import annotations

from collections.abc import Iterable

from farmops.model.errors import OutOfRange
from farmops.model.limits import Level, Limit, Side, Verdict
from farmops.model.readings import NITROGEN, TEMPERATURES, Form, Measure
from farmops.science.water import AmmoniaAs, NitrateAs, NitriteAs, in_form, unionized_ammonia


def as_nitrogen(measure: Measure, mg_per_l: float, form: Form | None) -> float:
    """A reading as it is stored: nitrogen compounds as N, anything else as it is.

    Args:
        measure: what was read.
        mg_per_l: the value as the kit reports it, in the unit of the measure; nitrogen compounds in mg/L.
        form: what the kit reports a nitrogen compound as; the ion of ammonia is ammonium, NH4.

    Returns:
        The value in the same unit, nitrogen compounds as N.

    Raises:
        OutOfRange: a concentration is negative or not a finite number.

    Source:
        Ratio of molar masses, IUPAC standard atomic weights 2021.
    """
    if measure is Measure.AMMONIA and form is Form.AS_ION:
        return in_form(mg_per_l, given=AmmoniaAs.NH4, wanted=AmmoniaAs.N)
    if measure is Measure.NITRITE and form is Form.AS_ION:
        return in_form(mg_per_l, given=NitriteAs.NO2, wanted=NitriteAs.N)
    if measure is Measure.NITRATE and form is Form.AS_ION:
        return in_form(mg_per_l, given=NitrateAs.NO3, wanted=NitrateAs.N)
    return mg_per_l


def as_reported(measure: Measure, mg_per_l: float, form: Form | None) -> float:
    """A stored reading in the form in which a kit reports it; the reverse of `as_nitrogen`."""
    return mg_per_l / as_nitrogen(measure, 1.0, form) if measure in NITROGEN else mg_per_l


def limited(measure: Measure) -> Measure:
    """The measure whose limits hold for one: those of the temperature hold for the lowest and highest of a day too."""
    return Measure.TEMPERATURE if measure in TEMPERATURES else measure


def judge(
    measure: Measure,
    value: float,
    limits: Iterable[Limit],
    *,
    ph: float | None = None,
    temperature_c: float | None = None,
) -> Verdict | None:
    """A reading held against the limits of all who live in the water.

    Args:
        measure: what was read.
        value: as it is stored, in the unit of the measure; nitrogen compounds as N.
        limits: of everyone there; those on other measures are passed over; the limits of the temperature hold for the
            lowest and the highest of a day too. Of equally grave ones the first leads.
        ph: pH of the same water [-], None where it is not known; only ammonia asks for it.
        temperature_c: its temperature [deg C], None where it is not known; only ammonia asks for it.

    Returns:
        The verdict, or None where nobody there has a limit on this measure.

    Source:
        The limits name theirs; toxic ammonia by `unionized_ammonia`.
    """
    wanted = limited(measure)
    own = [limit for limit in limits if limit.measure is wanted]
    if not own:
        return None
    counted = [(limit, _counted(limit, value, ph, temperature_c)) for limit in own]
    passed = sorted((one for one in counted if _beyond(*one)), key=lambda one: -one[0].level.gravity)
    lacking = _lacking(own, ph, temperature_c)
    if not passed:
        return Verdict(Level.GOOD, lacking=lacking)
    first, its_value = passed[0]
    return Verdict(first.level, tuple(limit for limit, _ in passed), its_value or 0.0, lacking)


def _counted(limit: Limit, value: float, ph: float | None, temperature_c: float | None) -> float | None:
    """The value as this limit counts it; None where that cannot be known."""
    if not limit.toxic:
        return as_reported(limit.measure, value, limit.form)
    if ph is None or temperature_c is None:
        return None
    try:
        toxic = unionized_ammonia(value, ph=ph, temperature_c=temperature_c, reported=AmmoniaAs.N)
    except OutOfRange:
        return None
    return toxic.as_nh3_mg_per_l


def _beyond(limit: Limit, counted: float | None) -> bool:
    if counted is None:
        return False
    return counted > limit.at if limit.side is Side.ABOVE else counted < limit.at


def _lacking(own: Iterable[Limit], ph: float | None, temperature_c: float | None) -> tuple[Measure, ...]:
    if not any(limit.toxic for limit in own):
        return ()
    known = {Measure.PH: ph, Measure.TEMPERATURE: temperature_c}
    return tuple(measure for measure, found in known.items() if found is None)
