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
BACKUP, PACKAGE, WORKBOOK = FORMS = ("a backup", "CSV files", "a workbook")
ENDING = ".xlsx"


def make(context: Context) -> FormSpec:
    """A backup, beside the farm or elsewhere; or the whole farm as files for other programs."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        to = values["to"]
        return _backed_up(store, to) if values["form"] == BACKUP else _exported(store, to, values["form"])

    form = Field("form", "As", Kind.CHOICE, BACKUP, FORMS)
    to = Field(
        "to",
        "To",
        Kind.TEXT,
        hint="where; empty: beside the farm",
        longest=LONGEST_NOTE,
        blamed=("is there already", "There is no folder", "cannot be"),
        read=lambda text, _: text.strip(),
    )
    about = "A copy of the farm as it is now, looked through before it counts; or all of it as files to read elsewhere."
    return FormSpec("A copy of the farm", (form, to), save, context.setting, about=about, verb="Make it", start="to")


def _backed_up(store: Store, to: str) -> str:
    from farmops.exchange.backups import backup

    return made_in_words(backup(store, to or None))


def _exported(store: Store, to: str, form: str) -> str:
    """Beside the farm where no place is named; a workbook has its ending."""
    from farmops.exchange.packages import export, offered

    place = to or offered(store)
    wanted = f"{place}{ENDING}" if form == WORKBOOK and not place.lower().endswith(ENDING) else place
    return export(store, wanted).words


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
