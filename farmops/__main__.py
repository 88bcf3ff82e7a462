"""`python -m farmops` is the same as `farmops`."""

from farmops.main import main

main()
