"""Readings: one measured value of a unit, in the form in which it was read."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import StrEnum

from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.model.values import KEEP, Keep


class Measure(StrEnum):
    """What is read. Stored in the unit that `READ_IN` names."""

    PH = "pH"
    TEMPERATURE = "temperature"
    LOWEST_TEMPERATURE = "lowest temperature"
    HIGHEST_TEMPERATURE = "highest temperature"
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


class Doubt(StrEnum):
    """Why a reading is doubtful: what is wrong with the instrument it came from."""

    FAILED = "failed its check"
    EXPIRED = "was past its date"


TEMPERATURES = (Measure.TEMPERATURE, Measure.LOWEST_TEMPERATURE, Measure.HIGHEST_TEMPERATURE)
"""The temperature of the moment, and the lowest and highest of a day; all are held against the same limits."""

NITROGEN = (Measure.AMMONIA, Measure.NITRITE, Measure.NITRATE)
"""The measures that kits report in either form; they are stored as nitrogen."""

READ_IN = {
    Measure.PH: "",
    **dict.fromkeys(TEMPERATURES, "deg C"),
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

POSSIBLE = {
    Measure.PH: (0.0, 14.0),
    **dict.fromkeys(TEMPERATURES, (-5.0, 60.0)),
    Measure.OXYGEN: (0.0, 40.0),
    Measure.CONDUCTIVITY: (0.0, 100_000.0),
    Measure.FLOW: (0.0, 1_000_000.0),
    Measure.FILL_TIME: (0.0, 1_440.0),
    Measure.DRAIN_TIME: (0.0, 1_440.0),
}
"""What a reading can be at all, in the unit it is stored in; outside it is a slip of the pen."""

POSSIBLE_MG_PER_L = (0.0, 10_000.0)
"""What a concentration can be at all."""

LIKELY = {
    Measure.PH: (4.5, 9.5),
    **dict.fromkeys(TEMPERATURES, (0.0, 38.0)),
    Measure.AMMONIA: (0.0, 10.0),
    Measure.NITRITE: (0.0, 10.0),
    Measure.NITRATE: (0.0, 200.0),
    Measure.OXYGEN: (0.5, 16.0),
    Measure.ALKALINITY: (0.0, 400.0),
    Measure.HARDNESS: (0.0, 800.0),
    Measure.IRON: (0.0, 10.0),
    Measure.CHLORINE: (0.0, 5.0),
    Measure.POTASSIUM: (0.0, 400.0),
    Measure.CALCIUM: (0.0, 500.0),
    Measure.CONDUCTIVITY: (10.0, 5_000.0),
    Measure.FLOW: (0.0, 20_000.0),
    Measure.FILL_TIME: (0.5, 120.0),
    Measure.DRAIN_TIME: (0.2, 60.0),
}
"""What readings of such units are like, in the unit they are stored in; outside it is asked once. Common practice."""

NO_CYCLE = 1_440.0
"""The fill or drain time of a siphon that does not cycle: none in a day [min]."""

FRESH_DAYS = 3
"""How many days a reading stands for the water: to judge ammonia by its pH and temperature, and on the row."""

NAMED = {one.value.lower(): one for one in Measure}
ALSO_CALLED = {
    "temp": Measure.TEMPERATURE,
    "tmin": Measure.LOWEST_TEMPERATURE,
    "tmax": Measure.HIGHEST_TEMPERATURE,
    "tan": Measure.AMMONIA,
    "nh4": Measure.AMMONIA,
    "no2": Measure.NITRITE,
    "no3": Measure.NITRATE,
    "do": Measure.OXYGEN,
    "o2": Measure.OXYGEN,
    "kh": Measure.ALKALINITY,
    "gh": Measure.HARDNESS,
    "fe": Measure.IRON,
    "cl2": Measure.CHLORINE,
    "k": Measure.POTASSIUM,
    "ca": Measure.CALCIUM,
    "ec": Measure.CONDUCTIVITY,
}
"""Short names that are written on sheets and kits."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One measured value, in the unit of `READ_IN`, beside what was typed for it.

    `form` is what the kit reported a nitrogen compound as; `minute` counts from midnight, None is not known.
    `settlement_id` is the doing of a chore that asked for it. `doubt` says what is wrong with the instrument: a check
    that it failed reaches back to the last one it passed.
    """

    id: int
    day: date
    minute: int | None
    unit_id: int
    unit: str
    measure: Measure
    value: float
    form: Form | None
    typed: str
    settlement_id: int | None
    note: str | None
    operation: str
    instrument_id: int | None = None
    instrument: str | None = None
    doubt: Doubt | None = None

    @property
    def doubtful(self) -> str:
        """Why it is doubtful, in words; nothing where it is not."""
        return f"doubtful: {self.instrument} {self.doubt}" if self.doubt else ""

    @property
    def bound(self) -> str:
        """`<` or `>` where the kit gave a limit only, which then is the value."""
        sign = self.typed.lstrip()[:1]
        return sign if sign in ("<", ">") else ""


@dataclass(frozen=True, slots=True)
class NewReading:
    """One measured value as a person reads it: `value` in the unit of `READ_IN`, in the `form` of the kit.

    A form of None is the one the measure was booked in last, `as N` the first time. An unlikely value is booked
    when the person is `sure` of it. KEEP of the instrument stands for the one the measure is read with; None for none.
    """

    measure: Measure
    value: float
    typed: str
    form: Form | None = None
    note: str | None = None
    sure: bool = False
    instrument_id: int | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class NewReadings:
    """Readings of one unit, booked together; `minute` counts from midnight."""

    unit_id: int
    day: date
    readings: tuple[NewReading, ...]
    minute: int | None = None


@dataclass(frozen=True, slots=True)
class ReadingsBooked:
    """The readings that were booked, in the order they were given."""

    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class ReadingChange:
    """A correction of a reading; `read` is another value of the same measure."""

    reading_id: int
    day: date | Keep = KEEP
    minute: int | Keep | None = KEEP
    read: NewReading | Keep = KEEP
    note: str | Keep | None = KEEP
    instrument_id: int | Keep | None = KEEP


def form_of(measure: Measure, said: Form | None, last: Mapping[Measure, Form]) -> Form | None:
    """The form of a reading: the one said, else the one its measure was last read in, else as N; None for others."""
    return (said or last.get(measure, Form.AS_N)) if measure in NITROGEN else None


def possible(measure: Measure) -> tuple[float, float]:
    """The lowest and highest value that a measure can have at all, both included."""
    return POSSIBLE.get(measure, POSSIBLE_MG_PER_L)


def measure_of(word: str) -> Measure | None:
    """The measure that a word names in full, in any case, dashes for blanks; None for other words."""
    return NAMED.get(_folded(word))


def measure_called(text: str) -> Measure:
    """The measure that is meant by its name, a short name or an unmistakable beginning. Raises NotUnderstood."""
    wanted = _folded(text)
    found = measure_of(text) or ALSO_CALLED.get(wanted)
    begun = [one for one in Measure if wanted and one.value.lower().startswith(wanted)]
    if found is not None or len(begun) == 1:
        return found or begun[0]
    if begun:
        raise NotUnderstood(f"{plain(text)!r} could be {' or '.join(begun)}. Write more of it.")
    raise NotUnderstood(f"{plain(text)!r} is nothing that is read here. Known: {', '.join(Measure)}.")


def asked_for(words: str | None) -> tuple[Measure, ...]:
    """The measures among the words of a chore, parted by commas, each once; other words are left to the sheet."""
    found = (measure_of(word) for word in (words or "").split(","))
    return tuple(dict.fromkeys(one for one in found if one is not None))


def _folded(text: str) -> str:
    return " ".join(text.replace("-", " ").replace("_", " ").lower().split())
