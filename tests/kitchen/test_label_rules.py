"""Rounding bands at and around every boundary, tolerances and definitions, against the published rules."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.kitchen import label_rules
from qa.kitchen.label_rules import (
    FIBRE_INSIDE,
    FIBRE_OUTSIDE,
    LESS_THAN,
    TOLERANCES,
    US_LOWER,
    US_UPPER,
    label_interval,
    printed,
    tolerated,
)

REGION = {"US": "US", "EU": "EU", "UK": "UK", "Canada": "CA", "Australia/New Zealand": "AU", "South Africa": "ZA",
          "Japan": "JP"}  # fmt: skip
NUTRIENT = {
    "total carbohydrate": "carbohydrate", "dietary fibre": "fibre", "total sugars": "sugars", "total fat": "fat",
    "saturated fat and trans fat": "saturates", "polyols": "sugar alcohol",
}  # fmt: skip
# Conventions and definitions that are tested by name below, or that are no sum of a kitchen (nitrogen to protein).
ELSEWHERE = {"US-TIE", "EU-SALT-DEF", "EU-PROT-DEF", "EU-SUGAR-DEF", "AU-SUGAR-DEF", "US-NET-DEF", "US-TOL-UPPER",
             "US-TOL-LOWER"}  # fmt: skip
TINY = 1e-6


def nutrient_of(row):
    """Our word for a nutrient of the table."""
    return NUTRIENT.get(row["nutrient"], row["nutrient"])


def band_of(row):
    """The band of our tables with the row's id, or None."""
    bands = label_rules._LABELS[REGION[row["region"]]].get(nutrient_of(row), ())
    return next((band for band in bands if band.rule == row["rule_id"]), None)


def is_band(row):
    """Whether a row is a rounding band."""
    return row["basis"].startswith("per ") and row["region"] != "Australia/New Zealand"


def test_every_band_is_in_our_tables(rows):
    """Bounds, step and id of all rounding rows; FDA 2009, EU guidance 2012, UK 2017, Canada B.01.401 (memory)."""
    faults = []
    for row in filter(is_band, rows("label_rules.csv")):
        band = band_of(row)
        # A zero band carries no step; the LT1 bands print 1 or words.
        step = Fraction(row["step"] or 0)
        upper = Fraction(row["upper"]) if row["upper"] else None
        if band is None or (band.low, band.high, band.step) != (Fraction(row["lower"]), upper, step):
            faults.append(row["rule_id"])
    assert not faults


def test_nothing_of_the_table_is_left_out(rows):
    """Each row is a band, a wording of Australia and New Zealand, a definition, a tolerance, or named above."""
    words = {rule for rule, _, _ in LESS_THAN.values()}
    definitions = {rule.removeprefix("rule:") for rule in [*FIBRE_INSIDE.values(), *FIBRE_OUTSIDE.values()]}
    tolerances = {band.rule for bands in TOLERANCES.values() for band in bands}
    left = [r["rule_id"] for r in rows("label_rules.csv")
            if not is_band(r) and r["rule_id"] not in words | definitions | tolerances | ELSEWHERE]  # fmt: skip
    assert not left


def test_boundaries_belong_where_the_rule_puts_them(rows):
    """At each bound and a millionth either side, what is printed comes from the band that holds that amount."""
    faults = []
    for row in filter(is_band, rows("label_rules.csv")):
        region, nutrient = REGION[row["region"]], nutrient_of(row)
        for edge in (row["lower"], row["upper"]):
            for amount in (float(edge or 0) - TINY, float(edge or 0), float(edge or 0) + TINY):
                if edge and amount >= 0:
                    for figure in printed(round(amount, 9), nutrient, region):
                        interval = label_interval(figure, nutrient, region)
                        if not interval.holds(round(amount, 9)):
                            faults.append((row["rule_id"], amount, figure, interval.text))
    assert not faults


@pytest.mark.parametrize(
    ("declared", "nutrient", "region", "text"),
    [
        # Stated in the notes of the table.
        ("12", "carbohydrate", "US", "11.5 ≤ x < 12.5"),
        ("1", "carbohydrate", "US", "0.5 ≤ x < 1.5"),
        ("0", "carbohydrate", "US", "0 ≤ x < 0.5"),
        ("less than 1 g", "fibre", "US", "0.5 ≤ x < 1"),
        ("2.5", "fat", "US", "2.25 ≤ x < 2.75"),
        ("5", "fat", "US", "4.75 ≤ x < 5.5"),
        ("50", "energy", "US", "47.5 ≤ x < 55"),
        ("5", "energy", "US", "2.5 ≤ x < 7.5"),
        ("0", "energy", "US", "0 ≤ x < 5"),
        ("140", "sodium", "US", "137.5 ≤ x < 145"),
        ("10", "carbohydrate", "EU", "9.95 ≤ x ≤ 10.5"),
        ("0", "carbohydrate", "EU", "0 ≤ x ≤ 0.5"),
        ("<0.5", "sugars", "UK", "0 ≤ x ≤ 0.5"),
        ("0.6", "carbohydrate", "UK", "0.55 ≤ x ≤ 0.65"),
        ("14", "carbohydrate", "UK", "13.5 ≤ x ≤ 14.5"),
        ("<0.01", "salt", "EU", "0 ≤ x ≤ 0.0125"),
        ("0.5", "fat", "CA", "0.45 ≤ x < 0.75"),
        ("5", "fat", "CA", "4.75 ≤ x < 5.5"),
        ("14.2", "carbohydrate", "AU", "14.15 ≤ x ≤ 14.25"),
        ("<1", "carbohydrate", "AU", "0 ≤ x < 1"),
    ],
)
def test_a_printed_figure_is_an_interval(declared, nutrient, region, text):
    """What may be printed like that, with its ends in or out."""
    assert label_interval(declared, nutrient, region).text == text


@pytest.mark.parametrize(
    ("amount", "nutrient", "region", "figures"),
    [
        (2.5, "carbohydrate", "US", ("3",)),
        (2.49, "carbohydrate", "US", ("2",)),
        (0.7, "carbohydrate", "US", ("1", "less than 1 g")),
        (0.5, "carbohydrate", "EU", ("0", "<0.5")),
        (10.5, "carbohydrate", "EU", ("10", "11")),
        (3.0, "energy", "US", ("0", "5")),
        (50.0, "energy", "US", ("50",)),
        (54.9, "energy", "US", ("50",)),
        (55.0, "energy", "US", ("60",)),
    ],
)
def test_exact_halves_and_choices(amount, nutrient, region, figures):
    """US: an exact half rounds up (rule US-TIE, memory). EU: no rule for it, so both neighbours may be printed."""
    assert printed(amount, nutrient, region) == figures


def test_definitions_of_carbohydrate(rows):
    """Whether the printed carbohydrate holds the fibre, by region."""
    found = {}
    for row in rows("label_rules.csv"):
        if row["rule_id"].endswith("CARB-DEF"):
            inside = f"rule:{row['rule_id']}" in FIBRE_INSIDE.values()
            found[row["rule_id"]] = (inside, row["includes_fibre"] == "yes")
    assert len(found) == 7
    assert all(ours == theirs for ours, theirs in found.values())


def test_tolerances(rows):
    """EU Table 1 of 2012 (memory): inside each band and at its bounds; the US rules of 21 CFR 101.9(g)."""
    faults, seen = [], 0
    for row in rows("label_rules.csv"):
        if not row["rule_id"].startswith("EU-TOL"):
            continue
        seen += 1
        low, high = float(row["lower"]), float(row["upper"] or 100)
        step = float(row["step"])
        inside = (low + high) / 2
        width = step if row["unit"] == "g" else step / 100 * inside
        found = tolerated(inside, nutrient_of(row), "EU")
        if found != (pytest.approx(max(0, inside - width)), pytest.approx(inside + width), f"rule:{row['rule_id']}"):
            faults.append((row["rule_id"], found))
    assert not faults
    assert seen == 19
    assert tolerated(10.0, "carbohydrate", "EU")[2].endswith("10-40")
    assert tolerated(40.0, "carbohydrate", "EU")[2].endswith("10-40")
    assert tolerated(10.0, "fat", "US") == (0.0, 12.0, "rule:US-TOL-UPPER")
    assert tolerated(10.0, "carbohydrate", "US") == (8.0, math.inf, "rule:US-TOL-LOWER")
    assert not US_UPPER & US_LOWER


@pytest.mark.parametrize(
    ("declared", "nutrient", "region"),
    [("2.5", "carbohydrate", "US"), ("x", "fat", "US"), ("1", "fat", "XX"), ("1", "carb", "US"), ("-1", "fat", "US"),
     ("1/0", "fat", "US"), ("<3", "fat", "US"), ("1e99", "fat", "EU"), ("", "fat", "US")],
)  # fmt: skip
def test_what_no_label_prints_is_refused(declared, nutrient, region):
    """One line, with what to do."""
    with pytest.raises(InvalidMeasure) as fault:
        label_interval(declared, nutrient, region)
    assert fault.value.remedy


PLACES = [*(("US", n) for n in ("carbohydrate", "fat", "energy", "sodium")), ("EU", "carbohydrate"), ("EU", "salt"),
          ("CA", "fat")]  # fmt: skip


@given(st.decimals(0, 300, places=3), st.sampled_from(PLACES))
def test_an_interval_contains_the_value_it_came_from(amount, where):
    """Whatever may be printed for a true amount, its interval holds that amount."""
    region, nutrient = where
    figures = printed(float(amount), nutrient, region)
    assert figures
    for figure in figures:
        assert label_interval(figure, nutrient, region).holds(float(amount))


@given(st.integers(0, 200), st.sampled_from(["carbohydrate", "fibre", "protein", "sugars"]))
def test_neighbouring_figures_meet_without_a_gap(grams, nutrient):
    """The intervals of US grams tile the line: each ends where the next begins."""
    assert label_interval(str(grams), nutrient, "US").high == label_interval(str(grams + 1), nutrient, "US").low
