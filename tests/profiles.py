"""How thorough a run is: `ci` for every change, `full` before a release, chosen by FARMOPS_TEST_PROFILE."""

from __future__ import annotations

import os

from hypothesis import settings

PROFILE = os.environ.get("FARMOPS_TEST_PROFILE", "ci")
EXAMPLES = {"ci": 40, "full": 2_000}


def count(*, ci: int, full: int) -> int:
    """A number of repetitions that depends on the profile."""
    return {"ci": ci, "full": full}[PROFILE]


def load_hypothesis() -> None:
    """Same examples in every `ci` run, new ones in every `full` run; no example is failed for being slow."""
    settings.register_profile("ci", deadline=None, max_examples=EXAMPLES["ci"], derandomize=True, database=None)
    settings.register_profile("full", deadline=None, max_examples=EXAMPLES["full"], print_blob=True)
    settings.load_profile(PROFILE)
