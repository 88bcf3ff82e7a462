"""Forms for backups: one made now, and one put back in the place of what is there."""

from __future__ import annotations

from typing import Any

from farmops.model.backups import Backup, made_in_words, put_back_in_words
from farmops.model.text import LONGEST_NOTE
from farmops.reports.store import Store
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

OTHER_FARM = "It is of another farm"


def make(context: Context) -> FormSpec:
    """A backup, beside the farm or elsewhere."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.backups import backup

        return made_in_words(backup(store, values["to"] or None))

    to = Field(
        "to",
        "To",
        Kind.TEXT,
        hint="a file or a folder; empty: beside the farm",
        longest=LONGEST_NOTE,
        blamed=("is there already", "There is no folder", "cannot be made"),
        read=lambda text, _: text.strip(),
    )
    about = "A copy of the farm as it is now, looked through before it counts."
    return FormSpec("A backup", (to,), save, context.setting, about=about, verb="Make it")


def put_back(record: Backup, context: Context) -> FormSpec:
    """Put a backup in the place of what is there; what would be lost by it is told before."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.backups import restore

        found = restore(store, str(record.file), other_farm=values["other_farm"])
        return put_back_in_words(found, rehearsed=False)

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        from farmops.exchange.backups import restore

        return put_back_in_words(restore(store, str(record.file), rehearsed=True), rehearsed=True)

    other = Field("other_farm", OTHER_FARM, Kind.YES, "no", blamed=("is of another farm",))
    title = f"Put back the backup of {record.at:%Y-%m-%d %H:%M}Z"
    about = "It is tried first; what it replaces is kept among the backups."
    return FormSpec(title, (other,), save, context.setting, about=about, verb="Put it back", wide=True, preview=preview)
