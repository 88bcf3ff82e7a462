"""How front ends name the store they work on, without knowing what it is made of."""

from farmops.facts.reading import Store, resolve

__all__ = ["Store", "resolve"]
