"""Whatever text is entered for whatever kind of record is kept as plain text on one line, or refused in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import Any

import pytest

from farmops.farm.operation import Operation
from farmops.model.errors import FarmopsError, StoreUnavailable
from farmops.model.journal import Image
from farmops.model.text import LONGEST_NOTE, plain
from tests.farm.cases import CASES, Case
from tests.farmhand import ADA
from tests.faults.hostile_files import SIGNS
from tests.land import Land
from tests.profiles import count

Path = tuple[str | int, ...]
TEXTS = (*SIGNS, "nul\0", "lone\ud800", "\ufeff", "\u2028", "", " ", "\n\n", "x" * 100_000, "\U000e0001tag", "-")
NOT_TYPED = ("kind", "sha256", "file", "operation", "id")
"""What the program says, not a person."""
EVERY = count(ci=6, full=1)


def texts_in(value: Any, path: Path = ()) -> Iterator[Path]:
    """Where in an entry a text stands that a person could have typed."""
    if isinstance(value, str) and not isinstance(value, Enum):
        yield path
    elif isinstance(value, tuple):
        for at, one in enumerate(value):
            yield from texts_in(one, (*path, at))
    elif is_dataclass(value) and not isinstance(value, type):
        for one in fields(value):
            if one.init and one.name not in NOT_TYPED:
                yield from texts_in(getattr(value, one.name), (*path, one.name))


def put(value: Any, path: Path, text: str) -> Any:
    """The entry with another text there."""
    if not path:
        return text
    first, *rest = path
    if isinstance(first, int):
        return (*value[:first], put(value[first], tuple(rest), text), *value[first + 1 :])
    return replace(value, **{first: put(getattr(value, first), tuple(rest), text)})


@pytest.fixture
def written(monkeypatch: pytest.MonkeyPatch) -> list[Image]:
    """The rows that an operation would have written."""
    images: list[Image] = []
    finish = Operation.finish

    def remember(op: Operation) -> None:
        finish(op)
        images.extend(op.transaction.images)

    monkeypatch.setattr(Operation, "finish", remember)
    return images


@pytest.mark.parametrize("laid", ["sqlite"], indirect=True)
@pytest.mark.parametrize(("at", "case"), list(enumerate(CASES)), ids=[str(one) for one in CASES])
def test_a_text_is_kept_plain_or_refused_in_words(land: Land, written: list[Image], at: int, case: Case) -> None:
    case.before(land)
    entry = case.entry(land)
    for path in texts_in(entry):
        for text in TEXTS[at % EVERY :: EVERY]:
            written.clear()
            try:
                case.function.rehearse(land.store, put(entry, path, text), by=ADA)
            except StoreUnavailable:
                raise
            except FarmopsError as error:
                words = str(error)
                assert plain(words.replace("\n", " ")) == words.replace("\n", " "), f"{path} {text[:40]!r}: {words!r}"
                assert len(words) < 10 * LONGEST_NOTE, f"{path} {text[:40]!r}: {words[:300]!r}"
                continue
            for image in written:
                for name, value in (image.after or {}).items():
                    if isinstance(value, str):
                        assert plain(value) == value, f"{path} {text[:40]!r} is kept in {image.table}.{name}"


def test_every_kind_of_entry_with_a_text_is_tried(land: Land) -> None:
    assert sum(1 for one in CASES if one.before is CASES[0].before and any(texts_in(one.entry(land)))) > 20
