"""Sums as viewers ask for them: the figure lies inside the published range that stands beside each question."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

from qa.errors import Missing
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.measures.parse import find_amounts
from qa.records import Ask
from qa.stages.compute import Asked, figure_of

ROOT = Path(__file__).parents[2]
with (ROOT / "tests" / "cases" / "comment_sums.tsv").open(encoding="utf-8", newline="") as table:
    CASES = list(csv.DictReader(table, delimiter="\t"))


@cache
def library() -> Library:
    return load_knowledge(ROOT / "knowledge")[0]


@pytest.mark.parametrize("case", CASES, ids=[f"{case['text']} ({case['recipe']})" for case in CASES])
def test_the_figure_lies_in_the_published_range(case: dict[str, str]) -> None:
    """Value and unit are those of the table's source, read from the comment's own words."""
    text = case["text"]
    items = tuple(item for item in case["items"].split(",") if item)
    ask = Ask("convert", 0, len(text), text, items, tuple(find_amounts(text)), region=case["region"], context=text)
    found = figure_of(case["recipe"], Asked(ask, library(), case["region"]))
    assert found.unit == case["unit"]
    assert float(case["low"]) - 1e-6 <= found.value <= float(case["high"]) + 1e-6, found.working


@pytest.mark.parametrize(
    ("text", "lacks"),
    [
        ("how many grams is 3 tablespoons", "missing_ingredient"),
        ("200 g of anything, how many cups is that", "missing_ingredient"),
        ("one cup in grams??", "missing_ingredient"),
    ],
)
def test_a_measure_of_nothing_in_particular_is_asked_about(text: str, lacks: str) -> None:
    """There is no default density: without an ingredient there is no sum."""
    asked = Asked(Ask("convert", 0, len(text), text, (), tuple(find_amounts(text)), context=text), library(), "")
    with pytest.raises(Missing) as lack:
        figure_of("turned 1", asked)
    assert lack.value.reason == lacks
