"""Operation ids: UUID version 7, which sort in the order they were made."""

from __future__ import annotations

import secrets
import time
import uuid

from farmops.model.errors import NotUnderstood


def new_id() -> str:
    """A fresh UUIDv7 as text (RFC 9562 section 5.7): 48 bits of Unix milliseconds, then random bits."""
    milliseconds = time.time_ns() // 1_000_000
    value = milliseconds << 80 | 0x7 << 76 | secrets.randbits(12) << 64 | 0b10 << 62 | secrets.randbits(62)
    return str(uuid.UUID(int=value))


def checked_id(text: str) -> str:
    """The id in its one canonical spelling. Raises NotUnderstood when it is no UUID."""
    try:
        return str(uuid.UUID(text))
    except ValueError:
        raise NotUnderstood(f"{text!r} is no id of an operation. Understood: a UUID.") from None
