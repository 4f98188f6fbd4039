"""A composition table becomes facts, digit by digit; what cannot be taken is said with its line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from qa.errors import LevelspoonError, UnreadableInput
from qa.knowledge.load import load_knowledge, load_table
from qa.knowledge.stubs import with_facts
from qa.knowledge.tables import by_ingredient, facts_from_table
from qa.settings import shipped


def test_a_table_becomes_facts(folder: Path) -> None:
    """The digits of the table are kept, empty cells give nothing, and the lines read as facts."""
    rows = [{"item": "starflour.white", "protein_g": "0.30", "fat_g": "", "energy_kcal": "350", "where": 'row "7"'}]
    found, problems = facts_from_table(rows, "moon-tables", {})
    assert problems == []
    path = folder / "ingredients/starflour.yaml"
    path.write_text(with_facts(path.read_text(), by_ingredient(found)["starflour"])[0])
    library, problems_then = load_knowledge(folder)
    assert problems_then == ()
    protein = library.fact("starflour.white.protein.moon-tables")
    assert protein.measure is not None
    assert protein.measure.spread == pytest.approx(0.00288675, abs=1e-6)  # half of the last digit, 0.005, over √3
    assert protein.where == 'row "7"'
    assert library.facts("starflour.white", "fat") == ()


def test_a_table_read_again_gives_what_the_knowledge_holds(rows: Callable[[str], list[dict[str, str]]]) -> None:
    """Every figure of USDA SR 26 that was put in by hand equals what the import makes of the same row."""
    table = rows("usda_composition.csv")
    library = load_knowledge(shipped("knowledge"))[0]
    held = {
        fact.where.removeprefix("NDB ").partition(",")[0].lstrip("0"): fact.item
        for fact in library.knowledge.facts
        if fact.source == "usda-sr26" and fact.where.endswith(", per 100 g")
    }
    known = [row | {"item": held[key]} for row in table if (key := row["ndb_no"].lstrip("0")) in held]
    found, _ = facts_from_table(known, "usda-sr26", {})
    by_id = {fact.id: fact for fact in library.knowledge.facts}
    compared = 0
    for fact in found:
        if fact.id in by_id and (own := by_id[fact.id].measure) is not None:
            written = fact.line.partition("value: ")[2].partition(",")[0].partition(" ")[0]
            shown = own.value * 100 if own.unit == "kcal/g" else own.value
            assert float(written) == pytest.approx(shown), fact.id
            compared += 1
    assert compared > 200


def test_columns_of_other_names_can_be_named() -> None:
    """By property."""
    rows = [{"food": "starflour", "Protein (g)": "7.1"}]
    (found,), _ = facts_from_table(rows, "moon-tables", {"item": "food", "protein": "Protein (g)"})
    assert found.id == "starflour.protein.moon-tables"
    assert found.line == "  - {property: protein, value: 7.1 g/100 g, source: moon-tables}\n"


@pytest.mark.parametrize(("columns", "says"), [
    ({"item": "food", "protien": "Protein (g)"}, "did you mean 'protein'"),
    ({"item": "food", "protein": "Protein"}, r"did you mean 'Protein \(g\)'"),
    ({"item": "Food name"}, "no column 'Food name'"),
])  # fmt: skip
def test_a_wrong_column_is_refused(columns: dict[str, str], says: str) -> None:
    """Rather than leaving it out in silence."""
    with pytest.raises(LevelspoonError, match=says):
        facts_from_table([{"food": "starflour", "Protein (g)": "7.1"}], "moon-tables", columns)


def test_rows_that_cannot_be_taken_are_said_with_their_line() -> None:
    """A trace is no number, a food without an id has no file, and one food has one row."""
    rows = [
        {"item": "starflour", "protein_g": "tr"},
        {"item": "Star Flour", "protein_g": "1"},
        {"item": "moonflour", "protein_g": "1"},
        {"item": "moonflour", "protein_g": "2"},
    ]
    found, problems = facts_from_table(rows, "moon-tables", {}, "table.csv")
    assert [fact.line for fact in found] == ["  - {property: protein, value: 1 g/100 g, source: moon-tables}\n"]
    assert [(p.place.file, p.place.line) for p in problems] == [("table.csv", 2), ("table.csv", 3), ("table.csv", 5)]


def test_one_property_is_taken_once() -> None:
    """A table that gives energy in two units gives one fact; a column the caller names leads."""
    rows = [{"item": "x", "energy_kcal": "100", "energy_kj": "418", "fat_g": "1", "Fat, crude": "2"}]
    found, problems = facts_from_table(rows, "s", {"fat": "Fat, crude"})
    assert problems == []
    assert sorted(fact.line.partition("value: ")[2].partition(",")[0] for fact in found) == [
        "100 kcal/100 g", "2 g/100 g",
    ]  # fmt: skip


@pytest.mark.parametrize(("text", "row"), [
    ("item,fat_g\nx,1.5\n", {"item": "x", "fat_g": "1.5"}),
    ("\ufeffitem;fat_g;where\nx;1,5;a, b 1,5 c\n", {"item": "x", "fat_g": "1.5", "where": "a, b 1,5 c"}),
    ("item\tfat_g\r\nx\t1.5\r\n", {"item": "x", "fat_g": "1.5"}),
    ('item,where\nx,"two\nlines, quoted"\n', {"item": "x", "where": "two\nlines, quoted"}),
    ("item,fat_g\nx\n", {"item": "x", "fat_g": ""}),
    ("item,fat_g\nx,1,too many\n", {"item": "x", "fat_g": "1"}),
])  # fmt: skip
def test_tables_are_read_as_people_save_them(tmp_path: Path, text: str, row: dict[str, str]) -> None:
    """Commas, semicolons with decimal commas, tabs, a byte order mark, short and long rows."""
    path = tmp_path / "t.csv"
    path.write_bytes(text.encode())
    assert load_table(path) == [row]


@pytest.mark.parametrize("content", [b"", b"one line\n", b"no,rows\n", b"\xff\xfe\x00", b"a\nb\n"])
def test_what_is_no_table_is_refused(tmp_path: Path, content: bytes) -> None:
    """One line that says what to do."""
    path = tmp_path / "t.csv"
    path.write_bytes(content)
    with pytest.raises(UnreadableInput):
        load_table(path)
