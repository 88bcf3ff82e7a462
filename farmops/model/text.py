"""Free text that people type: kept on one line, without signs a terminal would obey."""

from __future__ import annotations

import unicodedata

from farmops.model.errors import NotUnderstood

LONGEST_NAME = 60
LONGEST_NOTE = 1000
LONGEST_CODE = 24


def plain(text: str) -> str:
    """The text with control and formatting signs made visible, safe to print on a terminal."""
    if text.isprintable():
        return text
    return "".join(_visible(sign) for sign in text)


def _visible(sign: str) -> str:
    if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp"):
        return sign.encode("unicode_escape").decode() if sign.isascii() else f"\\u{ord(sign):04x}"
    return sign


def plain_json(text: str) -> str:
    """JSON that means the same, its signs that a terminal would obey written as escapes; line ends stay."""
    if text.isprintable():
        return text
    return "".join(sign if sign == "\n" or _visible(sign) == sign else _escaped(sign) for sign in text)


def _escaped(sign: str) -> str:
    units = sign.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at]:02x}{units[at + 1]:02x}" for at in range(0, len(units), 2))


def width(text: str) -> int:
    """How many columns of a terminal, or of a page in plain text, the text takes."""
    return len(text) if text.isascii() else sum(_columns(sign) for sign in text)


def cut(text: str, columns: int) -> str:
    """The text in at most so many columns, its end marked where something was left out."""
    kept = text
    while kept and width(kept) > columns - (kept != text):
        kept = kept[:-1]
    return kept if kept == text else f"{kept}…"


def filled(text: str, columns: int, *, right: bool = False) -> str:
    """The text with blanks up to so many columns, at its left side where it stands on the right."""
    blanks = " " * (columns - width(text))
    return blanks + text if right else text + blanks


def _columns(sign: str) -> int:
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def name_of(text: str, what: str, *, longest: int = LONGEST_NAME) -> str:
    """A name on one line, blanks folded, NFC. Raises NotUnderstood when empty, too long or with control signs."""
    folded = " ".join(unicodedata.normalize("NFC", text).split())
    if not folded:
        raise NotUnderstood(f"The {what} is empty.")
    if len(folded) > longest:
        raise NotUnderstood(f"The {what} has {len(folded)} characters; at most {longest} fit.")
    if plain(folded) != folded:
        raise NotUnderstood(f"The {what} holds signs that cannot be printed: {plain(folded)}")
    return folded


def code_of(text: str, what: str) -> str:
    """A short code in capitals: letters, digits and dashes, beginning with a letter or digit."""
    code = name_of(text, what, longest=LONGEST_CODE).upper()
    if not code[0].isalnum() or not all(sign.isalnum() or sign in "-_." for sign in code):
        raise NotUnderstood(
            f"{plain(text)!r} is no {what}. Understood: letters, digits and dashes, such as WREN or B2."
        )
    return code


def note_of(text: str | None, what: str = "note") -> str | None:
    """A note, or None when nothing was typed."""
    return name_of(text, what, longest=LONGEST_NOTE) if text and text.strip() else None
