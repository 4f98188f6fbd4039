"""What else changed with the factor."""

from __future__ import annotations

import pytest

from qa.stages import vouch
from qa.trials.compare import equal_weights, fairness
from tests.trials.conftest import made


@pytest.mark.parametrize(
    ("trial", "times", "even"),
    [
        # The invented readings: 10.02 ÷ 5.98 and 9.00 ÷ 5.98; 5.98 g are 5.98 ÷ 10.02 = 0.60 and 0.66 of a spoon.
        ("psyllium-spoons", ["1.68", "1.51"], ["6 g", "1 tbsp", "⅝ tbsp", "⅔ tbsp"]),
        # 8.367 ÷ 7.067 = 1.18; 7.067 g are 0.84 of a spoon of chia.
        ("chia-or-flax-egg", ["1.18"], ["7 g", "1 tbsp", "⅞ tbsp"]),
    ],
)
def test_the_invented_trials_dosed_by_the_spoon_were_not_fair(invented, trial, times, even):
    found = fairness(invented.trial(trial), invented)
    assert found.verdict == "not fair"
    *unequal, evened, untouched = found.reasons
    assert [told.figures[0].text for told in unequal] == times
    assert [figure.text for figure in evened.figures] == even
    assert "weigh the dose itself" in untouched.words
    for told in found.reasons:
        assert vouch.vouch(told.words, vouch.place(told.words, told.figures)) == ()
        assert all(figure.facts or figure.text == "1 tbsp" for figure in told.figures)


def test_the_densities_of_the_trial_itself_lead(invented):
    found = fairness(invented.trial("psyllium-spoons"), invented)
    density = found.first[0].density
    assert density is not None
    assert density.source == "psyllium-spoons"


def test_one_change_at_a_time_is_fair(invented):
    """Less of one thing, or one thing added: that is the factor."""
    assert fairness(invented.trial("soda-and-green"), invented).verdict == "fair"


def test_two_changes_at_once_are_not_fair(invented):
    trial = made(
        {"plain": [1.0], "other": [2.0]},
        doses=(
            ("plain", "baking-soda.powder", "2.3 g"),
            ("other", "baking-soda.powder", "1.1 g"),
            ("other", "lemon.juice", "10 g"),
        ),
    )
    found = fairness(trial, invented)
    assert found.verdict == "not fair"
    assert "more than one thing changed: baking soda and lemon juice" in found.reasons[0].words


def test_an_unequal_swap_by_weight_says_how_much_more(invented):
    trial = made({"a": [1.0], "b": [2.0]}, doses=(("a", "flax.ground", "7 g"), ("b", "chia.ground", "14 g")))
    found = fairness(trial, invented)
    assert found.verdict == "not fair"
    assert found.reasons[0].words == "The doses were unequal: b had 2 times as much as a by weight."


def test_an_even_swap_by_weight_is_fair(invented):
    trial = made({"a": [1.0], "b": [2.0]}, doses=(("a", "flax.ground", "7 g"), ("b", "chia.ground", "7 g")))
    assert fairness(trial, invented).verdict == "fair"


@pytest.mark.parametrize(
    ("doses", "constant", "says"),
    [
        ((), ("oven",), "not given item by item"),
        ((("a", "flax.ground", "7 g"), ("b", "chia.ground", "7 g")), (), "held constant"),
        ((("a", "flax.ground", "7 g"), ("b", "flax.ground", "7 g")), ("oven",), "is the same as a"),
        ((("a", "flax.ground", "1 us tbsp"), ("b", "nobody.knows", "1 us tbsp")), ("oven",), "No bulk density"),
    ],
)
def test_what_nobody_said_leaves_it_open(invented, doses, constant, says):
    found = fairness(made({"a": [1.0], "b": [2.0]}, doses=doses, constant=constant), invented)
    assert found.verdict == "cannot tell"
    assert any(says in told.words for told in found.reasons)


def test_equal_weights_as_a_help_to_dose_by(invented):
    told = equal_weights(("flax.ground", "chia.ground"), invented)
    assert told is not None
    assert [figure.text for figure in told.figures] == ["7 g", "1 tbsp", "⅞ tbsp"]
    assert equal_weights(("flax.ground", "tigernut"), invented) is None
    assert equal_weights(("flax.ground",), invented) is None


def test_a_single_level_compares_nothing(invented):
    found = fairness(made({"a": [1.0]}, doses=(("a", "flax.ground", "7 g"),)), invented)
    assert (found.verdict, len(found.reasons)) == ("cannot tell", 1)


def test_a_screening_test_is_fair_while_each_suspect_varies_independently(invented):
    """Several changes at once are then on purpose; a run that was left out mixes the effects."""
    names = ("a + b", "a", "b", "none of them")
    whole = made({name: [1.0] for name in names}, varied=("a", "b"))
    assert fairness(whole, invented).verdict == "fair"
    lacking = fairness(made({name: [1.0] for name in names[:3]}, varied=("a", "b")), invented)
    assert lacking.verdict == "not fair"
    assert [told.words for told in lacking.reasons] == [
        "Not as often there as not: a and b.",
        "Not varied independently, so their effects are mixed: a with b.",
    ]
