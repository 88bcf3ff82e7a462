"""Operation ids: UUIDv7, which sort in the order they were made."""

from __future__ import annotations

import uuid
from datetime import timedelta

import pytest

from farmops.model.errors import NotUnderstood
from farmops.model.ids import checked_id, new_id
from tests.frozen import frozen


def test_an_id_is_a_uuid_of_version_7():
    for id in (new_id() for _ in range(200)):
        made = uuid.UUID(id)
        assert str(made) == id
        assert (made.version, made.variant) == (7, uuid.RFC_4122)


def test_ids_tell_the_millisecond_they_were_made_in():
    with frozen("2026-10-14", at="16:00"):
        assert uuid.UUID(new_id()).int >> 80 == 1_791_993_600_000


def test_ids_of_later_milliseconds_sort_later():
    made = []
    with frozen("2026-10-14") as clock:
        for _ in range(50):
            made.append(new_id())
            clock.tick(timedelta(milliseconds=2))
    assert made == sorted(made)


def test_ids_of_the_same_instant_differ():
    with frozen("2026-10-14"):
        assert len({new_id() for _ in range(2000)}) == 2000


def test_an_id_has_one_spelling():
    id = new_id()
    assert checked_id(id.upper()) == checked_id(f"{{{id}}}") == checked_id(id.replace("-", "")) == id


@pytest.mark.parametrize("text", ["", "again", "01a2", "g" * 32])
def test_what_is_no_id_is_refused(text: str):
    with pytest.raises(NotUnderstood):
        checked_id(text)
