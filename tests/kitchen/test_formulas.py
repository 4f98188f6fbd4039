"""Baker's percentages, hydration, scaling, pans, eggs and yeast against published rows."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.eggs import EDIBLE_US, PARTS_US_LARGE, beaten, edible, egg_factor, in_shell, shell_share
from qa.kitchen.formulas import (
    Line,
    bakers_percentages,
    flour_for_dough,
    formula_of,
    hydration,
    scaled,
    water_temperature,
)
from qa.kitchen.pans import Pan, pan_factor, read_pan
from qa.kitchen.scaling import scale
from qa.kitchen.yeast import PACKET_G, PACKET_US_TSP, RATIOS, convert_yeast
from qa.measures.measure import Measure

DOUGH = {"flour": 1000.0, "water": 650.0, "salt": 20.0, "yeast": 10.0}


def grams(value, spread=0.0, fact=None):
    """A mass."""
    return Measure.of(value, "g", spread=spread, fact=fact)


@pytest.fixture
def table(rows):
    """Rows of the kitchen rules by id."""
    return {row["id"]: row for row in rows("kitchen_rules.csv")}


def test_bakers_percentages(table):
    """Gisslen's arithmetic: water 65, salt 2, yeast 1, total 168 (BAKERS-PCT)."""
    found = {name: share.measure.value for name, share in bakers_percentages(DOUGH, ["flour"]).items()}
    assert found == pytest.approx({"flour": 100.0, "water": 65.0, "salt": 2.0, "yeast": 1.0})
    assert table["BAKERS-PCT"]["output"] == "water 65, salt 2, yeast 1, total 168"
    assert sum(found.values()) == pytest.approx(168)


def test_flour_for_a_wanted_dough(table):
    """840 g of dough at 168 percent is 500 g of flour (BAKERS-PCT-SCALE)."""
    shares = {"flour": 100.0, "water": 65.0, "salt": 2.0, "yeast": 1.0}
    flour = flour_for_dough(grams(840.0), shares)
    assert flour.measure.value == pytest.approx(float(table["BAKERS-PCT-SCALE"]["output"]))
    rest = scaled({"water": 65.0, "salt": 2.0, "yeast": 1.0}, Measure.exact(5.0, "dimensionless"))
    assert [part.measure.value for part in rest.values()] == [325.0, 10.0, 5.0]


def test_hydration_counts_the_water_inside(table):
    """500 g flour with 250 g whole milk, 88.13 % water by USDA SR26: 44.1 % (HYDRATION)."""
    milk = Measure.of(88.13, "percent", spread=0.003, fact="milk.whole.water.sr26")
    found = hydration({"flour": 500.0, "milk": 250.0}, ["flour"], {"milk": milk})
    assert found.measure.value == pytest.approx(float(table["HYDRATION"]["output"]), abs=0.05)
    assert found.measure.facts == ("milk.whole.water.sr26",)
    both = hydration({"flour": 500.0, "water": 350.0, "yogurt": 60.0}, ["flour"],
                     {"yogurt": Measure.of(87.9, "percent", spread=0.03, fact="yogurt")})  # fmt: skip
    assert both.measure.value == pytest.approx(70 + 60 * 0.879 / 5)
    assert both.text == "81 %"


def test_no_share_of_water_no_hydration():
    """Milk of unknown water is not counted as water."""
    with pytest.raises(NoKnowledge):
        hydration({"flour": 500.0, "milk": 250.0}, ["flour"], {})


def test_dough_temperature():
    """Common practice: three times the wanted, less flour, room and friction."""
    assert water_temperature(26.0, 22.0, 22.0, 6.0).measure.value == 28.0
    assert water_temperature(26.0, 22.0, 22.0, 6.0, preferment=20.0).measure.value == 34.0
    with pytest.raises(InvalidMeasure, match="would have to be"):
        water_temperature(70.0, 20.0, 20.0, 5.0)


def test_a_formula_from_the_lines_of_a_recipe():
    """Equal items add up, flours are those in the role."""
    lines = [Line("rice.flour", 200.0, "flour"), Line("water", 150.0), Line("rice.flour", 50.0, "flour")]
    assert formula_of(lines) == ({"rice.flour": 250.0, "water": 150.0}, ["rice.flour"])


@pytest.mark.parametrize(
    ("key", "old", "new"),
    [
        ("PAN-8R-9R", "8 inch round", "9 inch round"),
        ("PAN-8S-9X13", "8 inch square", "9x13 inch"),
        ("PAN-20R-23R", "20 cm round", "23cm round"),
        ("PAN-9R-8S", "9 inch round", "8 inch square"),
    ],
)
def test_pan_factors(table, key, old, new):
    """Ratios of base areas."""
    found = pan_factor(read_pan(old), read_pan(new))
    assert found.measure.value == pytest.approx(float(table[key]["output"]), abs=6e-4)


def test_pans_in_other_words():
    """Springforms are round, loaf tins oblong; depth counts when both have one."""
    loaf = read_pan("9 x 5 x 3 inch loaf")
    assert (loaf.shape, loaf.sizes, loaf.depth) == ("oblong", (9.0, 5.0), 3.0)
    assert read_pan("20cm springform").shape == "round"
    assert read_pan("9x13", unit="inch").area == pytest.approx(9 * 13 * 2.54**2)
    deep = Pan("square", (8.0,), "inch", 2.0)
    assert pan_factor(deep, Pan("square", (8.0,), "inch", 1.0)).measure.value == pytest.approx(0.5)


@pytest.mark.parametrize("text", ["a pan", "9x13", "8 inch", "900 inch round"])
def test_a_pan_that_cannot_be_told_is_asked_back(text):
    """No size, no unit, no shape, no oven that big."""
    with pytest.raises(InvalidMeasure) as fault:
        read_pan(text)
    assert fault.value.remedy


def test_egg_classes(table):
    """USDA AMS 56 by the dozen and the EU's four classes; the edible weights of USDA SR26."""
    faults = []
    for key, row in table.items():
        size = key.rpartition("US-")[2].replace("EDIBLE-", "").replace("-", " ").lower()
        if key.startswith("EGG-US-EDIBLE"):
            ours = edible(size).value
        elif key in ("EGG-US-WHITE", "EGG-US-YOLK"):
            ours = PARTS_US_LARGE[size]
        elif key.startswith("EGG-US-"):
            ours = in_shell("US", size).low
        else:
            continue
        if ours != pytest.approx(float(row["output"]), abs=0.006):
            faults.append(key)
    assert not faults
    ends = {letter: in_shell("EU", letter)[:2] for letter in ("XL", "L", "M", "S")}
    assert ends == {"XL": (73, None), "L": (63, 73), "M": (53, 63), "S": (0, 53)}
    printed = {key.rpartition("-")[2]: row["output"] for key, row in table.items() if key.startswith("EGG-EU")}
    assert printed == {"XL": "73 to no limit", "L": "63 to 73", "M": "53 to 63", "S": "0 to 53"}
    assert in_shell("UK", "large") == in_shell("EU", "large")
    assert set(EDIBLE_US) == {"small", "medium", "large", "extra large", "jumbo"}


def test_shell_share(table):
    """About an eighth of a large egg is shell (EGG-SHELL)."""
    assert shell_share("US", "large").measure.value == pytest.approx(float(table["EGG-SHELL"]["output"]), abs=0.05)


def test_seven_eggs_for_eight():
    """By number, or by weight where the sizes differ."""
    assert egg_factor(8, 7).measure.value == pytest.approx(0.875)
    assert egg_factor(4, 4, edible("large"), edible("medium")).measure.value == pytest.approx(0.88)
    assert beaten(0.5, edible("large")).text == "25 g"
    with pytest.raises(InvalidMeasure):
        egg_factor(0, 3)
    with pytest.raises(InvalidMeasure, match="peewees"):
        in_shell("US", "peewees")


def test_yeast_ratios(table):
    """Baking reference tables; the older American rule lies within the range shown."""
    pairs = {
        "YEAST-FRESH-TO-ACTIVE-DRY": ("fresh", "active dry"), "YEAST-FRESH-TO-INSTANT": ("fresh", "instant"),
        "YEAST-ACTIVE-DRY-TO-INSTANT": ("active dry", "instant"),
        "YEAST-INSTANT-TO-ACTIVE-DRY": ("instant", "active dry"),
    }  # fmt: skip
    for key, (have, want) in pairs.items():
        found = convert_yeast(grams(1.0), have, want)
        assert found.measure.value == pytest.approx(float(table[key]["output"]))
        assert found.measure.facts == (f"rule:{key}",)
    old = float(table["YEAST-FRESH-TO-ACTIVE-DRY-OLD"]["output"])
    low, high = convert_yeast(grams(1.0), "fresh", "active dry").ends
    assert low <= old <= high
    assert RATIOS["fresh", "active dry"][1][0] == old


def test_yeast_packets_do_not_go_with_usda_spoons(table):
    """7 g in 2¼ tsp is 3.1 g a teaspoon, USDA prints 4.0: the two are kept apart."""
    assert float(table["YEAST-PACKET"]["output"]) == PACKET_G
    assert float(table["YEAST-PACKET-TSP"]["output"]) == PACKET_US_TSP
    per_spoon = PACKET_G / PACKET_US_TSP
    assert per_spoon == pytest.approx(3.1, abs=0.05)
    assert float(table["YEAST-USDA-TSP"]["output"]) == 4.0


def test_yeast_without_a_table_both_ways():
    """Active dry to fresh is the published ratio turned about; the same yeast stays the same."""
    assert convert_yeast(grams(4.0), "active dry", "fresh").measure.value == pytest.approx(10.0)
    assert convert_yeast(grams(4.0), "instant", "instant").measure.value == 4.0
    with pytest.raises(InvalidMeasure):
        convert_yeast(Measure.exact(1.0, "us_tsp"), "fresh", "instant")
    with pytest.raises(InvalidMeasure):
        convert_yeast(grams(1.0), "fresh", "nutritional")


def test_butter_rows(table):
    """A stick is 8 tablespoons of 14.2 g; oil with the fat of 100 g butter weighs 81 g (USDA SR26)."""
    stick = grams(113.0)
    spoon = Measure.of(14.2, "g/us_tbsp", spread=0.03, fact="butter.sr26")
    assert (stick / spoon).to("us_tbsp").value == pytest.approx(float(table["BUTTER-STICK-TBSP"]["output"]), abs=0.05)
    fat = float(table["BUTTER-USDA-FAT"]["output"])
    assert round(fat) == int(table["BUTTER-TO-OIL"]["output"])
    assert fat >= float(table["BUTTER-FAT"]["output"])


def test_every_rule_of_the_table_is_used_somewhere(table):
    """What is left are plain weights, the law on butter, and rows that other tests here read."""
    used = ("EGG-", "YEAST-", "GAS-", "TEMP-", "FAN-", "BOIL-", "PAN-", "BAKERS-", "HYDRATION", "BUTTER-")
    assert {key for key in table if not key.startswith(used)} == {"FLOUR-CUP-SPREAD", "SUGAR-CUP"}


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: bakers_percentages({"water": 1.0}, ["flour"]),
        lambda: bakers_percentages({"flour": 0.0}, ["flour"]),
        lambda: bakers_percentages({"flour": -1.0}, ["flour"]),
        lambda: bakers_percentages({"flour": Measure.exact(1.0, "us_cup")}, ["flour"]),
        lambda: flour_for_dough(Measure.exact(840.0, "g"), {}),
        lambda: scaled({"flour": 1.0}, Measure.exact(0.0, "dimensionless")),
        lambda: scaled({"flour": 1.0}, Measure.exact(2.0, "g")),
    ],
)
def test_formulas_that_cannot_be_worked_are_refused(wrong):
    """No flour, nothing, cups for grams, a factor of zero."""
    with pytest.raises(InvalidMeasure):
        wrong()


@given(st.floats(1.0, 5000.0), st.floats(0.0, 5000.0), st.floats(0.1, 10.0))
def test_percentages_do_not_change_when_all_is_scaled(flour, water, times):
    """Linear under scaling."""
    once = bakers_percentages({"flour": flour, "water": water}, ["flour"])["water"].measure.value
    more = bakers_percentages({"flour": flour * times, "water": water * times}, ["flour"])["water"].measure.value
    assert more == pytest.approx(once)


@given(st.floats(5.0, 60.0), st.floats(5.0, 60.0))
def test_pans_there_and_back(a, b):
    """From one pan to another and back is once; a wider one never holds less."""
    one, two = Pan("round", (a,), "cm"), Pan("square", (b,), "cm")
    there, back = pan_factor(one, two).measure.value, pan_factor(two, one).measure.value
    assert there * back == pytest.approx(1.0)
    assert pan_factor(Pan("round", (min(a, b),), "cm"), Pan("round", (max(a, b),), "cm")).measure.value >= 1.0
    assert math.isfinite(there)


@given(st.floats(0.1, 1000.0), st.sampled_from(list(RATIOS)))
def test_yeast_there_and_back_stays_in_range(mass, pair):
    """Converted and back, the amount lies within what the tables' disagreement allows."""
    have, want = pair
    there = convert_yeast(grams(mass), have, want)
    back = convert_yeast(there.measure, want, have)
    assert back.ends[0] <= mass * 1.1
    assert back.ends[1] >= mass * 0.9


def test_a_recipe_is_scaled_in_one_way_at_a_time():
    """By a number, by pans or by eggs; two ways at once are refused."""
    recipe = {"flour": 200.0, "butter": 100.0}
    pans = (Pan("round", (20.0,), "cm"), Pan("round", (23.0,), "cm"))
    assert scale(recipe, pans=pans).lines["flour"].measure.value == pytest.approx(264.5)
    assert scale(recipe, eggs=(8, 7)).lines["butter"].measure.value == pytest.approx(87.5)
    assert scale(recipe, times=2.0).lines["flour"].working == ("200 g × 2 = 400 g",)
    assert scale(recipe, times=2.0).watch
    for wrong in ({}, {"times": 2.0, "eggs": (8, 7)}, {"times": 0.0}):
        with pytest.raises(InvalidMeasure):
            scale(recipe, **wrong)
