"""Papers that run out: permits, insurance, the seal of a scale."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.notes import KeptFile
from farmops.model.values import KEEP, Keep

RUNS_OUT_DAYS = 30
"""How many days before its last day a paper calls for its renewal. Common practice, no source."""


class PaperKind(StrEnum):
    """What a paper is."""

    PERMIT = "permit"
    INSURANCE = "insurance"
    SCALE_SEAL = "scale seal"
    CERTIFICATE = "certificate"
    CONTRACT = "contract"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper, good from a day until its last day, None where it has none; `file` is the name of the copy that is kept.

    `renewed` marks one that a later paper of the same kind, name and unit follows.
    """

    id: int
    kind: PaperKind
    name: str
    number: str | None
    issued_by: str | None
    unit_id: int | None
    unit: str | None
    from_day: date
    until_day: date | None
    file: str | None
    file_name: str | None
    file_sha256: str | None
    note: str | None
    renewed: bool


@dataclass(frozen=True, slots=True)
class NewPaper:
    """A paper as a person files it."""

    kind: PaperKind
    name: str
    from_day: date
    until_day: date | None = None
    number: str | None = None
    issued_by: str | None = None
    unit_id: int | None = None
    file: KeptFile | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class PaperChange:
    """A correction of a paper."""

    paper_id: int
    kind: PaperKind | Keep = KEEP
    name: str | Keep = KEEP
    from_day: date | Keep = KEEP
    until_day: date | Keep | None = KEEP
    number: str | Keep | None = KEEP
    issued_by: str | Keep | None = KEEP
    unit_id: int | Keep | None = KEEP
    file: KeptFile | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class Renewal:
    """The paper that follows one: its days; a number and a file of its own where it has them."""

    paper_id: int
    from_day: date
    until_day: date | None
    number: str | None = None
    file: KeptFile | None = None
