"""How the floors above open a store for reading, without knowing what it is made of."""

from farmops.records.location import resolve
from farmops.records.reading import Reader
from farmops.records.store import Store

__all__ = ["Reader", "Store", "resolve"]
