"""Digestible carbohydrate by region, and whether rounding can explain two labels."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from qa.errors import InvalidMeasure
from qa.kitchen.labels import (
    ONLY_ONE,
    REFUSED,
    UNKNOWN,
    Label,
    can_rounding_explain,
    carbs,
    compare,
    digestible,
    for_amount,
    salt,
    together,
)
from qa.measures.measure import Measure


def grams(value, spread=0.0, fact=None):
    """A mass."""
    return Measure.of(value, "g", spread=spread, fact=fact)


def test_american_labels_hold_the_fibre():
    """12 g less 9 g of fibre is 3 g, and rounding leaves 2 to 4 g."""
    found = digestible(Label("US", grams(15.0), "12", "9"))[0].sum
    assert (found.measure.value, found.ends) == (3.0, (2.0, 4.0))
    assert "rule:US-CARB-DEF" in found.measure.facts
    assert "rule:US-CARB-1" in found.measure.facts


@pytest.mark.parametrize("region", ["UK", "EU", "IE", "AU", "NZ", "ZA"])
def test_where_fibre_is_outside_subtracting_it_is_refused(region):
    """The carbohydrate stands as it is, and the reason is given."""
    found = digestible(Label(region, grams(100.0), "14", "38"))[0]
    assert found.sum.measure.value == 14.0
    assert REFUSED in found.notes


def test_an_unknown_region_gives_both_readings():
    """American and European, each named."""
    both = digestible(Label(None, grams(100.0), "60", "38"))
    assert [(one.region, one.sum.measure.value) for one in both] == [("US", 22.0), ("EU", 60.0)]
    assert all(UNKNOWN in one.notes for one in both)


def test_more_fibre_than_carbohydrate_can_only_be_european():
    """14 g of carbohydrate beside 38 g of fibre is no American label."""
    only = digestible(Label(None, grams(100.0), "14", "38"))
    assert [(one.region, one.notes[0]) for one in only] == [("EU", ONLY_ONE)]
    with pytest.raises(InvalidMeasure, match="more than the whole"):
        digestible(Label("US", grams(100.0), "14", "38"))


@pytest.mark.parametrize(
    ("region", "kind", "value", "ends"),
    [
        ("US", "erythritol", 10.0, (9.0, 11.0)),  # 0 kcal/g: all of it is left undigested
        ("US", "maltitol", 15.25, (14.5125, 15.9875)),  # 2.1 of 4 kcal/g: 47.5 % is not digested
        ("EU", "xylitol", 16.0, (15.3, 16.52)),  # polyols at 2.4 kcal/g: 40 % of 9.95 to 10.5 g
        ("US", "sugar alcohol", 15.0, (9.0, 20.5)),  # kind not named: none or all of it
        ("AU", "erythritol", 20.0, (19.5, 20.5)),  # left out already
    ],
)
def test_sugar_alcohols_by_region(region, kind, value, ends):
    """20 g of carbohydrate with 10 g of a sugar alcohol; shares from each region's energy factors."""
    found = digestible(Label(region, grams(30.0), "20", polyols=((kind, "10"),)))[0]
    assert found.sum.measure.value == pytest.approx(value)
    assert found.sum.ends == pytest.approx(ends)
    assert bool(found.notes) == (region == "AU")


def test_allulose_by_region():
    """Inside the printed carbohydrate in America; left out already in Australia and New Zealand."""
    american = digestible(Label("US", grams(30.0), "20", allulose="10"))[0]
    australian = digestible(Label("NZ", grams(30.0), "20", allulose="10"))[0]
    assert (american.sum.measure.value, australian.sum.measure.value) == (10.0, 20.0)
    assert australian.notes


def test_two_labels_that_rounding_can_explain():
    """3 g in 15 g against 2 g in 7 g: 17 to 23 and 21 to 36 per 100 g share some amounts."""
    found = compare(Label("US", grams(15.0), "3"), Label("US", grams(7.0), "2"))
    assert found.explained
    assert "17 to 23 g and 21 to 36 g" in found.words
    assert found.ratio == pytest.approx(10 / 7)


# Common practice, no source: US labels with 1 g of net carbohydrate for two tablespoons of whole psyllium husks and for
# one teaspoon of powder. The invented demo kitchen weighed a level US tablespoon of husk at 6 g, of powder at 10 g.
HUSK_SPOON = Measure.of(6.0, "g/us_tbsp", spread=0.29, fact="psyllium.husk.demo")
POWDER_SPOON = Measure.of(10.0, "g/us_tbsp", spread=0.29, fact="psyllium.powder.demo")
HUSK = (Measure.exact(2.0, "us_tbsp") * HUSK_SPOON).to("g")
POWDER = (Measure.exact(1.0, "us_tsp") * POWDER_SPOON).to("g")


def test_husk_and_powder_look_three_and_a_half_times_apart():
    """1 g in 12 g and 1 g in 3.3 g are 3.6 times apart; two figures of 1 g can differ threefold by rounding at most."""
    found = compare(Label("US", HUSK, net="1"), Label("US", POWDER, net="1"))
    assert found.ratio == pytest.approx(3.6)
    assert not found.explained
    assert "3.6 times apart" in found.words
    assert "cannot explain" in found.words


def test_as_differences_of_two_rounded_lines_they_could_be_the_same():
    """If each 1 g is total less fibre, both lines are rounded, and the intervals are wide enough to meet."""
    pair = Label("US", HUSK, "8", "7"), Label("US", POWDER, "3", "2")
    assert can_rounding_explain(*pair)


def test_equal_teaspoons_of_husk_and_powder_are_unequal_doses():
    """10 over 6: 1.67 times apart."""
    spoon = Measure.exact(1.0, "us_tsp")
    ratio = (spoon * POWDER_SPOON) / (spoon * HUSK_SPOON)
    assert ratio.value == pytest.approx(1.67, abs=0.005)


def test_per_recipe_and_per_piece():
    """Ends add up over ingredients and divide by pieces."""
    bran = for_amount(digestible(Label("US", grams(15.0), "12", "9"))[0], grams(60.0))
    flour = digestible(Label("UK", grams(100.0), "14"))[0].sum
    whole = together([bran, flour])
    piece = together([bran, flour], 12)
    assert (whole.measure.value, whole.ends) == (26.0, (21.5, 30.5))
    assert piece.ends == pytest.approx((21.5 / 12, 30.5 / 12))


def test_the_ends_are_those_of_a_linear_programme():
    """scipy finds the same least and most of total less fibre within the printed intervals."""
    found = digestible(Label("US", grams(15.0), "12", "9"))[0].sum
    bounds = [(11.5, 12.5), (8.5, 9.5)]
    least = linprog([1, -1], bounds=bounds).fun
    most = -linprog([-1, 1], bounds=bounds).fun
    assert found.ends == pytest.approx((least, most))


def test_salt_from_sodium():
    """Regulation (EU) 1169/2011, Annex I point 11: 400 mg of sodium is 1 g of salt."""
    assert salt(Measure.exact(400.0, "mg")).measure.value == pytest.approx(1.0)


@pytest.mark.parametrize(
    "label",
    [
        Label("US", grams(15.0)),
        Label("XX", grams(15.0), "12"),
        Label("US", grams(0.0), "12"),
        Label("UK", grams(15.0), net="1"),
        Label("US", grams(15.0), "2.5"),
        Label("EU", grams(15.0), "12", polyols=(("sand", "1"),)),
    ],
)
def test_a_label_that_cannot_be_read_is_one_clear_line(label):
    """Missing, unknown, empty or impossible: no traceback, and what to do."""
    with pytest.raises(InvalidMeasure) as fault:
        digestible(label)
    assert fault.value.remedy


whole = st.integers(0, 60)


@given(whole, whole, st.integers(1, 20), st.integers(1, 20))
def test_more_servings_never_narrow_the_interval(total, fibre, few, more):
    """The interval of n + m servings is at least as wide as that of n, and holds its own value."""
    label = Label("US", grams(15.0), str(max(total, fibre)), str(fibre))
    reading = digestible(label)[0]
    first = for_amount(reading, grams(15.0 * few))
    second = for_amount(reading, grams(15.0 * (few + more)))
    assert second.ends[1] - second.ends[0] >= first.ends[1] - first.ends[0] - 1e-9
    for found in (first, second):
        assert 0.0 <= found.ends[0] <= found.measure.value <= found.ends[1]


@given(whole, whole, st.floats(1.0, 100.0), st.floats(1.0, 100.0))
def test_a_label_is_always_explained_by_itself_and_comparing_is_symmetric(one, two, serving, other):
    """A label can be the same as itself; the order does not matter."""
    first, second = Label("US", grams(serving), str(one)), Label("US", grams(other), str(two))
    assert can_rounding_explain(first, first)
    assert can_rounding_explain(first, second) == can_rounding_explain(second, first)


def test_carbs_of_an_amount_and_of_a_piece():
    """60 g of a food with 3 g in 15 g, cut in four."""
    label = Label("US", grams(15.0), "12", "9")
    assert carbs(label)[0].sum.ends == (2.0, 4.0)
    assert carbs(label, grams(60.0))[0].sum.ends == (8.0, 16.0)
    piece = carbs(label, grams(60.0), 4.0)[0]
    assert piece.sum.ends == (2.0, 4.0)
    assert piece.serving.value == 15.0
