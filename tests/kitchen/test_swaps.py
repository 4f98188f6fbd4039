"""One ingredient for another."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.swaps import swap
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
