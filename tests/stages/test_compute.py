"""Recipes for figures, followed through made-up knowledge."""

import dataclasses

import pytest

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.measures.parse import find_amounts
from qa.records import Ask
from qa.stages.compute import Asked, compute, follow


def asked(library, text, *items, region=""):
    return Asked(Ask("weight", 0, len(text), text, items, tuple(find_amounts(text)), region=region), library, region)


@pytest.mark.parametrize(
    ("text", "items", "recipe", "shown"),
    [
        ("3 us tbsp", ["moonflour"], "weigh asked of first", "21 g"),
        ("3 au tbsp", ["moonflour"], "weigh asked of first", "28 g"),
        ("", [], "weigh 1 us_tbsp of moonflour.fine", "7 g"),
        ("100 g", ["moonflour.fine"], "weigh asked of first", "100 g"),
        ("2 us tbsp", ["moonflour"], "swap asked of first for starflour.white", "14 g"),
        ("40 g", ["moonflour", "starflour"], "swap asked of first for second", "40 g"),
        ("350 °F", [], "convert asked to degC", "177 °C"),
        ("", [], "definition au_tbsp in mL", "20 mL"),
        ("take 3 spoonfuls", [], "theirs 1", "3 spoonfuls"),
    ],
)
def test_what_each_verb_works_out(moon, text, items, recipe, shown):
    figure = follow(recipe, asked(moon, text, *items))
    assert figure.low <= figure.value <= figure.high
    if "swap asked of first for starflour" in recipe:
        assert figure.unit in {"g", "us_tbsp"}
    else:
        assert figure.text == shown


def test_there_and_back_by_spoon(moon):
    grams = follow("weigh 4 us_tbsp of moonflour.fine", asked(moon, ""))
    spoons = follow(f"measure {grams.value} g of moonflour.fine in us_tbsp", asked(moon, ""))
    assert spoons.value == pytest.approx(4)


def test_a_figure_names_its_facts_and_working(moon):
    figure = follow("weigh asked of first", asked(moon, "3 us tbsp", "moonflour"))
    assert figure.facts == ("moonflour.fine.bulk-density.moon-tables",)
    assert "3 tbsp × 7 g per tbsp = 21 g" in figure.working


def test_what_was_assumed_is_said_once(moon):
    ask = asked(moon, "3 tbsp", "moonflour")
    follow("weigh asked of first", ask)
    follow("weigh asked of first", ask)
    assert ask.assumption == "taking a US tablespoon"


def test_the_askers_region_leaves_nothing_to_assume(moon):
    ask = asked(moon, "1 tbsp", "moonflour", region="AU")
    assert follow("weigh asked of first", ask).value == pytest.approx(7 * 20 / 14.78676478125)
    assert ask.assumption == ""


def test_their_own_number_is_marked_as_theirs(moon):
    figure = follow("theirs 1", asked(moon, "i put 3 tbsp in"))
    assert figure.theirs
    assert (figure.text, figure.facts) == ("3 tbsp", ())


@pytest.mark.parametrize(
    ("text", "items", "recipe", "reason"),
    [
        ("", ["moonflour"], "weigh asked of first", "missing_amount"),
        ("3 tbsp", [], "weigh asked of first", "missing_ingredient"),
        ("3 tbsp", ["moonflour"], "swap asked of first for second", "missing_ingredient"),
        ("3", ["moonflour"], "theirs 2", "missing_amount"),
        ("a packet", ["moonflour"], "weigh asked of first", "missing_measure"),
    ],
)
def test_what_an_ask_lacks_is_named(moon, text, items, recipe, reason):
    with pytest.raises(Missing) as lack:
        follow(recipe, asked(moon, text, *items))
    assert lack.value.reason == reason


@pytest.mark.parametrize(
    "recipe",
    [
        "weigh 1 us_tbsp of starflour.white of",
        "guess the weight",
        "",
    ],
)
def test_a_recipe_nobody_can_read_is_refused(moon, recipe):
    with pytest.raises(InvalidMeasure, match="no recipe"):
        follow(recipe, asked(moon, "3 tbsp", "moonflour"))


@pytest.mark.parametrize(
    "recipe",
    [
        "weigh 1 each of moonflour.coarse",
        "swap 1 g of starflour.white for moonflour.fine",
        "property sweetness of moonflour",
    ],
)
def test_no_fact_no_answer(moon, recipe):
    with pytest.raises(NoKnowledge):
        follow(recipe, asked(moon, ""))


def test_all_figures_of_an_answer(moon):
    text = "3 us tbsp"
    ask = Ask("weight", 0, len(text), text, ("moonflour",), tuple(find_amounts(text)))
    done = compute(ask, moon.answer("weigh-moonflour"), moon, "")
    assert {name: figure.text for name, figure in done.figures.items()} == {"mass": "21 g", "spoon": "7 g"}
    assert done.items == ("moonflour.fine",)


def test_the_channels_region_helps_where_the_asker_gives_none(moon):
    text = "1 tbsp"
    ask = Ask("weight", 0, len(text), text, ("moonflour",), tuple(find_amounts(text)))
    standing = dataclasses.replace(moon.answer("weigh-moonflour"), figures=(("mass", "weigh asked of first"),))
    assert (
        compute(ask, standing, moon, "AU").figures["mass"].value
        > compute(ask, standing, moon, "US").figures["mass"].value
    )
