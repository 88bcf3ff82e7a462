"""The count of checks against the outside goes by the labels tests carry, not by the folder they lie in."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
ANOTHER_PROCESS = ("-q", "-p", "no:cacheprovider", "--noconftest", "-p", "tests.labels", "-n", "1")
"""What a report carries must outlive the way from process to process; nothing else of the tests is loaded for it."""


def test_only_what_carries_a_label_is_counted_under_it() -> None:
    file = "tests/published/test_common_practice.py"
    command = [sys.executable, "-m", "pytest", file, *ANOTHER_PROCESS]
    said = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    words = re.search(r"outside: (\d+) published, (\d+) common practice, (\d+) from memory", said)
    assert words, said
    published, practice, memory = map(int, words.groups())
    assert (published, memory) == (0, 0)
    assert practice > 10
