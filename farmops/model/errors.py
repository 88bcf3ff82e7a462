"""What can go wrong, in the user's words, each error with the exit code a command ends on."""

from __future__ import annotations


class FarmopsError(Exception):
    """Something the user can read and act on. `str(error)` is shown as it stands."""

    exit_code = 1


class Refused(FarmopsError):
    """A rule of the farm does not allow it; nothing was changed."""


class Unlikely(Refused):
    """Possible, but so rare that it is asked once; said again, it is booked."""


class NotUnderstood(FarmopsError):
    """Typed text has no one clear meaning; the words say what would be understood."""


class OutOfRange(FarmopsError):
    """A number lies outside the range for which a formula or a table holds."""


class NotFound(FarmopsError):
    """No record by that name or number; the words name near ones where there are any."""


class NoFarm(FarmopsError):
    """The store does not exist or holds no farm yet."""


class StoreUnavailable(FarmopsError):
    """The store is busy, unreachable, unreadable, damaged or written by a newer program."""

    exit_code = 3


class StoreDamaged(StoreUnavailable):
    """The store is there and does not hold what was written to it."""


class CheckFailed(FarmopsError):
    """A check ran to its end and found problems."""

    exit_code = 4


DAMAGED = (
    "{place} is damaged. Book nothing more there. What is wrong: farmops check. "
    "Put a backup back: farmops backup --list, then farmops restore FILE"
)
