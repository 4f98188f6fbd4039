"""Values with spread: the GUM's worked examples, and agreement with the uncertainties library."""

from __future__ import annotations

import json
import math
import pickle
from statistics import fmean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import correlated_values_norm, ufloat, umath

from qa.errors import InvalidMeasure
from qa.measures.measure import Measure, facts_of
from qa.measures.resolve import rectangular
from qa.measures.units import registry


def example(rows, key):
    """Inputs, expected results and tolerance of a worked example."""
    row = next(row for row in rows("spreads.csv") if row["id"] == key)
    return json.loads(row["inputs_json"]), json.loads(row["expected_json"]), float(row["tolerance"])


def added(parts):
    """The sum of measures."""
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    return total


def test_gum_root_sum_of_squares(rows):
    """JCGM 100:2008, 5.1.2."""
    inputs, expected, tolerance = example(rows, "gum-rss-kitchen")
    total = added([Measure.of(1.0, "g", spread=u) for u in inputs["u"]])
    assert total.spread == pytest.approx(expected["uc"], abs=tolerance)


def test_gum_rectangle(rows):
    """JCGM 100:2008, 4.3.7: a label printed 12 g to the nearest gram."""
    inputs, expected, tolerance = example(rows, "gum-rect")
    half = inputs["half_width"]
    assert rectangular(12 - half, 12 + half) == pytest.approx(expected["u"], abs=tolerance)


def test_gum_end_gauge(rows):
    """JCGM 100:2008, H.1: 32 nm from four components. Degrees of freedom are no business of these sums."""
    inputs, expected, tolerance = example(rows, "gum-h1")
    total = added([Measure.of(0.0, "mm", spread=u) for u in inputs["u_nm"]])
    assert total.spread == pytest.approx(expected["uc_nm"], abs=tolerance)


def test_gum_resistance_from_correlated_readings(rows):
    """JCGM 100:2008, H.2: six printed results from five paired readings, correlations kept through our arithmetic."""
    inputs, expected, tolerance = example(rows, "gum-h2")
    columns = [inputs["V_volt"], inputs["I_amp"], inputs["phi_rad"]]
    means = [fmean(column) for column in columns]
    spreads = [stdev(column) / math.sqrt(len(column)) for column in columns]
    scaled = [[(x - m) / s for x in c] for c, m, s in zip(columns, means, spreads, strict=True)]
    matrix = [[sum(a * b for a, b in zip(p, q, strict=True)) / 20 for q in scaled] for p in scaled]
    volts, amps, phase = correlated_values_norm(list(zip(means, spreads, strict=True)), matrix)
    measured = {name: Measure(registry().Quantity(n, "dimensionless")) for name, n in
                {"V": volts, "I": amps, "cos": umath.cos(phase), "sin": umath.sin(phase)}.items()}  # fmt: skip
    impedance = measured["V"] / measured["I"]
    found = {"Z": impedance, "R": impedance * measured["cos"], "X": impedance * measured["sin"]}
    for name, value in found.items():
        assert value.value == pytest.approx(expected[name], abs=tolerance)
        assert value.spread == pytest.approx(expected[f"u_{name}"], abs=tolerance)


def test_one_fact_used_twice_cancels():
    """Twice the amount over once the amount is exactly 2; with two separate facts it is not."""
    density = Measure.of(7.0, "g/us_tbsp", spread=0.29, fact="a")
    other = Measure.of(7.0, "g/us_tbsp", spread=0.29, fact="b")
    once, twice = Measure.exact(1.0, "us_tbsp") * density, Measure.exact(2.0, "us_tbsp") * density
    assert ((twice / once).value, (twice / once).spread) == (2.0, 0.0)
    assert (Measure.exact(2.0, "us_tbsp") * other / once).spread > 0.05
    assert facts_of([once, Measure.exact(1.0, "us_tbsp") * other]) == ("a", "b")


numbers = st.floats(0.1, 1e4)
spreads = st.floats(1e-6, 0.3)  # the reference library warns of a spread of exactly zero


@given(numbers, spreads, numbers, spreads)
def test_propagation_agrees_with_uncertainties(x, rx, y, ry):
    """Product, quotient and sum have the values and spreads of the reference library."""
    ours = Measure.of(x, "g", spread=rx * x), Measure.of(y, "g", spread=ry * y)
    theirs = ufloat(x, rx * x), ufloat(y, ry * y)
    for mine, reference in (
        (ours[0] * ours[1], theirs[0] * theirs[1]),
        (ours[0] / ours[1], theirs[0] / theirs[1]),
        (ours[0] + ours[1], theirs[0] + theirs[1]),
        (ours[0] - ours[1], theirs[0] - theirs[1]),
    ):
        assert mine.value == pytest.approx(reference.n, rel=1e-9, abs=1e-9)
        assert mine.spread == pytest.approx(reference.s, rel=1e-9, abs=1e-9)


@given(numbers, spreads, st.sampled_from(["us_cup", "au_tbsp", "metric_tsp", "L", "imperial_pint", "us_label_cup"]))
def test_there_and_back(x, relative, unit):
    """Converting and converting back changes neither value nor spread."""
    measure = Measure.of(x, "mL", spread=relative * x)
    back = measure.to(unit).to("mL")
    assert back.value == pytest.approx(measure.value, rel=1e-12)
    assert back.spread == pytest.approx(measure.spread, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(("value", "spread"), [(math.nan, 0.0), (math.inf, 0.0), (1.0, -0.1), (1.0, math.nan)])
def test_nonsense_is_no_measure(value, spread):
    """NaN, infinity and a negative spread are refused when the measure is made."""
    with pytest.raises(InvalidMeasure):
        Measure.of(value, "g", spread=spread)


def test_division_by_nothing_is_one_clear_line():
    """No ZeroDivisionError reaches a reader."""
    with pytest.raises(InvalidMeasure, match="division by nothing"):
        Measure.exact(1.0, "g") / Measure.exact(0.0, "g")


def test_measures_that_were_kept_are_the_same_and_share_their_facts():
    density = Measure.of(7, "g/us_tbsp", spread=0.29, fact="a density")
    kept, twice = pickle.loads(pickle.dumps((density, 2.0 * density)))  # noqa: S301 - our own
    assert (kept.value, kept.spread, kept.unit, kept.facts) == (7, 0.29, density.unit, ("a density",))
    assert (twice / kept).spread == 0
    assert kept.to("g/mL").value == density.to("g/mL").value
