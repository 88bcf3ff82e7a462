"""The interface: the row, the round, the scale, the returns."""
