"""Pages built from blocks: text is never markup, what cannot be drawn is said, whatever its length it is there."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib.resources import files

import pytest
import reportlab
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.platypus import Flowable

from farmops.exchange.pages.blocks import Blocks, blank
from farmops.exchange.pages.document import Pages, pages_of
from farmops.exchange.pages.lettering import BOLD, REGULAR, STAND_IN, Lettering, _signs_of
from farmops.exchange.pages.papers import SIZES, Paper, paper_of
from farmops.model.errors import NotUnderstood
from farmops.quantities import METRIC, US
from tests.exchange.printed import pages_read, size_of, text_read
from tests.labels import common_practice, published
from tests.profiles import count

ANOTHER_FONT = str(files(reportlab) / "fonts" / "Vera.ttf")


def made(*texts: str, own_font: str | None = None, paper: Paper = Paper.A4) -> Pages:
    def story(blocks: Blocks) -> Sequence[Flowable]:
        return [blocks.words(text) for text in texts]

    return pages_of(story, title="A title", foot="At the foot", paper=paper, own_font=own_font)


@published("ISO 216 (A4); ANSI/ASME Y14.1 (letter)", note="210 by 297 mm; 8.5 by 11 in; 72 points an inch")
def test_the_papers_have_their_sizes() -> None:
    assert size_of(made("words").content) == (595.3, 841.9)
    assert size_of(made("words", paper=Paper.LETTER).content) == (612.0, 792.0)
    assert set(SIZES) == set(Paper)


@common_practice("printers hold letter paper where people weigh in pounds, A4 elsewhere")
def test_the_paper_goes_by_the_weights_of_the_farm() -> None:
    assert paper_of(US) is Paper.LETTER
    assert paper_of(METRIC) is Paper.A4


def test_every_page_says_which_one_it_is_and_of_how_many() -> None:
    pages = made(*(f"line {number}" for number in range(120)))
    read = pages_read(pages.content)
    assert pages.count == len(read) == 3
    assert [f"{at} of 3" in page for at, page in enumerate(read, start=1)] == [True] * 3
    assert all("At the foot" in page for page in read)


@pytest.mark.parametrize(
    "text",
    ["<b>bold</b>", "a & b &amp; c", "<para>", "</font>", '<a href="x">y</a>', "1 < 2 > 0", "&#65;", "<br/>", "{x}%s"],
)
def test_signs_of_markup_are_drawn_as_they_stand(text: str) -> None:
    assert text in text_read(made(f"before {text} after").content)


@pytest.mark.parametrize("text", ["Zażółć gęślą jaźń", "Ωμέγα", "Ферма їжак", "Đặng Thị", "5 °C · ½ – €"])
def test_latin_greek_and_cyrillic_are_drawn(text: str) -> None:
    pages = made(text)
    assert text in text_read(pages.content)
    assert pages.lacking == ""


def test_what_cannot_be_drawn_is_stood_in_for_and_said_on_the_page() -> None:
    pages = made("pump 養魚 and 魚")
    read = text_read(pages.content)
    assert pages.lacking == "養魚"
    assert f"pump {STAND_IN * 2} and {STAND_IN}" in read
    assert f"{STAND_IN} stands for signs that could not be drawn: U+990A, U+9B5A." in read


def test_of_many_signs_that_cannot_be_drawn_the_first_are_named() -> None:
    read = text_read(made("".join(map(chr, range(0x4E00, 0x4E28)))).content)
    assert "U+4E00, U+4E01" in read
    assert "U+4E0B and 28 more." in read


def test_a_font_of_ones_own_draws_what_the_packaged_one_lacks() -> None:
    text = "pump \N{DIVISION SLASH} <\N{BULLET OPERATOR}> & 魚"
    assert made(text).lacking == "\N{DIVISION SLASH}\N{BULLET OPERATOR}魚"
    pages = made(text, own_font=ANOTHER_FONT)
    assert pages.lacking == "魚"
    assert text.replace("魚", STAND_IN) in text_read(pages.content)


@pytest.mark.parametrize("text", ["العربية", "עברית", "हिन्दी", "ไทย", "ខ្មែរ"])
def test_scripts_that_are_not_written_sign_by_sign_are_not_drawn_wrong(text: str) -> None:
    assert set(made(text).lacking) == set(text)


def test_signs_that_a_terminal_would_obey_are_written_out() -> None:
    assert "\\x1b" in text_read(made("\x1b[31m").content)


@pytest.mark.parametrize("file", [sys.executable, __file__, "/nowhere.ttf", "/"])
def test_a_file_that_is_no_font_is_refused_in_words(file: str) -> None:
    with pytest.raises(NotUnderstood, match="is no font that can be printed"):
        made("words", own_font=file)


def test_bold_draws_all_that_regular_draws() -> None:
    Lettering()
    assert _signs_of(BOLD) == _signs_of(REGULAR)


def test_a_blank_names_what_is_written_in_and_what_it_is_counted_in() -> None:
    assert blank("took", 3, "min").split("\N{NO-BREAK SPACE}") == ["took", "___", "min"]
    assert blank("pH", 4).split("\N{NO-BREAK SPACE}") == ["pH", "____"]


texts = st.text(st.characters(exclude_categories=("Cs",)), max_size=60) | st.text("<>&;/abp= \"'", max_size=60)


@settings(max_examples=count(ci=15, full=300))
@given(st.lists(texts, max_size=6), st.text("W 養é", max_size=1500))
def test_whatever_a_block_is_given_becomes_a_page(words: list[str], long: str) -> None:
    def story(blocks: Blocks) -> list[Flowable]:
        what: list[Flowable] = [
            blocks.titled(long, words),
            blocks.caution(long),
            blocks.words(long),
            blocks.caution(long),
        ]
        rows = [blocks.to_do(word, word, [*what, blocks.blanks(*map(blank, words))], []) for word in [*words, long]]
        return [*blocks.head(long, *words), blocks.heading(long), *rows, blocks.notes(long[:80], 3)]

    pages = pages_of(story, title=long, foot=long[:120], paper=Paper.LETTER)
    assert len(pages_read(pages.content)) == pages.count
