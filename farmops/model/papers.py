"""Papers that run out: permits, insurance, the seal of a scale."""

from __future__ import annotations

from enum import StrEnum


class PaperKind(StrEnum):
    """What a paper is."""

    PERMIT = "permit"
    INSURANCE = "insurance"
    SCALE_SEAL = "scale seal"
    CERTIFICATE = "certificate"
    CONTRACT = "contract"
    OTHER = "other"
