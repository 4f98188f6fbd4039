"""The page that says how to write knowledge: its examples are files that load."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from qa.knowledge.facts import CONDITIONS, FAMILIES
from qa.knowledge.load import load_examples, load_knowledge, load_table
from qa.knowledge.recipes import VERBS
from qa.knowledge.schema import SCHEMAS
from qa.knowledge.stubs import ingredient_stub, with_facts
from qa.knowledge.tables import COLUMNS, by_ingredient, facts_from_table
from qa.settings import shipped
from qa.workbench import parse_mapping

README = (shipped("knowledge") / "README.md").read_text(encoding="utf-8")
# What the examples point at without showing it.
BESIDE = {
    "ingredients/chia.yaml": "id: chia\nname: chia\nfamily: seed\nforms: [{id: ground, name: ground chia}]\n",
    "ingredients/wheat.yaml": "id: wheat\nname: wheat\nfamily: flour\nforms: [{id: all-purpose-flour, name: flour}]\n",
    "more-sources": "- {id: common-practice, kind: common practice, citation: Common practice}\n"
                    "- {id: editorial, kind: regulation, citation: A rule of this project}\n",
    "more-cautions": "- {id: S64, topic: seeds, text: Soak it., authority: nobody, source: editorial}\n",
}  # fmt: skip


def example(heading: str) -> str:
    """The block under a heading."""
    section = README.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0]
    found = re.search(r"```(?:yaml|markdown|json|csv)\n(.*?)```", section, re.DOTALL)
    assert found, heading
    return found.group(1)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A knowledge folder made of the page's examples."""
    files = {
        "ingredients/flax.yaml": example("An ingredient"),
        "ingredients/chia.yaml": BESIDE["ingredients/chia.yaml"],
        "ingredients/wheat.yaml": BESIDE["ingredients/wheat.yaml"],
        "sources.yaml": example("A source") + BESIDE["more-sources"],
        "cautions.yaml": example("A caution") + BESIDE["more-cautions"],
        "measures.yaml": example("A way of filling"),
        "answers/weigh-a-spoonful.md": example("A standing answer"),
        "trials/chia-or-flax-egg.yaml": example("A trial"),
        "episodes/seed-eggs.yaml": example("An episode"),
    }
    for name, text in files.items():
        path = tmp_path / "knowledge" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path / "knowledge"


def test_the_examples_load_without_a_problem(folder: Path) -> None:
    """What the page shows is what the reader reads."""
    library, problems = load_knowledge(folder, invented=True)
    assert [*map(str, problems)] == []
    counts = library.counts()
    kinds = ("facts", "swaps", "confusions", "answers", "cautions", "trials", "episodes", "measure_words")
    assert {kind: counts[kind] for kind in kinds} == {
        "facts": 2, "swaps": 1, "confusions": 1, "answers": 1, "cautions": 2,
        "trials": 1, "episodes": 1, "measure_words": 1,
    }  # fmt: skip
    spoon = library.fact("flax.ground.bulk-density.usda-sr26").measure
    assert spoon is not None
    assert (spoon.value, spoon.unit) == (7, "g/us_tbsp")
    assert len(library.answer("weigh-a-spoonful").bodies) == 2


def test_the_table_becomes_facts(folder: Path) -> None:
    """With the very columns that the page's command names; an empty row gives none."""
    path = folder.parent / "table.csv"
    path.write_text(example("A table"), encoding="utf-8")
    columns = re.search(r'--source (\S+) --columns "(.*?)"', README)
    assert columns
    found, problems = facts_from_table(load_table(path), columns[1], parse_mapping(columns[2]))
    assert problems == []
    assert [fact.id for fact in found] == [
        f"flax.ground.{name}.usda-sr26" for name in ("carbohydrate-with-fibre", "protein", "fat")
    ]
    ingredient = folder / "ingredients/flax.yaml"
    ingredient.write_text(with_facts(ingredient.read_text(), by_ingredient(found)["flax"])[0])
    library, problems = load_knowledge(folder, invented=True)
    assert [*map(str, problems)] == []
    assert library.fact("flax.ground.fat.usda-sr26").where == "12220"


def test_the_page_names_every_column_that_is_found_by_itself() -> None:
    """Or nobody would know how to head a table."""
    assert [column for column in COLUMNS if f"`{column}`" not in README] == []


def test_the_proposal_is_what_learn_writes(folder: Path) -> None:
    """Line for line as far as it is shown, and a problem until it is filled in."""
    shown = example("A proposal")
    assert ingredient_stub("tigernut flour", ["does it work with tigernut flour?"] * 2).startswith(
        shown.replace("tigernut flour?\n", "tigernut flour?\n#   does it work with tigernut flour?\n", 1)
    )
    (folder / "ingredients/tigernut-flour.yaml").write_text(shown)
    assert [p.message for p in load_knowledge(folder)[1]] == ["an ingredient has no 'family'"]


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_schema_is_named(name: str) -> None:
    """Those an editor can use."""
    assert re.search(rf"`{name}`|schema {name}\b", README)


def test_the_labelled_comment_loads(tmp_path: Path) -> None:
    """The one example line under its heading."""
    path = tmp_path / "some.jsonl"
    path.write_text(" ".join(example("Labelled comments").split()), encoding="utf-8")
    examples, problems = load_examples(path)
    assert [*map(str, problems)] == []
    assert examples[0].mentions == ((10, 14, "flax.ground"),)


@pytest.mark.parametrize("word", [*VERBS, *FAMILIES, *CONDITIONS])
def test_every_word_the_reader_knows_is_on_the_page(word: str) -> None:
    """Verbs of recipes, families, conditions."""
    assert re.search(rf"\b{re.escape(word)}\b", README)
