"""Means, spreads, ratios, order, and what can be told apart."""

from __future__ import annotations

import math
import statistics
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import Place
from qa.knowledge.facts import Reading
from qa.knowledge.readings import mean_and_spread
from qa.trials.readings import read
from tests.trials.conftest import made


def test_the_invented_spoons_as_worked_by_hand(invented):
    """5.8, 6.1, 6.0, 5.7, 6.3: mean 5.98, standard deviation √(0.228 ÷ 4) = 0.2387; ÷ √5 and 0.1 ÷ √12 give 0.1106."""
    spoon = read(invented.trial("psyllium-spoons"))[0]
    husk, powder, home = spoon.levels
    assert husk.mean.value == pytest.approx(5.98)
    assert husk.deviation == pytest.approx(math.sqrt(0.228 / 4))
    assert husk.mean.spread == pytest.approx(math.hypot(math.sqrt(0.228 / 20), 0.1 / math.sqrt(12)))
    assert spoon.order == ("powder", "home-ground", "whole husk")
    assert [pair.apart for pair in spoon.neighbours] == [True, True]
    assert [times.text if times else "" for times in spoon.times] == ["", "1.68", "1.51"]
    assert husk.figure.facts == ("readings:psyllium-spoons",)
    assert invented.source_of(husk.figure.facts[0]).id == "psyllium-spoons"
    assert "5.8 + 6.1 + 6 + 5.7 + 6.3" in husk.figure.working
    assert (powder.single, home.single) == (False, False)


def test_single_readings_are_called_so_and_never_tested(invented):
    gel = read(invented.trial("psyllium-spoons"))[1]
    assert [level.single for level in gel.levels] == [False, False, True]
    alone = gel.levels[2]
    assert alone.deviation is None
    assert alone.mean.spread == pytest.approx(1 / math.sqrt(12))
    assert "single reading" in alone.figure.working
    untold = [pair for pair in gel.pairs if "home-ground" in (pair.greater, pair.lesser)]
    assert {pair.apart for pair in untold} == {None}
    assert all("single reading" in pair.words for pair in untold)


values = st.lists(st.floats(1, 100).map(lambda x: round(x, 1)), min_size=1, max_size=7)


@given(values, values, st.sampled_from([0.1, 0.5, 1.0]))
def test_means_spreads_and_ratios_hold_together(first, second, resolution):
    quantity = read(made({"a": first, "b": second}, resolution=resolution))[0]
    for level, own in zip(quantity.levels, (first, second), strict=True):
        assert (level.mean.value, level.mean.spread) == pytest.approx(mean_and_spread(own, resolution))
        low, high = level.ends
        assert low < level.mean.value < high
        assert high - level.mean.value >= 2 * level.mean.spread - 1e-9
    times = quantity.times[1]
    assert times is not None
    assert times.value == pytest.approx(statistics.fmean(second) / statistics.fmean(first))
    assert times.low <= times.value <= times.high
    greater, lesser = quantity.order
    means = {level.name: level.mean.value for level in quantity.levels}
    assert means[greater] >= means[lesser]


@given(values, values)
def test_turning_the_levels_over_turns_the_ratio_over_and_keeps_the_chance(first, second):
    one, other = read(made({"a": first, "b": second}))[0], read(made({"b": second, "a": first}))[0]
    assert one.times[1] is not None
    assert other.times[1] is not None
    assert one.times[1].value * other.times[1].value == pytest.approx(1)
    chances = [pair.chance.value if pair.chance else None for pair in (*one.pairs, *other.pairs)]
    assert chances[0] == pytest.approx(chances[1])


def test_readings_that_do_not_scatter_scatter_by_the_step():
    """Repeats that all fall on one mark tell no more than the mark's width."""
    near = read(made({"a": [10, 10, 10], "b": [10.1, 10.1, 10.1]}, resolution=1.0))[0].pairs[0]
    far = read(made({"a": [10, 10, 10], "b": [14, 14, 14]}, resolution=1.0))[0].pairs[0]
    assert (near.apart, far.apart) == (False, True)


def test_a_difference_not_shown_says_how_many_readings_would(invented):
    """42 and 43.5 mm, variances 2 and 0.5: 1.34 spreads, for which a two-sided t test with power 0.8 takes 10 each."""
    from statsmodels.stats.power import TTestIndPower

    pair = read(invented.trial("chia-or-flax-egg"))[0].pairs[0]
    assert pair.apart is False
    assert pair.needed is not None
    power, effect = TTestIndPower().power, 1.5 / math.sqrt((2 + 0.5) / 2)
    assert power(effect, pair.needed.value, 0.05) >= 0.8 > power(effect, pair.needed.value - 1, 0.05)


def test_all_pairs_are_corrected_for_their_number():
    quantity = read(made({"a": [10, 11, 12], "b": [13, 14, 15], "c": [13, 14, 16]}))[0]
    raw = sorted(pair.chance.value for pair in quantity.pairs if pair.chance)
    corrected = sorted(pair.corrected.value for pair in quantity.pairs if pair.corrected)
    assert corrected[0] == pytest.approx(3 * raw[0])
    assert len(quantity.neighbours) == 2


def test_a_temperature_has_no_ratio():
    assert read(made({"a": [20, 21], "b": [40, 41]}, unit="degC"))[0].times == (None, None)


def test_marks_on_a_scale_of_our_own_have_no_ratio():
    """A colour of four is not twice a colour of two."""
    assert read(made({"a": [2, 2], "b": [4, 5]}, unit=""))[0].times == (None, None)


def test_readings_in_another_unit_are_another_quantity():
    trial = made({"a": [4.0, 4.1], "b": [5.0]})
    inch = Reading("b", "height", 2.0, "inch", 0.1, Place("a test", 1))
    found = read(replace(trial, readings=(*trial.readings, inch)))
    assert [(one.name, one.unit, len(one.levels)) for one in found] == [("height", "mm", 2), ("height", "inch", 1)]


def test_nothing_but_single_readings_is_said_once():
    quantity = read(made({"a": [1.0], "b": [2.0], "c": [3.0]}))[0]
    assert quantity.words == ("each level has a single reading, which tells nothing of chance",)
