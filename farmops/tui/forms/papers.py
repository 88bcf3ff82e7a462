"""Forms that write files: the round on paper, the chores in a calendar, a season for readers outside the farm."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from farmops import clock
from farmops.exchange.files import offered_place
from farmops.exchange.pages.papers import Paper, paper_of
from farmops.exchange.written import How
from farmops.model.absences import Absence
from farmops.model.costs import Basis
from farmops.model.errors import NotUnderstood
from farmops.model.farm import Person
from farmops.model.text import LONGEST_NOTE, plain
from farmops.model.units import Unit
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

if TYPE_CHECKING:
    from farmops.reports.returns import Asked

PLAIN_TEXT = "plain text"
FEED = "chores.ics"
SEASON = "season.html"
LONGEST_FEED_DAYS = 366
WRITE = "Write"


def round_sheet(person: Person | None, context: Context) -> FormSpec:
    """The round of a day as a page to print or as plain text: one person's or everybody's, for where one stands."""
    unit = context.unit.code if context.unit else None
    name = "-".join(("round", str(context.today), *([unit.lower()] if unit else [])))
    fields = (making.day("on", "Day"), *_paper_fields(context, name))

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.rounds import written
        from farmops.reports.round import round_of

        return written(round_of(store, values["on"], unit=unit, person=person), _how(values), unit).told

    title = " ".join(
        ("Print the round", *([f"of {unit}"] if unit else []), *([f"for {person.name}"] if person else []))
    )
    return FormSpec(title, fields, save, context.setting, verb=WRITE, start="file")


def wall_card(unit: Unit, context: Context) -> FormSpec:
    """The card on the wall of a unit, for when the screen is dark."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.cards import written
        from farmops.reports.wall_card import wall_card as card_of

        return written(card_of(store, unit), _how(values)).told

    fields = _paper_fields(context, f"wall-card-{unit.code.lower()}")
    about = "Minutes left, what first, breaker, valve, whom to call. Print it again when the fish or the season change."
    return FormSpec(f"Wall card of {unit.code}", fields, save, context.setting, about=about, verb=WRITE, start="file")


def care_sheet(absence: Absence | None, context: Context) -> FormSpec:
    """The care sheet for a stand-in, of the days of an absence."""
    first, last = (absence.from_day, absence.until_day) if absence else (context.today, context.today)
    days = (
        _coming("from_day", "From", max(first, context.today)),
        _coming("until_day", "To", max(last, context.today), blamed=("before it begins", "at most")),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.care import written
        from farmops.reports.care import care_sheet as sheet_of

        sheet = sheet_of(store, values["from_day"], values["until_day"])
        lacking = f" Missing on it: {'; '.join(sheet.lacking)}." if sheet.lacking else ""
        return written(sheet, _how(values)).told + lacking

    fields = (*days, *_paper_fields(context, f"care-{first}"))
    whom = f" for {absence.stand_in}" if absence and absence.stand_in else ""
    return FormSpec(f"Care sheet{whom}", fields, save, context.setting, verb=WRITE, start="file")


def season(asked: Asked, context: Context) -> FormSpec:
    """A season as one file for readers outside the farm; it begins with the days and the costs that are on screen."""
    fields = (
        Field("first", "From", Kind.DAY, str(asked.first or ""), hint="empty: the first record"),
        Field("last", "To", Kind.DAY, str(asked.last or ""), hint="empty: today", blamed=("before it begins",)),
        Field("basis", "Costs", Kind.CHOICE, asked.basis.value, tuple(basis.value for basis in Basis)),
        replace_field(),
        file_field(SEASON),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.season_report import write_season
        from farmops.reports.returns import Asked
        from farmops.reports.season import season as season_of

        wanted = Asked(context.today, values["first"], values["last"], Basis(values["basis"]))
        return write_season(season_of(store, wanted), values["file"], replace=values["replace"]).told

    about = "For a partner, a bank or a market board: opens in any browser, prints."
    return FormSpec("Season report", fields, save, context.setting, about=about, verb=WRITE, start="file")


def _coming(name: str, label: str, day: date, **more: Any) -> Field:
    return Field(
        name,
        label,
        Kind.DAY,
        str(day),
        required=True,
        read=lambda text, setting: clock.parse_day(text, setting.today, ahead=True),
        **more,
    )


def _paper_fields(context: Context, name: str) -> tuple[Field, ...]:
    papers = (*(paper.value for paper in Paper), PLAIN_TEXT)
    return (
        Field("paper", "Paper", Kind.CHOICE, paper_of(context.farm.measures).value, papers),
        _path("font", "Font file", hint="empty, or a .ttf for signs ours lacks", blamed=("is no font",)),
        replace_field(),
        file_field(f"{name}.pdf", follows=("paper",), guess=lambda typed: offered_place(f"{name}{_ending(typed)}")),
    )


def _how(values: dict[str, Any]) -> How:
    as_text = values["paper"] == PLAIN_TEXT
    paper = None if as_text else Paper(values["paper"])
    return How(values["file"], paper, values["font"], as_text, values["replace"])


def _ending(typed: dict[str, str]) -> str:
    return ".txt" if typed.get("paper") == PLAIN_TEXT else ".pdf"


def calendar(person: Person | None, context: Context) -> FormSpec:
    """Every chore as a to-do in an iCalendar file, whoever does it."""
    fields = (
        Field("days", "Days back", Kind.COUNT, "14", required=True, hint="those settled go along", read=_days),
        replace_field(),
        file_field(FEED),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.feed import write_feed

        fed = write_feed(store, values["file"], days=values["days"], replace=values["replace"])
        return f"{fed.coming} chores to come and {fed.past} settled in {fed.file}."

    about = "To-dos for a phone, as iCalendar."
    return FormSpec("Chores as a calendar", fields, save, context.setting, about=about, verb=WRITE, start="file")


def _days(text: str, setting: Setting) -> int:
    digits = text.strip()
    if not (digits.isascii() and digits.isdigit() and 1 <= int(digits) <= LONGEST_FEED_DAYS):
        raise NotUnderstood(f"{plain(digits)!r} is no count of days back. Understood: 1 to {LONGEST_FEED_DAYS}.")
    return int(digits)


def replace_field() -> Field:
    """Whether a file that is there may be written over."""
    return Field("replace", "Write over", Kind.YES, "no")


def file_field(name: str, **more: Any) -> Field:
    """Where the file goes, among a person's documents unless told otherwise."""
    blamed = ("is there already", "There is no folder", "is no file", "cannot be written")
    return _path("file", "File", offered_place(name), required=True, blamed=blamed, **more)


def _path(name: str, label: str, value: str = "", **more: Any) -> Field:
    """A field for a place on the disk; blanks within its name stay as they are."""
    return Field(name, label, Kind.TEXT, value, longest=LONGEST_NOTE, read=lambda text, _: text.strip(), **more)
