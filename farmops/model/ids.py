"""Operation ids: UUID version 7, which sort in the order they were made."""

from __future__ import annotations

import os
import time
import uuid

from farmops.model.errors import NotUnderstood


def new_id() -> str:
    """A fresh UUIDv7 as text (RFC 9562 section 5.7): 48 bits of Unix milliseconds, then random bits."""
    milliseconds = time.time_ns() // 1_000_000
    first, second = os.urandom(2), os.urandom(8)
    random_a, random_b = int.from_bytes(first) >> 4, int.from_bytes(second) >> 2
    value = milliseconds << 80 | 0x7 << 76 | random_a << 64 | 0b10 << 62 | random_b
    return str(uuid.UUID(int=value))


def checked_id(text: str) -> str:
    """The id in its one canonical spelling. Raises NotUnderstood when it is no UUID."""
    try:
        return str(uuid.UUID(text))
    except ValueError:
        raise NotUnderstood(f"{text!r} is no id of an operation. Understood: a UUID.") from None
