"""Whose spoon, which ounce, how much a pinch."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.measures.parse import Amount, find_amounts
from qa.measures.resolve import HOUSEHOLD, resolve


def of(text):
    """The first amount of a text."""
    return find_amounts(text)[0]


@pytest.mark.parametrize(
    ("text", "region", "unit", "assumed"),
    [
        ("2 tbsp", "AU", "au_tbsp", ""),
        ("2 tbsp", "UK", "metric_tbsp", ""),
        ("1 cup", "JP", "jp_cup", ""),
        ("1 cup", None, "us_cup", "taking a US cup"),
        ("1 au tbsp", None, "au_tbsp", ""),
        ("1 pint", "UK", "imperial_pint", ""),
        ("8 fl oz", None, "us_fl_oz", "taking a US fluid ounce"),
        ("30 g", None, "g", ""),
        ("350F", None, "degF", ""),
    ],
)
def test_a_measure_by_region(text, region, unit, assumed):
    """The region decides; where it is unknown the American measure is taken, and that is said."""
    measure, said = resolve(of(text), region)
    assert (measure.unit, said) == (unit, assumed)


def test_ounces_of_a_liquid_are_asked_about():
    """Eight ounces of milk could be either: what was taken is said."""
    assert resolve(of("8 oz"), "US", liquid=True)[1] == "taking ounces of weight, not fluid ounces"
    assert resolve(of("8 oz"), "US")[1] == ""


def test_a_range_has_the_spread_of_a_rectangle():
    """2 to 3 tbsp is 2.5 with 0.5/√3 (GUM 4.3.7), and its shown range holds both ends."""
    measure, _ = resolve(of("2 to 3 tbsp"), "US")
    assert (measure.value, measure.spread) == (2.5, pytest.approx(0.288675, abs=1e-6))
    assert measure.low <= 2
    assert measure.high >= 3


def test_a_stick_is_a_quarter_pound(rows):
    """USDA SR26 prints 113 g for a stick of salted and of unsalted butter."""
    printed = [
        float(r["grams"])
        for r in rows("household_weights.csv")
        if r["measure"] == "stick" and r["ndb_no"] in ("01001", "01145")
    ]
    measure, _ = resolve(of("a stick of butter"), "US")
    assert printed == [113.0, 113.0]
    assert round(measure.value) == 113
    assert measure.facts == ("rule:US-BUTTER-STICK",)


@pytest.mark.parametrize("name", ["pinch", "dash", "smidgen", "drop"])
def test_vague_measures_are_ranges(name):
    """A pinch is no number: its range is shown, and grows with the count."""
    rule = HOUSEHOLD[name]
    one, _ = resolve(Amount(1.0, 1.0, 1.0, name), None)
    two, _ = resolve(Amount(2.0, 2.0, 2.0, name), None)
    assert one.to(rule.unit).low <= rule.low < rule.high <= one.to(rule.unit).high
    assert two.value == pytest.approx(2 * one.value)


@pytest.mark.parametrize(
    "text", ["a packet of yeast", "a can of milk", "2 spoons", "350 degrees", "2 eggs", "3 handfuls"]
)
def test_what_only_the_writer_knows_is_asked_back(text):
    """A packet, a tin, a spoon of no size: one line that says what to ask."""
    with pytest.raises(InvalidMeasure) as fault:
        resolve(of(text), "US")
    assert fault.value.remedy


@pytest.mark.parametrize("amount", [
    Amount(9e6, 9e6, 9e6, "us_cup"), Amount(2e6, 2e6, 2e6, "kg"), Amount(-1.0, -1.0, -1.0, "g"),
    Amount(float("nan"), 0.0, 0.0, "g"), Amount(1.0, 2.0, 1.0, "g"),
])  # fmt: skip
def test_absurd_amounts_are_refused(amount):
    """More than a kitchen holds, less than nothing, or no number."""
    with pytest.raises(InvalidMeasure):
        resolve(amount, "US")


@given(st.floats(0.0, 100.0), st.floats(0.0, 100.0), st.sampled_from(["tbsp", "cup", "g"]))
def test_a_resolved_range_contains_its_ends(a, b, unit):
    """The shown range of a measure made from a range holds both of its ends."""
    low, high = min(a, b), max(a, b)
    measure, _ = resolve(Amount((low + high) / 2, low, high, unit), "US")
    assert measure.low <= low + 1e-9
    assert measure.high >= high - 1e-9
