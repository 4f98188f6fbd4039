"""The page that says how to write knowledge: its examples are files that load."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from qa.knowledge.facts import CONDITIONS, FAMILIES
from qa.knowledge.load import load_examples, load_knowledge
from qa.knowledge.recipes import VERBS
from qa.settings import shipped

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
    found = re.search(r"```(?:yaml|markdown|json)\n(.*?)```", section, re.DOTALL)
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
