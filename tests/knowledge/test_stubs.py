"""Files to begin with can be read at once, whatever people typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import NoKnowledge
from qa.knowledge.load import load_knowledge
from qa.knowledge.nodes import read_yaml
from qa.knowledge.stubs import answer_stub, facts_from_table, id_of, ingredient_stub, names_stub

NASTY = 'is "tiger: nut" #1 {{ 7*7 }} {% evil %} \\ or\n---\nid: not? & *x'


def test_an_ingredient_stub_reads_without_a_problem(folder: Path) -> None:
    """It is a whole file; only its contents are missing."""
    (folder / "ingredients/tigernut.yaml").write_text(
        ingredient_stub("tigernut", ["does it work with tigernut", NASTY])
    )
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert library.ingredient("tigernut").name == "tigernut"


def test_an_answer_stub_asks_for_the_rest(folder: Path) -> None:
    """The phrasings are kept letter by letter; what is missing is said."""
    asked = ["does moonflour glow", "moonflour glow??", "why is it glowing", "glow or no glow", "glowing loaf"]
    (folder / "answers/moon-glow.md").write_text(answer_stub("moon glow", ["colour"], ["moonflour"], asked))
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert library.answer("moon-glow").phrasings == tuple(asked)


@given(
    st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=80), min_size=1, max_size=5)
)
def test_what_people_type_stays_text(typed: list[str]) -> None:
    """No key, anchor or second document comes out of it."""
    for stub in (ingredient_stub(typed[0], typed), answer_stub("x", ["other"], [], typed).split("\n---\n")[0],
                 "names:\n" + names_stub("flax", dict.fromkeys(typed, 1))):  # fmt: skip
        nodes, problems = read_yaml(stub, "stub")
        assert problems == []
        assert len(nodes) == 1
        assert nodes[0].kind == "mapping"


def test_nasty_phrasings_come_back_as_they_are() -> None:
    """But for line breaks."""
    front = answer_stub("x", ["other"], [], [NASTY]).split("\n---\n")[0]
    (node,), _ = read_yaml(front, "stub")
    phrasings = node.get("phrasings")
    assert phrasings is not None
    assert phrasings.items[0].text == " ".join(NASTY.split())


def test_a_table_becomes_facts(folder: Path) -> None:
    """The digits of the table are kept, empty cells give nothing, and the lines read as facts."""
    rows = [{"item": "starflour.white", "protein_g": "0.30", "fat_g": "", "energy_kcal": "350", "where": "row 7"}]
    found, problems = facts_from_table(rows, "moon-tables", {})
    assert problems == []
    path = folder / "ingredients/starflour.yaml"
    path.write_text(path.read_text() + found["starflour.white"])
    library, problems_then = load_knowledge(folder)
    assert problems_then == ()
    protein = library.fact("starflour.white.protein.moon-tables")
    assert protein.measure is not None
    assert protein.measure.spread == pytest.approx(0.00288675, abs=1e-6)  # half of the last digit, 0.005, over √3
    assert protein.where == "row 7"
    assert library.facts("starflour.white", "fat") == ()


def test_columns_of_other_names_can_be_named() -> None:
    """By property."""
    rows = [{"food": "starflour", "Protein (g)": "7.1"}]
    found, _ = facts_from_table(rows, "moon-tables", {"item": "food", "protein": "Protein (g)"})
    assert found == {"starflour": "  - {property: protein, value: 7.1 g/100 g, source: moon-tables}\n"}
    with pytest.raises(NoKnowledge, match="did you mean 'protein'"):
        facts_from_table(rows, "moon-tables", {"protien": "Protein (g)"})


def test_rows_that_cannot_be_taken_are_said_with_their_line() -> None:
    """A trace is no number, and a food without an id has no file."""
    rows = [{"item": "starflour", "protein_g": "tr"}, {"item": "Star Flour", "protein_g": "1"}]
    found, problems = facts_from_table(rows, "moon-tables", {}, "table.csv")
    assert found == {}
    assert [(p.place.file, p.place.line) for p in problems] == [("table.csv", 2), ("table.csv", 3)]


def test_an_id_is_made_from_any_name() -> None:
    """Even from one without a letter."""
    assert [id_of(name) for name in ("Tigernut Flour!", "ñame", "面粉")] == ["tigernut-flour", "name", "unnamed"]
