"""The forest plot for export holds every source, its value, the unit and the verdict."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from qa.errors import LevelspoonError
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.knowledge.told import compared
from qa.outside.plots import forest_plot, readings_plot
from qa.settings import shipped
from qa.trials.readings import read


@pytest.fixture(scope="module")
def library() -> Library:
    """The starter knowledge."""
    return load_knowledge(shipped("knowledge"))[0]


def test_an_svg_holds_every_source_in_text(library: Library) -> None:
    """Text stays text, so that it can be read aloud, searched and checked."""
    told = compared("rice.flour", library)
    drawn = forest_plot("rice flour", told).decode()
    root = ET.fromstring(drawn)  # noqa: S314 - just made
    texts = {"".join(node.itertext()).strip() for node in root.iter("{http://www.w3.org/2000/svg}text")}
    assert told
    for one in told:
        assert any(one.property in text and one.verdict in text for text in texts)
        for row in one.rows:
            assert any(text.startswith(f"{row.label}: ") for text in texts), row.label
    assert "g per cup" in texts
    assert "%" in texts


def test_values_lie_where_they_should(library: Library) -> None:
    """The markers of one panel keep the proportions of the values."""
    one = next(a for a in compared("rice.flour", library) if a.property == "bulk density")
    drawn = forest_plot("rice flour", [one]).decode()
    group = re.search(r'<g id="LineCollection_1">(.*?)</g>', drawn, re.DOTALL)
    assert group
    spans = [tuple(map(float, pair)) for pair in re.findall(r"M ([\d.]+) [\d.]+ \nL ([\d.]+) ", group.group(1))]
    rows = one.rows[::-1]
    assert len(spans) == len(rows)
    scale = (spans[0][1] - spans[0][0]) / (rows[0].high - rows[0].low)
    for (left, right), row in zip(spans, rows, strict=True):
        assert (right - left) / scale == pytest.approx(row.high - row.low, rel=1e-3)
        assert (left - spans[0][0]) / scale == pytest.approx(row.low - rows[0].low, rel=1e-3, abs=1e-2)


def test_the_same_twice_and_a_png(library: Library) -> None:
    """No date and no random names within; a PNG begins as PNG files do (ISO/IEC 15948, 5.2)."""
    told = compared("rice.flour", library)
    assert forest_plot("rice flour", told) == forest_plot("rice flour", told)
    assert forest_plot("rice flour", told, "png").startswith(b"\x89PNG\r\n\x1a\n")


def test_what_cannot_be_drawn_is_said(library: Library) -> None:
    """Nothing to compare, or a form nobody draws."""
    with pytest.raises(LevelspoonError, match="nothing to compare"):
        forest_plot("water", [])
    with pytest.raises(LevelspoonError, match=r"name the file \.svg or \.png"):
        forest_plot("rice flour", compared("rice.flour", library), "pdf")


def test_readings_of_a_trial_lie_beside_their_means() -> None:
    """Every level is named with its mean; a single reading is called so and has no range."""
    invented = load_knowledge(shipped("knowledge"), invented=True)[0]
    quantities = read(invented.trial("psyllium-spoons"))
    drawn = readings_plot("Spoons", quantities).decode()
    assert drawn == readings_plot("Spoons", quantities).decode()
    for quantity in quantities:
        for level in quantity.levels:
            single = " (a single reading)" if level.single else ""
            assert f"{level.name}: {level.figure.text}{single}" in drawn
    assert drawn.count("LineCollection_") == sum(not level.single for one in quantities for level in one.levels)
    assert readings_plot("Spoons", quantities, "png").startswith(b"\x89PNG\r\n\x1a\n")
    with pytest.raises(LevelspoonError, match="nothing to draw"):
        readings_plot("Spoons", ())
