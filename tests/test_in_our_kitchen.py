"""A kitchen test's result leads, says that it does, and hides no published figure."""

from __future__ import annotations

import pytest

from qa import calculator
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.settings import shipped


@pytest.fixture(scope="module")
def invented() -> Library:
    """The starter knowledge with the demo's invented trials."""
    return load_knowledge(shipped("knowledge"), invented=True)[0]


def test_weigh_shows_both(invented: Library) -> None:
    """The invented test weighed 5.7 to 6.3 g a spoon, 5.98 g on average; published figures stand beside it."""
    found = calculator.weigh("2 us tbsp psyllium husk", invented, "")
    assert found["text"] == "12 g"  # 2 × 5.98 g
    assert found["working"].startswith("measured in our kitchen (invented): ")
    assert "psyllium.husk.bulk-density.psyllium-spoons" in found["facts"]
    beside = {fact for other in found["others"] for fact in other["facts"]}
    known = {fact.id for fact in invented.density("psyllium.husk") if fact.tier == "published"}
    assert known
    assert known <= beside
    assert found["disagreement"]


def test_without_a_trial_nothing_claims_our_kitchen() -> None:
    """The starter knowledge of a real channel holds no invented reading."""
    real = load_knowledge(shipped("knowledge"))[0]
    found = calculator.weigh("2 us tbsp psyllium husk", real, "")
    assert "our kitchen" not in found["working"]
    assert all(real.source_of(fact).kind != "kitchen" for fact in found["facts"])
