"""`python -m farmops.tui PLACE` opens the interface alone, for whoever works on it."""

import sys

from farmops.tui.app import FarmApp

app = FarmApp(sys.argv[1], "grower")
app.run()
