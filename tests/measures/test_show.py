"""The rounding rule."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.measures.show import plain, show, show_range, unit_name


@pytest.mark.parametrize(
    ("value", "half_range", "unit", "text"),
    [
        (21.0, 1.73, "g", "21 g"),
        (125.0, 0.58, "g", "125 g"),
        (3.42, 0.1, "g", "3.4 g"),
        (4.6, 0.06, "g", "4.6 g"),
        (0.033, 0.002, "g", "0.03 g"),
        (0.0, 0.0, "g", "0 g"),
        (563.0, 23.0, "g", "560 g"),
        (125.0, 24.0, "g", "130 g"),
        (125.0, 12.0, "g", "125 g"),
        (1.0, 40.0, "g", "under 50 g"),
        (1.68, 0.08, "us_tbsp", "1⅔ tbsp"),
        (0.86, 0.01, "us_tsp", "⅞ tsp"),
        (0.125, 0.0, "au_tbsp", "⅛ tbsp"),
        (0.02, 0.0, "us_tsp", "under ⅛ tsp"),
        (2.0, 0.0, "us_cup", "2 cups"),
        (0.75, 0.0, "metric_cup", "¾ cup"),
        (3.57, 0.3, "us_tbsp", "3½ tbsp"),
        (12.4, 0.1, "us_cup", "12 cups"),
        (176.67, 0.0, "degC", "177 °C"),
        (-18.0, 0.0, "degC", "−18 °C"),
        (44.07, 0.0, "percent", "44 %"),
        (2.0, 0.0, "percent", "2 %"),
        (250.0, 0.0, "kcal", "250 kcal"),
        (2.24, 0.0, "", "2.24"),
        (4.0, 0.0, "each", "4"),
        (0.947, 0.0, "g/mL", "0.947 g per mL"),
        (7.0, 0.58, "g/us_tbsp", "7 g per tbsp"),
        (4.0, 0.0, "gas_mark", "gas mark 4"),
        (1.5, 0.0, "h", "1½ h"),
    ],
)
def test_shown_as_a_kitchen_can_use_it(value, half_range, unit, text):
    """A scale shows grams, a spoon fractions, and neither more than is known."""
    assert show(value, value - half_range, value + half_range, unit) == text


def test_ranges_are_shown_with_one_unit():
    """Both ends, or one value where they round to the same."""
    assert show_range(16.7, 23.3, "g") == "17 to 23 g"
    assert show_range(21.0, 21.2, "g") == "21 g"
    assert show_range(2.0, 3.0, "us_tbsp") == "2 to 3 tbsp"
    assert show_range(0.5, 1.5, "g") == "0.5 to 1.5 g"


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_what_is_not_finite_is_never_shown(bad):
    """NaN and infinity are refused."""
    with pytest.raises(InvalidMeasure):
        show(bad, 0.0, 1.0, "g")


def last_place(text: str) -> float:
    """The value of one step of the last digit shown, zeros before the point not counted as digits."""
    number = re.sub(r"[^\d.]", "", text)
    if "." in number:
        return 10.0 ** -len(number.partition(".")[2])
    stripped = number.rstrip("0")
    return 10.0 ** (len(number) - len(stripped)) if stripped else math.inf


@given(st.floats(0.001, 1e5), st.floats(1e-4, 2.0))
def test_never_a_digit_finer_than_the_spread(value, relative):
    """The last digit's place is never in a decade below that of one standard spread."""
    spread = value * relative
    text = show(value, value - 2 * spread, value + 2 * spread, "g")
    decade = 10.0 ** math.floor(math.log10(spread) + 1e-9)
    assert last_place(text) >= decade * 0.999 or text.startswith("0 ")


@given(st.floats(0.2, 30.0), st.floats(0.01, 0.5), st.sampled_from(["us_tsp", "au_tbsp", "metric_cup"]))
def test_never_a_fraction_finer_than_the_spread(value, relative, unit):
    """An eighth is shown only where one standard spread is no more than an eighth, and so on."""
    spread = value * relative
    text = show(value, value - 2 * spread, value + 2 * spread, unit)
    finest = {"⅛": 8, "⅜": 8, "⅝": 8, "⅞": 8, "¼": 4, "¾": 4, "⅓": 3, "⅔": 3, "½": 2}
    shown = max((finest[sign] for sign in text if sign in finest), default=1)
    assert shown == 1 or 1 / shown >= spread - 1e-9


@given(st.floats(0.01, 30.0), st.sampled_from(["us_tsp", "us_tbsp", "metric_cup"]))
def test_spoons_are_rounded_to_a_near_fraction(value, unit):
    """The fraction shown lies within a sixteenth of a small amount and within half a spoon of a large one."""
    text = show(value, value, value, unit).split()[0]
    assume(text != "under")
    signs = {"½": 1 / 2, "⅓": 1 / 3, "⅔": 2 / 3, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}
    number = float(text.rstrip("".join(signs)) or 0) + sum(signs[c] for c in text if c in signs)
    allowed = 1 / 16 if value <= 2 else 1 / 8 if value <= 5 else 1 / 4 if value <= 10 else 1 / 2
    assert abs(number - value) <= allowed + 1e-9


@given(st.floats(1e-6, 1e6))
def test_a_line_of_working_keeps_four_digits(value):
    """plain() never shows an exponent and is right to a half of the fourth digit."""
    text = plain(value)
    assert "e" not in text
    assert float(text) == pytest.approx(value, rel=1e-3)


def test_units_are_named_for_people():
    """No underscores, no prefixes, plurals where a cook says them."""
    assert [unit_name(u, 2.0) for u in ("us_cup", "metric_tbsp", "fl_oz", "imperial_pint", "pct", "degC")] == [
        "cups", "tbsp", "fl oz", "pints", "%", "°C",
    ]  # fmt: skip
