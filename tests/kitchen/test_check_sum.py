"""The asker's own sums."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.check_sum import check_arithmetic, check_percent, check_ratio, check_text
from qa.measures.measure import Measure

FLAX = Measure.of(7.0, "g/us_tbsp", spread=0.289, fact="flax.ground.bulk-density.usda-sr26")


@pytest.mark.parametrize(
    ("text", "right", "words"),
    [
        ("flax is 1:3 so 2 tbsp flax to 6 tbsp water, right?", True, "2 tbsp × 3 = 6 tbsp, right"),
        ("flax is 1:3 so 2 tbsp flax to 5 tbsp water, right?", False, "2 tbsp × 3 = 6 tbsp, not 5 tbsp"),
        ("gelatin 1 to 5 so 10 g needs 50 g water", True, "10 g × 5 = 50 g, right"),
        ("1 tbsp chia to 9 tsp water is 1:3?", True, "1 tbsp × 3 = 3 tbsp = 9 tsp, right"),
        ("500 g flour and 350 g water is 70 %?", True, "350 ÷ 500 = 70 %, right"),
        (
            "500 flour 350 water is 70% hydration right? and does the 60g of yogurt count",
            True,
            "350 ÷ 500 = 70 %, right",
        ),
        ("350 g water to 500 g bread flour = 65%?", False, "350 ÷ 500 = 70 %, not 65 %"),
        ("65% hydration on 540 g flour gives 351 g water, and 2% salt", True, "351 ÷ 540 = 65 %, right"),
        ("3 x 7 g = 21 g", True, "3 × 7 = 21, right"),
        ("3x7=22?", False, "3 × 7 = 21, not 22"),
        ("100 / 3 is 33", True, "100 ÷ 3 = 33.33, right"),
        ("16 oz is 454 g?", True, "16 oz = 453.6 g, right"),
        ("16 oz is 480 g?", False, "16 oz = 453.6 g, not 480 g"),
        ("350F is 180C right", True, "(350 − 32) × 5/9 = 176.7 °C, right"),
        ("350F is 160C right", False, "(350 − 32) × 5/9 = 176.7 °C, not 160 °C"),
        ("is 1/4 cup = 4 tbsp", True, "0.25 cup = 4 tbsp, right"),
        ("half of 3/4 cup is 3/8 cup", True, "0.75 cup × 0.5 = 0.375 cup, right"),
        ("doubling 1 1/2 cups makes 4 cups", False, "1.5 cups × 2 = 3 cups, not 4 cups"),
        ("3 tbsp flax is 21 g right?", True, "3 tbsp × 7 g per tbsp = 21 g, right"),
        ("2 tbsp ground flax weighs 20 g", False, "2 tbsp × 7 g per tbsp = 14 g, not 20 g"),
    ],
)
def test_a_sum_gets_right_or_wrong_with_one_line_of_working(text, right, words):
    """Verdict, working and the corrected figure in one line."""
    found = check_text(text, None, FLAX)
    assert found is not None
    assert (found.right, found.words) == (right, words)
    assert text[found.start : found.end].strip()


def test_a_claim_right_somewhere_is_not_called_wrong():
    """A cup is 250 mL in most of the world, and that is said."""
    found = check_text("a cup is 250 ml, no?")
    assert found is not None
    assert (found.right, found.assumed) == (True, "taking a metric measure")
    american = check_text("a cup is 250 ml, no?", "US")
    assert american is not None
    assert not american.right


@pytest.mark.parametrize(
    "text",
    [
        "",
        "what is this?",
        "I used 2 cups",
        "ready at 4:30",
        "2% salt and 70% water on 500 g flour, 300 g water",
        "bake 25 min at 350F",
    ],
)
def test_where_there_is_no_sum_nothing_is_checked(text):
    """None, and no guess."""
    assert check_text(text) is None


def test_a_weight_claim_without_a_density_is_not_judged():
    """No density, no verdict."""
    with pytest.raises(NoKnowledge):
        check_text("3 tbsp flax is 21 g right?")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: check_ratio(0.0, 3.0, Measure.exact(1.0, "g"), Measure.exact(3.0, "g")),
        lambda: check_ratio(1.0, 3.0, Measure.exact(1.0, "g"), Measure.exact(3.0, "us_cup")),
        lambda: check_percent(Measure.exact(1.0, "g"), Measure.exact(0.0, "g"), 70.0),
        lambda: check_arithmetic(1.0, "/", 0.0, 1.0),
    ],
)
def test_sums_that_cannot_be_are_refused(wrong):
    """Division by nothing, ratios of nothing, grams against cups."""
    with pytest.raises(InvalidMeasure):
        wrong()


@given(st.integers(1, 50), st.integers(1, 50), st.floats(0.5, 100.0))
def test_a_true_ratio_is_right_and_a_false_one_is_not(a, b, amount):
    """The second amount by the ratio is right; a tenth more is not."""
    first, second = Measure.exact(amount, "g"), amount * b / a
    assert check_ratio(a, b, first, Measure.exact(second, "g")).right
    assert not check_ratio(a, b, first, Measure.exact(second * 1.1, "g")).right


@given(st.text(alphabet=" 0123456789:=%x/.½gtbspcupFCisof", max_size=50))
def test_any_text_is_checked_without_a_traceback(text):
    """Nothing but our own one-line errors comes out."""
    try:
        found = check_text(text, None, FLAX)
    except (InvalidMeasure, NoKnowledge) as fault:
        said = str(fault)
    else:
        said = found.words if found else "no sum"
    assert said
    assert "\n" not in said
