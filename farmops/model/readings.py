"""Readings: one measured value of a unit, in the form in which it was read."""

from __future__ import annotations

from enum import StrEnum


class Measure(StrEnum):
    """What is read. Stored in the unit that `READ_IN` names."""

    PH = "pH"
    TEMPERATURE = "temperature"
    AMMONIA = "ammonia"
    NITRITE = "nitrite"
    NITRATE = "nitrate"
    OXYGEN = "oxygen"
    ALKALINITY = "alkalinity"
    HARDNESS = "hardness"
    IRON = "iron"
    CHLORINE = "chlorine"
    POTASSIUM = "potassium"
    CALCIUM = "calcium"
    CONDUCTIVITY = "conductivity"
    FLOW = "flow"
    FILL_TIME = "fill time"
    DRAIN_TIME = "drain time"


class Form(StrEnum):
    """What a kit reports a nitrogen compound as: nitrogen in it, or the whole ion."""

    AS_N = "as N"
    AS_ION = "as ion"


NITROGEN = (Measure.AMMONIA, Measure.NITRITE, Measure.NITRATE)
"""The measures that kits report in either form; they are stored as nitrogen."""

READ_IN = {
    Measure.PH: "",
    Measure.TEMPERATURE: "deg C",
    Measure.AMMONIA: "mg/L",
    Measure.NITRITE: "mg/L",
    Measure.NITRATE: "mg/L",
    Measure.OXYGEN: "mg/L",
    Measure.ALKALINITY: "mg/L",
    Measure.HARDNESS: "mg/L",
    Measure.IRON: "mg/L",
    Measure.CHLORINE: "mg/L",
    Measure.POTASSIUM: "mg/L",
    Measure.CALCIUM: "mg/L",
    Measure.CONDUCTIVITY: "uS/cm",
    Measure.FLOW: "L/h",
    Measure.FILL_TIME: "min",
    Measure.DRAIN_TIME: "min",
}
"""The unit in which each measure is stored: nitrogen compounds as N, alkalinity and hardness as CaCO3."""
