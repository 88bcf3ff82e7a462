"""Forms, one module per kind of record: made from a snapshot of the farm's names and where one stands."""
