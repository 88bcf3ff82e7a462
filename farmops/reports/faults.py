"""A fault of the program: told in words, with a report file that holds none of the farm's data."""

from __future__ import annotations

import os
import platform
import sys
import tempfile
import traceback
from pathlib import Path

from farmops import __version__


def report_of(error: BaseException) -> str:
    """Words for the user, naming the report that was written."""
    words = f"farmops has a fault ({type(error).__name__}). What was acknowledged before is safe; this was not done."
    try:
        handle, name = tempfile.mkstemp(prefix="farmops-fault-", suffix=".txt")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(without_data(error))
    except OSError:
        return words
    return f"{words}\nA report without your data lies in {name}: please send it with what you did."


def without_data(error: BaseException) -> str:
    """Where it happened, without the message, the arguments and any value, which could be the farm's."""
    lines = [
        f"farmops {__version__}, Python {platform.python_version()}, {sys.platform}",
        *(
            f"{Path(frame.filename).name}:{frame.lineno} {frame.name}"
            for frame in traceback.extract_tb(error.__traceback__)
        ),
        type(error).__name__,
    ]
    return "\n".join(lines) + "\n"
