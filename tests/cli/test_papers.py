"""`farmops papers`: filed with their last day, renewed, and called for in time."""

from __future__ import annotations

from tests.cli.hand import Hand


def test_a_paper_is_filed_renewed_and_listed(farm: Hand) -> None:
    assert farm("papers", "list").err.startswith("No paper here.")
    filed = ["permit", "fish permit", "--from", "2026-01-01", "--until", "31 oct", "--number", "F-118"]
    assert farm("papers", "add", *filed).err == "Permit fish permit: good from 2026-01-01 until 2026-10-31; number 1.\n"
    farm("papers", "add", "scale-seal", "stall scale", "--unit", "wren")
    assert [line.split()[-1] for line in farm("papers", "list").lines] == ["stands", "out", "good"]
    renewed = farm("papers", "renew", "1", "--until", "2027-10-31", "--json").data
    assert (renewed["from"], renewed["until"], renewed["number"]) == ("2026-11-01", "2027-10-31", "F-118")
    listed = farm("papers", "list", "--json").data["papers"]
    assert [(one["id"], one["stands"]) for one in listed] == [(3, "to come"), (2, "good"), (1, "renewed")]
    assert farm("papers", "list", "--on", "2027-11-01", "--json").data["papers"][0]["stands"] == "over"
    changed = farm(
        "papers", "edit", "2", "--until", "30 jun", "--unit", "-", "--issued-by", "the agency", "--json"
    ).data
    assert (changed["until"], changed["unit"], changed["issued_by"]) == ("2027-06-30", None, "the agency")
    assert farm("papers", "remove", "3").err == "Permit fish permit removed. farmops undo brings it back.\n"
    assert "before it begins" in farm.refused(
        "papers", "add", "permit", "x", "--from", "2026-05-01", "--until", "2026-04-01"
    )


def test_a_chore_calls_for_the_next_one_in_time(bare: Hand) -> None:
    bare("chores", "add", "Renew papers", "--every", "when paper running out", "--class", "paperwork")
    bare("papers", "add", "insurance", "liability", "--from", "2026-01-01", "--until", "2026-11-14")
    assert "Renew papers" not in bare("chores").out
    assert "Renew papers" in bare("chores", "--on", "2026-10-15").out
    bare("papers", "renew", "1", "--until", "2027-11-14")
    assert "Renew papers" not in bare("chores", "--on", "2026-10-15").out
