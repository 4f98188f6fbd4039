"""The registry against published measures and against pint's own list."""

from __future__ import annotations

import pint
import pytest

from qa.errors import InvalidMeasure
from qa.measures.units import REGIONS, dimension, factor, known, regional

# name and region as the table writes them, and our unit. The rounded kitchen figures of NIST SP 430 are roundings of
# the exact ones, so they are compared to within their last digit.
UNITS = {
    ("gallon", "US customary"): "us_gallon", ("quart", "US customary"): "us_quart", ("pint", "US customary"): "us_pint",
    ("cup", "US customary"): "us_cup", ("fluid ounce", "US customary"): "us_fl_oz",
    ("tablespoon", "US customary"): "us_tbsp", ("teaspoon", "US customary"): "us_tsp",
    ("cup", "US kitchen, rounded"): "us_cup", ("fluid ounce", "US kitchen, rounded"): "us_fl_oz",
    ("tablespoon", "US kitchen, rounded"): "us_tbsp", ("teaspoon", "US kitchen, rounded"): "us_tsp",
    ("cup", "US nutrition labelling"): "us_label_cup", ("fluid ounce", "US nutrition labelling"): "us_label_fl_oz",
    ("tablespoon", "US nutrition labelling"): "us_label_tbsp", ("teaspoon", "US nutrition labelling"): "us_label_tsp",
    ("ounce (weight)", "US nutrition labelling"): "us_label_oz",
    ("cup", "metric (Australia, New Zealand, Canada)"): "metric_cup", ("tablespoon", "Australia"): "au_tbsp",
    ("tablespoon", "metric (New Zealand, UK, Canada)"): "metric_tbsp", ("teaspoon", "metric"): "metric_tsp",
    ("gallon", "imperial (UK)"): "imperial_gallon", ("quart", "imperial (UK)"): "imperial_quart",
    ("pint", "imperial (UK)"): "imperial_pint", ("half pint (imperial cup)", "imperial (UK)"): "imperial_cup",
    ("gill", "imperial (UK)"): "imperial_gill", ("fluid ounce", "imperial (UK)"): "imperial_fl_oz",
    ("cup", "Japan"): "jp_cup", ("go (rice cup)", "Japan"): "jp_go", ("ounce", "avoirdupois"): "oz",
    ("pound", "avoirdupois"): "lb", ("stone", "UK"): "stone",
}  # fmt: skip


def test_every_published_measure_is_reproduced(rows):
    """Sources stand in the table: NIST Handbook 44, SP 430, 21 CFR 101.9, SI 1995/1804, the 1959 pound …."""
    faults = []
    table = rows("measures.csv")
    for row in table:
        if row["name"].startswith("quarter pound"):
            found, printed = factor("lb", "g") / 4, float(row["grams"])
        else:
            unit = UNITS[row["name"], row["region"]]
            base, printed = ("g", row["grams"]) if row["grams"] else ("mL", row["millilitres"])
            found, printed = factor(unit, base), float(printed)
        tolerance = 1e-9 * printed if row["exact"] == "yes" else 0.5 if "rounded" in row["derivation"] else 0.005
        if abs(found - printed) > tolerance:
            faults.append(f"{row['name']} {row['region']}: {found} is not {printed}")
    assert not faults
    assert len(table) == 32


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        ("us_cup", "cup"), ("us_tbsp", "tablespoon"), ("us_tsp", "teaspoon"), ("us_fl_oz", "fluid_ounce"),
        ("us_pint", "pint"), ("us_quart", "quart"), ("us_gallon", "gallon"), ("imperial_cup", "imperial_cup"),
        ("imperial_pint", "imperial_pint"), ("imperial_quart", "imperial_quart"),
        ("imperial_gallon", "imperial_gallon"),
        ("imperial_fl_oz", "imperial_fluid_ounce"), ("imperial_gill", "imperial_gill"), ("L", "liter"),
    ],
)  # fmt: skip
def test_volumes_agree_with_pint(ours, theirs):
    """pint's own list has the same gallons; it has no 250 mL cup and no 20 mL spoon, which is why we keep a list."""
    assert factor(ours, "mL") == pytest.approx(pint.UnitRegistry().Quantity(1.0, theirs).to("mL").magnitude, rel=1e-9)


@pytest.mark.parametrize(("ours", "theirs"), [("oz", "ounce"), ("lb", "pound"), ("kg", "kg"), ("stone", "stone")])
def test_masses_agree_with_pint(ours, theirs):
    """The avoirdupois pound of 1959."""
    assert factor(ours, "g") == pytest.approx(pint.UnitRegistry().Quantity(1.0, theirs).to("g").magnitude, rel=1e-12)


def test_pint_has_one_bare_cup_and_we_have_none():
    """Where we differ on purpose: a bare cup is a question here, and an American cup there."""
    assert not known("cup")
    assert not known("tbsp")


def test_each_region_means_its_own_spoon_and_cup():
    """Australia's tablespoon is 20 mL, the others' 15; Japan's cup is 200 mL."""
    spoons = {region: factor(regional("tbsp", region), "mL") for region in REGIONS}
    cups = {region: factor(regional("cup", region), "mL") for region in REGIONS}
    assert {region for region, size in spoons.items() if size == 20} == {"AU"}
    assert {region for region, size in cups.items() if size == 200} == {"JP"}
    assert cups["CA"] == cups["AU"] == cups["UK"] == 250
    assert regional("tbsp", None) is None
    assert regional("g", None) == "g"


def test_a_wrong_unit_is_one_clear_line():
    """An unknown unit and an impossible conversion both say what to do."""
    with pytest.raises(InvalidMeasure, match="us_tbsp"):
        factor("us_tbps", "mL")
    with pytest.raises(InvalidMeasure, match="density"):
        factor("us_tbsp", "g")
    assert dimension("g/us_cup") == "density"
