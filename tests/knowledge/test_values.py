"""The syntax of values: numbers, spreads, units, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.knowledge.readings import mean_and_spread
from qa.knowledge.values import read_value

UNITS = ("g/us_tbsp", "g/us_cup", "g/mL", "%", "g", "min", "degC", "kcal/g", "")

CASES = {
    # written: value, spread, unit. A printed 7 stands for 6.5 to 7.5: half width 0.5, spread 0.5/√3 (GUM 4.3.7).
    "7 g/us_tbsp": (7, 0.5 / math.sqrt(3), "g/us_tbsp"),
    "7.0 g/us_tbsp": (7, 0.05 / math.sqrt(3), "g/us_tbsp"),
    "7 ± 0.3 g/us_tbsp": (7, 0.3, "g/us_tbsp"),
    "7 +/- 0.3 g/us_tbsp": (7, 0.3, "g/us_tbsp"),
    "7±0.3g": (7, 0.3, "g"),
    "6 to 8 g/us_tbsp": (7, 1 / math.sqrt(3), "g/us_tbsp"),
    "8 %": (8, 0.5 / math.sqrt(3), "percent"),
    "11.92 g/100 g": (11.92, 0.005 / math.sqrt(3), "percent"),
    "11.92 g/100g": (11.92, 0.005 / math.sqrt(3), "percent"),
    "364 kcal/100 g": (3.64, 0.005 / math.sqrt(3), "kcal/g"),
    "29 g/0.25 us_cup": (116, 2 / math.sqrt(3), "g/us_cup"),
    "1 ± 0.1": (1, 0.1, ""),
    "0.6 to 0.7": (0.65, 0.05 / math.sqrt(3), ""),
    "-18 degC": (-18, 0.5 / math.sqrt(3), "degC"),
    "75 °C": (75, 0.5 / math.sqrt(3), "degC"),
    "10 to 30 min": (20, 10 / math.sqrt(3), "min"),
    "7 ± 0": (7, 0, ""),
}


@pytest.mark.parametrize("written", CASES)
def test_a_value_as_it_is_written(written: str) -> None:
    """Value, spread and unit come out as the table says."""
    found = read_value(written)
    assert (found.value, found.spread) == pytest.approx(CASES[written][:2], rel=1e-12)
    assert found.unit == CASES[written][2]


@pytest.mark.parametrize(("written", "resolution", "spread"), [
    ("125 g/us_cup", "5", 2.5 / math.sqrt(3)),
    ("125 g/us_cup", "0", 0.0),
    ("7 g", "0.1", 0.05 / math.sqrt(3)),
])  # fmt: skip
def test_a_resolution_replaces_the_last_digit(written: str, resolution: str, spread: float) -> None:
    """Half a step over √3."""
    assert read_value(written, resolution).spread == pytest.approx(spread)


@pytest.mark.parametrize("written", [
    "", "g", "seven g", "7 g/us_tbs", "7 g/tbsp", "8 to 6 g", "7 ± -1 g", "7 ±", "1,5 g", "7 g ± 0.3", "1e400 g",
    "nan g", "inf g", "9" * 79, "7 " + "g" * 100, "7 g/0 us_cup", "7 __import__('os')", "½ g", "6 - 8 g", "7 g; 8 g",
])  # fmt: skip
def test_what_is_no_value_is_refused_with_a_remedy(written: str) -> None:
    """One error of ours, never a traceback of somebody else's."""
    with pytest.raises(InvalidMeasure) as fault:
        read_value(written)
    assert fault.value.remedy


numbers = st.decimals(-10_000, 10_000, places=3, allow_nan=False).map(lambda d: f"{d:f}")
spreads = st.decimals(0, 1_000, places=4).map(lambda d: f"{d:f}")


@given(numbers, spreads, st.sampled_from(UNITS))
def test_a_stated_spread_is_read_as_it_stands(number: str, spread: str, unit: str) -> None:
    """Value and spread come back."""
    found = read_value(f"{number} ± {spread} {unit}")
    assert (found.value, found.spread) == (float(number), float(spread))


@given(numbers, numbers, st.sampled_from(UNITS))
def test_a_range_lies_within_two_spreads_of_its_middle(first: str, second: str, unit: str) -> None:
    """Both ends lie √3 spreads from the middle, so the shown range of ±2 spreads covers the range."""
    low, high = sorted((first, second), key=float)
    found = read_value(f"{low} to {high} {unit}")
    assert float(low) <= found.value <= float(high)
    assert found.value - math.sqrt(3) * found.spread == pytest.approx(float(low), abs=1e-9)
    assert found.value + math.sqrt(3) * found.spread == pytest.approx(float(high), abs=1e-9)


@given(st.integers(0, 10**6), st.integers(0, 4))
def test_every_digit_more_makes_the_spread_ten_times_smaller(number: int, places: int) -> None:
    """7, 7.0, 7.00 say ever more."""
    coarse = read_value(f"{number}.{'0' * places}" if places else str(number))
    fine = read_value(f"{number}.{'0' * (places + 1)}")
    assert coarse.value == fine.value
    assert coarse.spread / fine.spread == pytest.approx(10)


@given(st.text(max_size=100))
def test_any_text_gives_a_value_or_one_clear_error(text: str) -> None:
    """Nothing else is ever raised, and no value is without number."""
    try:
        found = read_value(text)
    except InvalidMeasure as fault:
        assert fault.remedy  # noqa: PT017
    else:
        assert math.isfinite(found.value)
        assert found.spread >= 0


def test_the_mean_of_readings() -> None:
    """GUM, JCGM 100:2008, 4.4.3 and table 1: twenty temperatures, mean 100.145 °C, spread of the mean 0.333 °C."""
    readings = [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
        100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ]  # fmt: skip  # the figures of the table from memory; mean and spread agree with those printed
    mean, spread = mean_and_spread(readings, 0)
    assert mean == pytest.approx(100.145, abs=5e-4)
    assert spread == pytest.approx(0.333, abs=5e-4)


def test_a_single_reading_has_the_spread_of_its_scale() -> None:
    """A scale that shows whole grams: 1/√12."""
    assert mean_and_spread([7], 1) == (7, pytest.approx(1 / math.sqrt(12)))
