"""The first run."""
