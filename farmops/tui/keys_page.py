"""The page of keys for the docs, made from the registry: `python -m farmops.tui.keys_page > docs/keys.md`."""

from __future__ import annotations

from farmops.tui.actions import ACTIONS, ANYWHERE, LIST, PLACES, POWER_CUT, Action
from farmops.tui.widgets.footer import key_name
from farmops.tui.widgets.places import TITLES

HEAD = """# Keys

Made from the registry of actions; do not edit by hand. Every action is in the palette (F9) too.
Keys of your own stand in `settings.toml` in the platform's settings folder, or where `FARMOPS_SETTINGS` points:

```toml
theme = "morning"      # evening, morning, stark, plain-sight; F8 writes the one chosen last

[keys]
weigh = "h"            # the id of an action, its keys parted by commas
```

Two meanings for one key in one place are refused when the interface starts.
"""


def page() -> str:
    """The whole page."""
    titles = {ANYWHERE: "Anywhere", LIST: "In every list", **TITLES, POWER_CUT: "While the power is out"}
    parts = [HEAD]
    for where in (ANYWHERE, LIST, *PLACES, POWER_CUT):
        rows = [row(one) for one in ACTIONS if one.where == where]
        if rows:
            parts.append("\n".join([f"## {titles[where]}", "", "| key | does | id |", "|---|---|---|", *rows, ""]))
    return "\n".join(parts)


def row(action: Action) -> str:
    """One action as a row of its table."""
    keys = ", ".join(f"`{key_name(key)}`" for key in action.keys)
    needs = f" (needs {action.needs})" if action.needs else ""
    return f"| {keys} | {action.words}{needs} | {action.id} |"


if __name__ == "__main__":
    print(page(), end="")
