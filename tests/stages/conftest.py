"""The made-up knowledge of moonflour, so that no test of a stage leans on a real figure."""

from pathlib import Path

import pytest

from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge


@pytest.fixture(scope="session")
def moon() -> Library:
    library, problems = load_knowledge(Path(__file__).parents[1] / "knowledge" / "good", invented=True)
    assert problems == ()
    return library
