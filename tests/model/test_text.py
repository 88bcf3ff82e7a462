"""Text that people type: one line, composed, without signs a terminal would obey."""

from __future__ import annotations

import json
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import NotUnderstood
from farmops.model.text import LONGEST_CODE, LONGEST_NAME, LONGEST_NOTE, code_of, name_of, note_of, plain, plain_json


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  Ada  Lane ", "Ada Lane"),
        ("two\nlines", "two lines"),
        ("tab\there", "tab here"),
        ("cafe\u0301", "caf\u00e9"),
        ("\u212bngstrom", "\u00c5ngstrom"),
        ("日本 農場", "日本 農場"),
        ("wide\u3000blank", "wide blank"),
        ("🐟 tank", "🐟 tank"),
        ("=1+1", "=1+1"),
        ("[bold]", "[bold]"),
    ],
)
def test_a_name_is_folded_and_composed(typed: str, kept: str):
    assert name_of(typed, "name") == kept


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "The name is empty"),
        (" \n\t ", "The name is empty"),
        ("a\x1b[31mred", "cannot be printed: a\\x1b[31mred"),
        ("bell\x07", "\\x07"),
        ("null\x00", "\\x00"),
        ("c1\x9b31m", "\\u009b"),
        ("evil\u202egnp.exe", "\\u202e"),
        ("hidden\u200bblank", "\\u200b"),
        ("mark\u2066me", "\\u2066"),
        ("\ufeffbom", "\\ufeff"),
        ("half\ud800", "\\ud800"),
        ("x" * (LONGEST_NAME + 1), "61 characters; at most 60 fit"),
    ],
)
def test_a_name_that_cannot_be_is_refused_and_shown_harmless(typed: str, words: str):
    with pytest.raises(NotUnderstood) as told:
        name_of(typed, "name")
    assert words in str(told.value)
    assert plain(str(told.value)) == str(told.value)


def test_length_counts_what_is_kept():
    assert len(name_of("e\u0301" * LONGEST_NAME, "name")) == LONGEST_NAME
    assert note_of("x" * LONGEST_NOTE) == "x" * LONGEST_NOTE
    with pytest.raises(NotUnderstood):
        note_of("x" * (LONGEST_NOTE + 1))


@pytest.mark.parametrize("nothing", [None, "", "  ", "\n"])
def test_an_empty_note_is_none(nothing: str | None):
    assert note_of(nothing) is None


@pytest.mark.parametrize(("typed", "code"), [("wren", "WREN"), (" b2 ", "B2"), ("perch-24", "PERCH-24"), ("é1", "É1")])
def test_a_code_is_in_capitals(typed: str, code: str):
    assert code_of(typed, "code") == code


@pytest.mark.parametrize(
    "typed", ["-A", ".A", "w ren", "a/b", "a'b", "a;b", "[A]", "x" * (LONGEST_CODE + 1), "", "a\x1b"]
)
def test_what_is_no_code_is_refused(typed: str):
    with pytest.raises(NotUnderstood):
        code_of(typed, "code")


@given(text=st.text())
def test_plain_text_holds_nothing_a_terminal_would_obey(text: str):
    shown = plain(text)
    assert not any(unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") for sign in shown)
    assert plain(shown) == shown


@given(text=st.text(), indent=st.sampled_from([None, 1]))
def test_plain_json_means_the_same_and_holds_nothing_a_terminal_would_obey(text: str, indent: int | None):
    shown = plain_json(json.dumps({"said": text, "more": ["\x9b\U000e0001"]}, ensure_ascii=False, indent=indent))
    assert json.loads(shown) == {"said": text, "more": ["\x9b\U000e0001"]}
    assert plain(shown.replace("\n", "")) == shown.replace("\n", "")


@given(text=st.text(max_size=80))
def test_a_name_that_is_kept_is_kept_again(text: str):
    try:
        kept = name_of(text, "name")
    except NotUnderstood:
        return
    assert name_of(kept, "name") == kept
    assert len(kept) <= LONGEST_NAME
    assert unicodedata.is_normalized("NFC", kept)
