"""Benchmarks: `python -m tests.bench` prints ratios of medians taken in one run; the suite asserts none."""
