"""Oven settings, boiling points and safe core temperatures."""

from __future__ import annotations

import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.kitchen.heat import GAS_MARKS, SAFE_CORES, boiling_point, convert, dial, fan, oven, safe_cores


@pytest.fixture
def table(rows):
    """Rows of the kitchen rules by id."""
    return {row["id"]: row for row in rows("kitchen_rules.csv")}


def test_gas_marks(table):
    """Eleven marks: °F as defined, exact °C, and what the charts print on a dial."""
    marks = {key: row for key, row in table.items() if re.match(r"GAS-\d", key)}
    assert len(marks) == len(GAS_MARKS) == 11
    for key, row in marks.items():
        top, _, bottom = key.removeprefix("GAS-").partition("_")
        mark = float(top) / float(bottom or 1)
        fahrenheit, exact = map(float, re.findall(r": (\d+) F; exact ([\d.]+) C", row["statement"])[0])
        assert convert(mark, "gas_mark", "degF").measure.value == fahrenheit
        assert convert(fahrenheit, "degF", "degC").measure.value == pytest.approx(exact, abs=0.05)
        printed = [float(number) for number in re.findall(r"\d+", row["output"])]
        assert list(dial(mark)) == [printed[0], printed[-1]]
        low, high = convert(mark, "gas_mark", "degC").ends
        assert low <= exact + 0.06
        assert high >= exact - 0.06


def test_gas_mark_formula(table):
    """25 × mark + 250 °F from mark 1 up."""
    assert table["GAS-FORMULA"]["output"] == "350"
    assert all(GAS_MARKS[float(mark)][0] == 25 * mark + 250 for mark in range(1, 10))


def test_to_the_nearest_gas_mark():
    """180 °C is gas mark 4; what lies beyond the marks is refused."""
    assert convert(180.0, "degC", "gas_mark").text == "gas mark 4"
    assert convert(350.0, "degF", "gas_mark").text == "gas mark 4"
    with pytest.raises(InvalidMeasure, match="beyond"):
        convert(60.0, "degC", "gas_mark")


def test_celsius_and_fahrenheit(table):
    """180 °C is 356 °F, exactly."""
    assert convert(180.0, "degC", "degF").measure.value == float(table["TEMP-FORMULA"]["output"])
    assert convert(350.0, "degF", "degC").text == "177 °C"
    assert convert(350.0, "degF", "degC").working == ("(350 − 32) × 5/9 = 176.7 °C",)


def test_fan_ovens(table):
    """20 lower by most charts, 25 by some."""
    found = fan(180.0)
    assert table["FAN-OVEN"]["output"] == "20 to 25"
    assert (found.measure.value, found.ends) == (160.0, (155.0, 160.0))


def test_boiling_points_by_altitude(table):
    """Standard atmosphere and Antoine, to a hundredth; the published chart and the rule of thumb to half a degree."""
    derived = {key: row for key, row in table.items() if re.match(r"BOIL-\d+M", key)}
    assert len(derived) == 7
    for key, row in derived.items():
        metres = float(key.removeprefix("BOIL-").removesuffix("M"))
        assert boiling_point(metres).measure.value == pytest.approx(float(row["output"]), abs=0.006)
    charts = {key: row for key, row in table.items() if key.startswith("BOIL-PUB")}
    assert len(charts) == 5
    for key, row in charts.items():
        feet = float(key.removeprefix("BOIL-PUB-").removesuffix("FT"))
        assert boiling_point(feet, "ft").measure.value == pytest.approx(float(row["output"]), abs=0.45)
    rule = (float(table["BOIL-RULE"]["output"]) - 32) / 1.8
    assert boiling_point(5000.0, "ft").measure.value == pytest.approx(rule, abs=0.5)


def test_safe_core_temperatures_name_their_authority():
    """Egg dishes 160 °F and poultry 165 °F (USDA, FDA); the UK's 70 °C for two minutes. Each says whose it is."""
    assert {core.food: core.celsius for core in safe_cores("egg")}["egg dishes"] == 71.0
    assert {core.food: core.celsius for core in safe_cores("poultry")}["poultry"] == 74.0
    assert all(core.authority and core.source and core.rule for core in SAFE_CORES)
    with pytest.raises(InvalidMeasure, match="authority"):
        safe_cores("bread")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: convert(3000.0, "degC", "degF"),
        lambda: convert(180.0, "deg", "degC"),
        lambda: convert(12.0, "gas_mark", "degC"),
        lambda: convert(float("nan"), "degC", "degF"),
        lambda: boiling_point(90000.0),
        lambda: boiling_point(100.0, "miles"),
    ],
)
def test_what_is_no_kitchen_heat_is_refused(wrong):
    """Absurd temperatures and altitudes, unnamed scales."""
    with pytest.raises(InvalidMeasure) as fault:
        wrong()
    assert fault.value.remedy


@given(st.floats(-20.0, 380.0))
def test_there_and_back_and_pint_agrees(celsius):
    """°C to °F and back; pint gives the same."""
    fahrenheit = convert(celsius, "degC", "degF").measure.value
    assert convert(fahrenheit, "degF", "degC").measure.value == pytest.approx(celsius, abs=1e-9)
    reference = pint.get_application_registry().Quantity(celsius, "degC").to("degF").magnitude
    assert fahrenheit == pytest.approx(reference, abs=1e-9)


@given(st.floats(-400.0, 5999.0), st.floats(0.0, 1000.0))
def test_water_never_boils_hotter_higher_up(metres, more):
    """Monotone in altitude."""
    higher = min(metres + more, 6000.0)
    assert boiling_point(higher).measure.value <= boiling_point(metres).measure.value


def test_a_bare_number_of_degrees_is_read_by_where_ovens_are_set():
    """180 can only be Celsius and 350 only Fahrenheit; 250 could be either, and both are given."""
    assert [reading.scale for reading in oven(180.0, "deg")] == ["degC"]
    assert [reading.scale for reading in oven(350.0, "")] == ["degF"]
    assert [reading.scale for reading in oven(250.0, "deg")] == ["degC", "degF"]
    with pytest.raises(InvalidMeasure, match="Celsius or Fahrenheit"):
        oven(20.0, "deg")


def test_an_oven_setting_on_all_scales():
    """Gas mark 4 is 350 °F, 180 on a dial, 160 with a fan; a cool oven has no gas mark and a freezer no fan."""
    (mark,) = oven(4.0, "gas_mark")
    assert {scale: found.text for scale, found in mark.on.items()} == {
        "degC": "180 °C", "degF": "350 °F", "gas_mark": "gas mark 4",
    }  # fmt: skip
    assert mark.fan is not None
    assert mark.fan.text == "160 °C"
    (cool,) = oven(60.0, "degC")
    assert "gas_mark" not in cool.on
    assert cool.fan is None
