"""Amounts as people write them, and what is no amount."""

from __future__ import annotations

import csv
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.measures.parse import find_amounts, parse_amount, split_amount

TABLE = Path(__file__).parents[1] / "cases/amounts.tsv"
with TABLE.open(encoding="utf-8") as file:
    CASES = list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))


@pytest.mark.parametrize("case", CASES, ids=[case["text"] for case in CASES])
def test_reads_an_amount_as_written(case):
    """The first amount has the value, range, unit and manner that the table gives."""
    found = find_amounts(case["text"])[0]
    expected = tuple(pytest.approx(float(case[key])) for key in ("value", "low", "high"))
    assert (found.value, found.low, found.high) == expected
    assert (found.unit, found.manner) == (case["unit"], case["manner"] or "")


@pytest.mark.parametrize(
    "text",
    [
        "one of them",
        "a t-shirt",
        "1:3",
        "at 4:32",
        "the 1st",
        "my 3rd batch",
        "$5",
        "b12",
        "an apple",
        "1/0",
        "9999999999",
    ],
)
def test_finds_no_amount_where_there_is_none(text):
    """Ordinals, times, prices, ratios and articles are no amounts."""
    assert find_amounts(text) == []


def test_places_are_those_of_the_text():
    """Start and end cut the amount out of the text as it was written."""
    text = "I used 2 heaped tbsp of flax, then 1½ cups oat flour at 350f."
    assert [text[a.start : a.end] for a in find_amounts(text)] == ["2 heaped tbsp", "1½ cups", "350f"]


def test_the_sides_of_a_pan_are_two_lengths():
    """9x13 without a unit says 'pan'; with one it says the unit for both sides."""
    assert [(a.value, a.unit) for a in find_amounts("a 9x13 pan")] == [(9, "pan"), (13, "pan")]
    assert [(a.value, a.unit) for a in find_amounts("20 x 30 cm")] == [(20, "cm"), (30, "cm")]
    assert [(a.value, a.unit) for a in find_amounts("2 x 400g tins")] == [(2, ""), (400, "g")]


def test_ounces_of_weight_and_of_fluid_stay_apart():
    """Only 'fl' makes a fluid ounce."""
    assert [a.unit for a in find_amounts("8 oz flour, 8 fl oz milk")] == ["oz", "fl_oz"]


@pytest.mark.parametrize("text", ["", "flour", "2 tbsp of", "2 cups 3 tbsp", "-2 tbsp", "some", "two tbsp flax"])
def test_what_is_not_one_amount_is_refused_in_one_line(text):
    """parse_amount says what to write instead."""
    with pytest.raises(InvalidMeasure) as fault:
        parse_amount(text) if text != "2 tbsp of" else parse_amount("2 tbsp of flax")
    assert fault.value.remedy
    assert "\n" not in str(fault.value)


def test_an_amount_and_the_rest():
    """'2 tbsp potato starch' is an amount and a name."""
    amount, rest = split_amount("about 2 tbsp of potato starch")
    assert (amount.value, amount.unit, rest) == (2.0, "tbsp", "potato starch")


@given(st.text(alphabet=" 0123456789½/-.,:°acdefghlmnoprstuxy%", max_size=60))
def test_any_text_is_read_without_a_fault(text):
    """No text raises; every amount is finite, ordered, and stands where it says."""
    last = 0
    for amount in find_amounts(text):
        assert amount.low <= amount.value <= amount.high < float("inf")
        assert last <= amount.start < amount.end <= len(text)
        last = amount.end


PIECES = [
    *"1 2 10 0 / ⁄ ½ ⅔ - – & x . , : ° C T t c g cup in cm % − \" half halves third couple few us_tbsp au_x".split(),
    " / ", " - ", " and ", " a ", "an ", " quarters", " dozen", "a dozen", " of ", " to ", "between ", " or ", " by ",
    " F", " tbsp", " fl oz", "heaped ", " packed", "(us)", "gas ", "gas mark ", "seven ", "eighths", "hundred", " us ",
    " ", "\n",
]  # fmt: skip


@settings(max_examples=600)
@given(st.lists(st.sampled_from(PIECES), max_size=9).map("".join))
def test_any_mixture_of_amount_words_is_read_without_a_fault(text):
    """What people type is stranger than grammars: nothing raises, everything stays finite and in its place."""
    for amount in find_amounts(text):
        assert amount.low <= amount.value <= amount.high < float("inf")
        assert 0 <= amount.start < amount.end <= len(text)


@given(st.integers(1, 200), st.sampled_from(["g", "tbsp", "tsp", "cup", "mL", "oz", "lb"]))
def test_there_and_back(number, unit):
    """A whole number and a unit are read as what they are."""
    amount = parse_amount(f"{number} {unit}")
    assert (amount.value, amount.unit) == (number, unit)


@pytest.mark.parametrize(
    "piece", ["1 ", "a ", "1/", "1 1 ", "half ", "9x", "one and ", "1,000", "heaped ", "2 to ", "½ "]
)
def test_hostile_text_takes_linear_time(piece):
    """Eight times the text costs at most some sixteen times the time."""
    times = []
    for repeats in (500, 4000):
        text = piece * repeats
        best = float("inf")
        for _ in range(3):
            start = time.process_time()
            find_amounts(text)
            best = min(best, time.process_time() - start)
        times.append(best)
    assert times[1] < 16 * times[0] + 0.05
