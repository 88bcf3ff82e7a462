"""Instruments: what is read with, until when it is good, and how it stood against something known."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.model.frozen import dataclass
from farmops.model.readings import Form, Measure, asked_for
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class Instrument:
    """A kit, a meter, a thermometer. `measures` are what it reads, parted by commas; `form` what a kit reports.

    In service from `from_day` to `until_day`, None while it is; `expires_day` is the last day printed on it. It is to
    be checked every `check_days` days, None where nobody asks for it.
    """

    id: int
    name: str
    measures: str
    form: Form | None
    from_day: date
    expires_day: date | None
    until_day: date | None
    check_days: int | None
    note: str | None

    @property
    def reads(self) -> tuple[Measure, ...]:
        """What it reads."""
        return asked_for(self.measures)

    def serves(self, on: date) -> bool:
        """Whether it is in service on a day."""
        return self.from_day <= on <= (self.until_day or date.max)

    def stands(self, last: InstrumentCheck | None, on: date) -> tuple[str, ...]:
        """What is to be known of it on a day, after its last check: retired, past its date, failed, due for a check."""
        if not self.serves(on):
            return (f"retired on {self.until_day}" if self.until_day and self.until_day < on else "not in service yet",)
        found = [f"past its date, {self.expires_day}"] if self.expires_day and self.expires_day < on else []
        if last is not None and not last.passed:
            found.append(f"failed on {last.day}")
        elif self.check_days and (last.day if last else self.from_day) + timedelta(days=self.check_days) <= on:
            found.append("due for a check")
        elif last is not None:
            found.append(f"passed on {last.day}")
        return tuple(found)


@dataclass(frozen=True, slots=True)
class NewInstrument:
    """An instrument as a person takes it into service."""

    name: str
    reads: tuple[Measure, ...]
    from_day: date
    form: Form | None = None
    expires_day: date | None = None
    check_days: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class InstrumentChange:
    """A correction of an instrument; an `until_day` retires it, None takes it back into service."""

    instrument_id: int
    name: str | Keep = KEEP
    reads: tuple[Measure, ...] | Keep = KEEP
    from_day: date | Keep = KEEP
    form: Form | Keep | None = KEEP
    expires_day: date | Keep | None = KEEP
    until_day: date | Keep | None = KEEP
    check_days: int | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class InstrumentCheck:
    """An instrument held against something known: what that was and what it showed, as a person writes it."""

    id: int
    day: date
    instrument_id: int
    instrument: str
    passed: bool
    against: str | None
    showed: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewCheck:
    """A check as a person makes it; the paper of the instrument says what still passes."""

    instrument_id: int
    day: date
    passed: bool
    against: str | None = None
    showed: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class CheckChange:
    """A correction of a check."""

    check_id: int
    day: date | Keep = KEEP
    passed: bool | Keep = KEEP
    against: str | Keep | None = KEEP
    showed: str | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class Checked:
    """A check that was booked, and how many readings of the instrument are doubtful now."""

    check: InstrumentCheck
    doubtful: int
