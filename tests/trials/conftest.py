"""Trials and a library to hold them beside."""

from __future__ import annotations

import pytest

from qa.errors import Place
from qa.knowledge.facts import Dose, Reading, Trial
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.measures.parse import parse_amount
from qa.measures.resolve import resolve
from qa.settings import shipped

HERE = Place("a test", 1)


@pytest.fixture(scope="session")
def invented() -> Library:
    """The starter knowledge with the demo's invented trials."""
    return load_knowledge(shipped("knowledge"), invented=True)[0]


def made(
    readings: dict[str, list[float]],
    unit: str = "mm",
    resolution: float = 0.1,
    doses: tuple[tuple[str, str, str], ...] = (),
    constant: tuple[str, ...] = ("oven",),
    **more: object,
) -> Trial:
    """A trial of one quantity; doses are level, item, amount."""
    own = tuple(
        Reading(level, "height", value, unit, resolution, HERE)
        for level, values in readings.items()
        for value in values
    )
    given = tuple(
        Dose(level, item, amount, resolve(parse_amount(amount), None)[0], HERE) for level, item, amount in doses
    )
    values = {"id": "a-trial", "title": "A trial", "question": "Well?", "factor": "binder", "dose": "", "gives": (),
              "observations": (), "date": "", "episode": "", "invented": False, "place": HERE}  # fmt: skip
    return Trial(**(values | {"levels": tuple(readings), "readings": own, "doses": given, "constant": constant} | more))
