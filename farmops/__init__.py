"""Chores, weighings, costs and returns for a row of coupled fish-and-vegetable units."""

__version__ = "0.1.0"
