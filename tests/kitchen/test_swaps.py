"""One ingredient for another."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.swaps import equal_effect, equal_fat, in_formula, swap
from qa.measures.measure import Measure

FLAX = Measure.of(7.0, "g/us_tbsp", spread=0.29, fact="flax")
CHIA = Measure.of(10.2, "g/us_tbsp", spread=0.29, fact="chia")
EQUAL = Measure.of(1.0, "g/g", spread=0.05, fact="flax.ground.swap.chia.ground")


def test_equal_weight_by_the_spoon():
    """Two tablespoons of ground flax are 14 g; 14 g of a denser seed is a smaller spoonful."""
    found = swap(Measure.exact(2.0, "us_tbsp"), EQUAL, "weight", FLAX, CHIA)
    assert found.measure.to("us_tbsp").value == pytest.approx(14 / 10.2)
    assert found.measure.facts == ("chia", "flax", "flax.ground.swap.chia.ground")
    assert found.working[0] == "2 tbsp × 7 g per tbsp = 14 g"


def test_without_a_density_of_the_new_one_it_is_grams():
    """The answer comes in grams where no spoonful of it is known."""
    found = swap(Measure.exact(2.0, "us_tbsp"), EQUAL, "weight", FLAX)
    assert found.text == "14 g"


def test_by_volume_needs_no_density():
    """Spoon for spoon."""
    found = swap(Measure.exact(1.0, "us_cup"), Measure.exact(0.75, "mL/mL"), "volume")
    assert found.text == "¾ cup"


def test_by_volume_from_and_to_grams():
    """A volume swap told in grams uses both densities."""
    ratio = Measure.exact(1.0, "mL/mL")
    found = swap(Measure.exact(14.0, "g"), ratio, "volume", FLAX, CHIA, "g")
    assert found.measure.value == pytest.approx(20.4)
    with pytest.raises(NoKnowledge):
        swap(Measure.exact(14.0, "g"), ratio, "volume")


def test_a_chain_of_swaps_is_refused():
    """The outcome of a swap is not a recipe's amount, so it cannot be swapped again."""
    once = swap(Measure.exact(14.0, "g"), EQUAL, "weight")
    with pytest.raises(InvalidMeasure, match="itself a stand-in"):
        swap(once.measure, EQUAL, "weight")


@pytest.mark.parametrize("ratio", [Measure.exact(0.0, "g/g"), Measure.exact(-1.0, "g/g"), Measure.exact(1.0, "g")])
def test_what_is_no_ratio_is_refused(ratio):
    """A ratio is a share above zero."""
    with pytest.raises(InvalidMeasure, match="no ratio"):
        swap(Measure.exact(14.0, "g"), ratio, "weight")


@given(st.floats(0.1, 200.0), st.sampled_from(["us_tbsp", "au_tbsp", "metric_cup"]))
def test_mass_is_conserved_at_ratio_one(amount, unit):
    """Whatever the spoon, the grams before are the grams after."""
    one = Measure.exact(1.0, "g/g")
    before = swap(Measure.exact(amount, unit), one, "weight", FLAX, unit="g").measure
    spoons = swap(Measure.exact(amount, unit), one, "weight", FLAX, CHIA).measure
    after = (spoons.to("us_tbsp") * CHIA).to("g")
    assert after.value == pytest.approx(before.value, rel=1e-9)
    assert (after / before).spread == pytest.approx(0.0, abs=1e-9)


def test_equal_effect_goes_by_the_ratio_of_powers():
    """Half as strong a thickener needs twice the weight; both strengths are facts."""
    strong = Measure.of(2.0, "dimensionless", spread=0.1, fact="strong.thickening")
    weak = Measure.of(1.0, "dimensionless", spread=0.1, fact="weak.thickening")
    found = equal_effect(Measure.exact(10.0, "g"), strong, weak, "thickening")
    assert found.measure.value == pytest.approx(20.0)
    assert found.measure.facts == ("strong.thickening", "weak.thickening")
    with pytest.raises(InvalidMeasure, match="no strength"):
        equal_effect(Measure.exact(10.0, "g"), strong, Measure.exact(0.0, "g/g"), "thickening")


def test_oil_with_the_fat_of_butter(rows):
    """100 g of salted butter (81.11 % fat, 15.87 % water, USDA SR26): 81 g of oil and 16 g of water."""
    table = {row["id"]: row for row in rows("kitchen_rules.csv")}
    fat, water = (
        Measure.of(float(table[f"BUTTER-USDA-{part}"]["output"]), "percent", spread=0.003, fact=f"butter.{part}")
        for part in ("FAT", "WATER")
    )
    oil, added = equal_fat(
        Measure.exact(100.0, "g"), fat, Measure.exact(100.0, "percent"), water, Measure.exact(0.0, "percent")
    )
    assert f"{round(oil.measure.value)}; {round(added.measure.value)}" == "81; 16"
    assert table["BUTTER-TO-OIL"]["unit"] == "g oil + 16 g water"


def test_back_from_oil_to_butter_the_water_is_left_out():
    """The other way round the water comes out below zero: that much to leave out."""
    fat, water = Measure.exact(81.11, "percent"), Measure.exact(15.87, "percent")
    none, all_of_it = Measure.exact(0.0, "percent"), Measure.exact(100.0, "percent")
    _, added = equal_fat(Measure.exact(81.11, "g"), all_of_it, fat, none, water)
    assert added.measure.value == pytest.approx(-15.87)


def test_inside_a_formula_only_one_line_changes():
    """The stand-in takes the old line's place; a line already there is added to."""
    formula = {"oat.flour": Measure.exact(200.0, "g"), "flax.ground": Measure.exact(14.0, "g")}
    found = swap(formula["flax.ground"], EQUAL, "weight")
    new = in_formula(formula, "flax.ground", found, "chia.ground")
    assert list(new) == ["oat.flour", "chia.ground"]
    assert new["chia.ground"].value == 14.0
    assert in_formula(formula, "flax.ground", found, "oat.flour")["oat.flour"].value == 214.0
    with pytest.raises(InvalidMeasure, match="not in the formula"):
        in_formula(formula, "egg", found, "chia.ground")
