"""Weighing a harvest, from anywhere: the number and Enter, and the next one."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from textual import events
from textual.content import Content
from textual.widgets import Input, Static

from farmops.model.errors import FarmopsError, StoreUnavailable, Unlikely
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest, NewHarvest, Use
from farmops.model.ids import new_id
from farmops.model.text import plain
from farmops.model.values import Measured
from farmops.quantities import MASS, Measures, weigh
from farmops.quantities.weighing import Weighing
from farmops.reports.faults import report_of
from farmops.reports.scale import Scale, Source, scale_of
from farmops.reports.shown import shown_value
from farmops.reports.store import Store
from farmops.tui.screens.place import Changed, Refusal
from farmops.tui.screens.taking_back import take_back
from farmops.tui.widgets.completing import resolved
from farmops.tui.widgets.field_box import FieldBox
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormScreen, FormSpec, Hand
from farmops.tui.work import Broken, WorkMixin

TITLE = "Weigh a harvest"
UNDO = "u"
FINDS = "Letters instead of a weight find another crop or bed."
NOTHING = "Nothing grows and no fish live here yet. F3 Beds, then n, plants."
TODAY_SHOWN = 4


def open_weighing(frame: Any) -> None:
    """Open the scale at once on what the frame read last; a key typed after h must not go astray."""
    unit = frame.card.unit.code if frame.card and frame.card.unit else None
    if frame.scale is None:
        frame.post_message(Refusal("The farm is still being read. h again in a moment."))
    else:
        _open(frame, frame.scale.nearest(unit))


def _open(frame: WorkMixin, scale: Scale) -> None:
    if not scale.sources:
        frame.post_message(Refusal(NOTHING))
    else:
        frame.app.push_screen(Weigh(scale), partial(_closed, frame))


def _closed(frame: WorkMixin, words: str | None) -> None:
    frame.post_message(Changed(words or ""))


class Weigh(FormScreen):
    """The scale. Enter in the weight books; letters there look for another source; u alone takes back."""

    AUTO_FOCUS = ""
    DEFAULT_CSS = """
    Weigh {
        & #today { height: auto; margin-top: 1; color: $foreground; }
    }
    """

    def __init__(self, scale: Scale) -> None:
        self.scale = scale
        self.sources = {source.label: source for source in scale.sources}
        self.early: list[str] | None = []
        self.under_way: list[Bowl] = []
        self.unsure: dict[tuple[str, ...], str] = {}
        self.asked_about: set[tuple[str, ...]] = set()
        self.leaving = False
        super().__init__(spec_of(scale, self.sources))

    def on_mount(self) -> None:
        """Today's weighings stand below the fields."""
        self.query_one("#sheet").mount(Static(id="today", markup=False), after="#fields")
        self._begin()
        self.call_after_refresh(self._show_standing)

    def _begin(self) -> None:
        """Take what was typed while the scale was being drawn: wet hands do not wait."""
        *whole, unfinished = "".join(self.early or []).split("\n")
        weight, self.early = self.box("weight"), None
        for typed in whole:
            weight.text = typed
            if weight.check():
                self.action_book()
        if unfinished and isinstance(weight.input, Input):
            weight.text = unfinished
            weight.input.select_on_focus = False
            weight.input.cursor_position = len(unfinished)

    def _keys(self) -> str:
        return "Enter book · Tab field · u undo the last · Esc close"

    @property
    def boxes(self) -> list[FieldBox]:
        """The fields on the screen: fish have one more."""
        return [box for box in super().boxes if box.display]

    @property
    def source(self) -> Source | None:
        """What is being weighed."""
        return self.sources.get(self.box("source").text)

    def _show_standing(self) -> None:
        self.query_one("#field-dressed").display = self.source is not None and self.source.fish_lot_id is not None
        lines = today_lines(self.scale, self.source)
        self.query_one("#today", Static).update(Content("\n".join(plain(line) for line in lines)))

    def following(self, box: FieldBox) -> FieldBox | None:
        """Enter in the source goes to the weight, anywhere else it books."""
        return self.box("weight") if box.field.name == "source" else None

    def on_field_box_entered(self, message: FieldBox.Entered) -> None:
        """Another source has its own past to tell."""
        message.prevent_default()
        super().on_field_box_entered(message)
        self._show_standing()

    def on_field_box_edited(self, message: FieldBox.Edited) -> None:
        """Nothing but u in the weight takes back the last weighing."""
        if message.box.field.name == "weight" and message.box.text == UNDO:
            message.box.begin()
            take_back(self, self._told_back, self._refused)

    def on_key(self, event: events.Key) -> None:
        """Keys that come before there is a field for them are kept."""
        if self.early is not None:
            event.stop()
            self.early.append("\n" if event.key == "enter" else event.character or "")

    def _told_back(self, words: str) -> None:
        self.said = words
        self._say(words)
        self._read_again()

    def action_book(self) -> None:
        """Book at once and be ready for the next bowl while the store writes."""
        wrong = [box for box in self.boxes if not box.check()]
        if wrong:
            self._say("Not booked yet: the marked field wants another look.", refused=True)
            wrong[0].focus_input()
            return
        values = self._values()
        if isinstance(values["weight"], Source):
            self._turn_to(values["weight"])
            return
        bowl = self._bowl()
        hand = Hand(self.app.by, sure=bowl.key in self.asked_about)  # type: ignore[attr-defined]
        work = partial(self._save, values=values, hand=hand, operation=bowl.operation)
        self.under_way.append(bowl)
        self._say("Booking ...")
        self.work(work, partial(self._booked, bowl), group="write", otherwise=partial(self._not_booked, bowl))
        self._empty(lambda field: not field.keep)
        self.box("weight").focus_input()

    def _turn_to(self, source: Source) -> None:
        """Letters in the weight were the name of what is weighed next."""
        self.box("source").text = source.label
        self.box("weight").begin()
        self.box("weight").focus_input()
        self._say(f"From {source.label} now.")
        self._show_standing()

    def _bowl(self) -> Bowl:
        texts = {box.field.name: box.text for box in self.boxes}
        operation = self.unsure.pop(tuple(texts.values()), None) or new_id()
        return Bowl(texts, operation)

    def _booked(self, bowl: Bowl, words: str) -> None:
        self.under_way.remove(bowl)
        self.said = words
        if self.leaving and not self.under_way:
            self.dismiss(words)
        else:
            self._say(f"{words} The next one, or Esc.")
            self._read_again()

    def _not_booked(self, bowl: Bowl, error: FarmopsError) -> None:
        """Why; a store that did not answer may have booked it all the same, so a second try has the same id."""
        if isinstance(error, StoreUnavailable):
            self.unsure[bowl.key] = bowl.operation
        if isinstance(error, Unlikely):
            self.asked_about.add(bowl.key)
            self._give_back(bowl, f"{error} Enter books it all the same.")
        else:
            self._give_back(bowl, str(error))

    def _give_back(self, bowl: Bowl, words: str) -> None:
        """What was typed comes back, unless the next one is being typed already."""
        self.under_way.remove(bowl)
        self.leaving = False
        self._say(f"{bowl.texts['weight']}: {words}", refused=True)
        if not self.box("weight").text:
            for name, text in bowl.texts.items():
                self.box(name).text = text

    def on_broken(self, message: Broken) -> None:
        """A fault of the program: said and reported in a file; what was being booked comes back."""
        message.stop()
        message.prevent_default()
        words = report_of(message.error)
        if self.under_way:
            self._give_back(self.under_way[-1], words)
        else:
            self._say(words, refused=True)

    def action_leave(self) -> None:
        """Close, once all that was entered is booked; what is refused is not to be missed."""
        self.leaving = bool(self.under_way)
        if self.leaving:
            self._say("Booking the last one ...")
        else:
            self.dismiss(self.said)

    def _read_again(self) -> None:
        self.work(scale_of, self._show_scale, group="scale")

    def _show_scale(self, scale: Scale) -> None:
        self.scale = scale
        self.sources = {source.label: source for source in scale.sources}
        self._show_standing()


@dataclass(frozen=True, slots=True)
class Bowl:
    """A weighing on its way into the store: the texts of the fields, and the id of its booking."""

    texts: dict[str, str]
    operation: str

    @property
    def key(self) -> tuple[str, ...]:
        """The texts, by which the same bowl is known when it is booked again."""
        return tuple(self.texts.values())


def spec_of(scale: Scale, sources: dict[str, Source]) -> FormSpec:
    """The form of the scale; the next weighing keeps source, tare and use."""
    first = next(iter(sources))
    fields = (
        Field(
            "source",
            "From",
            Kind.NAME,
            first,
            tuple(sources),
            required=True,
            strict=True,
            nearest=True,
            keep=True,
            longest=200,
        ),
        Field(
            "weight",
            "Weight",
            Kind.MASS,
            required=True,
            read=partial(_weighed, sources=sources),
            told=_net_words,
            follows=("tare",),
            blamed=("weigh", "heav"),
        ),
        Field("use", "For", Kind.CHOICE, Use.HOME.value, tuple(use.value for use in Use), keep=True),
        Field("tare", "Tare", Kind.MASS, keep=True, hint="weight of the empty bowl, taken off", zero_ok=True),
        Field("number", "Count", Kind.COUNT, hint="pieces, bunches or fish, if counted"),
        Field("dressed", "Dressed", Kind.MASS, hint="gutted, if weighed", blamed=("dressed",)),
        Field("note", "Note", Kind.TEXT),
    )
    setting = Setting(scale.farm.measures, scale.on)
    save = partial(_save, sources=sources, scale=scale)
    return FormSpec(TITLE, fields, save, setting, again=True, about=ready_words(scale), start="weight")


def ready_words(scale: Scale) -> str:
    """How many sources there are, and how to find another."""
    ready = sum(1 for source in scale.sources if source.ready)
    return f"{ready} ready. {FINDS}" if ready else FINDS


@dataclass(frozen=True, slots=True)
class Gross:
    """What the scale showed as it was typed, and what is left of it without the tare."""

    typed: str
    weighed: Weighing


def _weighed(text: str, setting: Setting, *, sources: dict[str, Source]) -> Gross | Source:
    """What the scale shows; letters instead are the name of another source, the nearest that fits."""
    if text.strip()[:1].isalpha():
        named = Field("source", "From", Kind.NAME, options=tuple(sources), strict=True, nearest=True)
        return sources[resolved(named, text)]
    return Gross(text.strip(), weigh(text, setting.typed.get("tare") or None, setting.measures))


def _net_words(gross: Gross | Source, setting: Setting) -> str:
    if isinstance(gross, Source):
        return f"{gross.label}: Enter goes there"
    net = MASS.show(gross.weighed.net_mg, setting.measures)
    return f"{net} net" if gross.weighed.tare_mg else net


def _save(
    store: Store, values: dict[str, Any], hand: Hand, operation: str, *, sources: dict[str, Source], scale: Scale
) -> str:
    from farmops.farm.harvests import record_harvest
    from farmops.model.journal import Through

    source = sources[values["source"]]
    gross: Gross = values["weight"]
    weighed, tare = gross.weighed, values["tare"]
    entry = NewHarvest(
        scale.farm.today(),
        Measured(weighed.net_mg, gross.typed),
        planting_id=source.planting_id,
        fish_lot_id=source.fish_lot_id,
        tare=Measured(weighed.tare_mg, tare.typed) if tare and weighed.tare_mg else None,
        number=values["number"],
        use=Use(values["use"]),
        note=values["note"],
        sure=hand.sure,
        dressed=values.get("dressed"),
    )
    booked = record_harvest(store, entry, by=hand.by, operation=operation, through=Through.SCREEN)
    where = booked.bed or booked.unit
    return f"Booked: {MASS.show(booked.mass_mg, scale.farm.measures)} {booked.what} from {where}, {booked.use}."


def today_lines(scale: Scale, source: Source | None) -> list[str]:
    """Today's last weighings and their sum, and how the planting does."""
    measures = scale.farm.measures
    lines = [f"Today   {_one_line(one, measures)}" for one in scale.today[:TODAY_SHOWN]]
    if len(scale.today) > TODAY_SHOWN:
        lines.append(f"        and {len(scale.today) - TODAY_SHOWN} more")
    if scale.today:
        lines.append(f"        {_sum_words(scale.today, measures)} so far today")
    if source is not None and source.held:
        lines.append(f"Held {source.held}: books as waste only.")
    if source is not None and source.planting_id is not None:
        lines.append(_planting_words(scale, source, measures))
    return lines


def _one_line(one: Harvest, measures: Measures) -> str:
    return f"{one.what} {one.bed or one.unit}  {MASS.show(one.mass_mg, measures)}  {one.use}"


def _sum_words(today: Sequence[Harvest], measures: Measures) -> str:
    """Produce and fish are never added into one."""
    produce = sum(one.mass_mg for one in today if one.planting_id is not None)
    fish = sum(one.mass_mg for one in today if one.planting_id is None)
    parts = [MASS.show(produce, measures) if produce else "", f"{MASS.show(fish, measures)} of fish" if fish else ""]
    return " and ".join(part for part in parts if part)


def _planting_words(scale: Scale, source: Source, measures: Measures) -> str:
    if not source.mass_mg:
        return "This planting: first weighing."
    weeks = "1 week" if source.weeks == 1 else f"{source.weeks} weeks"
    words = f"This planting {MASS.show(source.mass_mg, measures)} in {weeks}"
    if source.yield_so_far is not None:
        words += f" · {shown_value(source.yield_so_far, 'mg per mm2', measures)}"
        best = scale.best(source.crop or "")
        if best is not None and best != source.yield_so_far:
            words += f" · best bed so far {shown_value(best, 'mg per mm2', measures)}"
    return words
