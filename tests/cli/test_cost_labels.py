"""`farmops costs labels`: sets of labels, and a year summed up by them."""

from __future__ import annotations

from pathlib import Path

from farmops.library.tables import Standing
from farmops.library.tax_labels import tax_labels
from farmops.model.costs import Category
from tests.cli.hand import Hand


def test_the_packaged_set_is_the_expense_lines_of_the_form_in_its_order() -> None:
    labels = tax_labels()
    lines = [int(one.label.split()[0].rstrip("ab")) for one in labels]
    assert lines == sorted(lines)
    assert (lines[0], lines[-1]) == (10, 32)
    assert all(one.source and one.standing is Standing.VERIFIED for one in labels)
    taken = [word for one in labels for word in one.categories]
    assert len(taken) == len(set(taken))
    assert set(taken) <= {category.value for category in Category}


def test_a_year_is_summed_up_by_label(farm: Hand) -> None:
    assert farm.refused("costs", "labels", "totals").startswith("No labels are loaded.")
    assert farm.refused("costs", "edit", "1", "--label", "Feed").startswith("No labels are loaded.")
    assert "No tax advice" in farm("costs", "labels", "load").err
    farm("costs", "add", "market fee", "30", "--category", "fees-and-permits", "--on", "2026-06-01")
    farm("costs", "add", "lime", "8", "--category", "other", "--label", "17", "--on", "2026-06-02")
    farm("costs", "add", "planks", "55", "--category", "building", "--on", "2026-06-02")
    farm("costs", "add", "old feed", "9", "--category", "feed", "--on", "2025-06-02")
    found = farm("costs", "labels", "totals", "--year", "2026", "--json").data
    paid = {one["label"].split()[0]: (one["costs"], one["paid_cents"]) for one in found["totals"] if one["costs"]}
    assert paid == {"16": (1, 4250), "17": (1, 800), "32": (1, 3000)}
    assert (found["unlabelled"], found["lasting"]) == (
        {"costs": 1, "paid_cents": 5500},
        {"costs": 1, "paid_cents": 12000},
    )
    farm("costs", "edit", "2", "--label", "14")
    assert farm("costs", "labels", "totals", "--json").data["lasting"]["costs"] == 0
    told = farm("costs", "labels", "totals", "--year", "2025")
    assert told.lines == ["Schedule F, 2025", "label costs paid", "16 Feed 1 $9.00"]
    assert farm("costs", "labels", "totals", "--year", "2020").err == "Nothing was paid in 2020.\n"


def test_a_set_of_ones_own_comes_from_a_file(farm: Hand, tmp_path: Path) -> None:
    file = tmp_path / "ours.csv"
    file.write_text("Label;Category\nFeed and salt;feed\nRent;\n", encoding="utf-8")
    assert "no category" in farm.refused("costs", "labels", "load", str(_with(tmp_path, "label,category\nx,gold\n")))
    assert "no column `label`" in farm.refused("costs", "labels", "load", str(_with(tmp_path, "a,b\n1,2\n")))
    loaded = farm("costs", "labels", "load", str(file), "--json").data
    assert (loaded["set"], loaded["labels"]) == ("ours", 2)
    farm("costs", "labels", "load")
    farm("costs", "edit", "1", "--label", "rent")
    (feed, rent) = farm("costs", "labels", "totals", "--set", "OURS", "--json").data["totals"]
    assert (feed["costs"], rent["paid_cents"]) == (0, 4250)
    assert "Loaded: Schedule F, ours." in farm.refused("costs", "labels", "totals", "--set", "theirs")
    file.write_text("label\nRent\n", encoding="utf-8")
    farm("costs", "labels", "load", str(file))
    assert [one["label"] for one in farm("costs", "labels", "list", "--json").data["labels"]][-1:] == ["Rent"]
    farm("costs", "labels", "remove", str(farm("costs", "labels", "list", "--json").data["labels"][-1]["id"]))
    assert farm("costs", "show", "1", "--json").data["label"] == "Rent"


def _with(folder: Path, text: str) -> Path:
    path = folder / "wrong.csv"
    path.write_text(text, encoding="utf-8")
    return path
