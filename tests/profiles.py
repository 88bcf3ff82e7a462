"""How thorough a run is: `ci` for every change, `full` before a release, chosen by FARMOPS_TEST_PROFILE."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

PROFILE = os.environ.get("FARMOPS_TEST_PROFILE", "ci")
EXAMPLES = {"ci": 25, "full": 2_000}


def count(*, ci: int, full: int) -> int:
    """A number of repetitions that depends on the profile."""
    return {"ci": ci, "full": full}[PROFILE]


def load_hypothesis() -> None:
    """Same examples in every `ci` run, new ones in every `full` run; none fails for being slow or hard to make."""
    hard = [HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large]
    shared = {"deadline": None, "suppress_health_check": hard}
    settings.register_profile("ci", max_examples=EXAMPLES["ci"], derandomize=True, database=None, **shared)
    settings.register_profile("full", max_examples=EXAMPLES["full"], print_blob=True, **shared)
    settings.load_profile(PROFILE)
