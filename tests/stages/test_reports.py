"""What a viewer's result tells of an outcome, and of its suspects. The comments are invented."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.knowledge.load import load_knowledge
from qa.records import Mention, Piece, Understood
from qa.settings import shipped
from qa.stages.extract import reports
from qa.stages.extract.dishes import symptoms, tells_of
from qa.stages.tally import outcome

NAMES = {"moonflour": "moonflour", "starflour": "starflour"}
RECIPE = reports.Recipe(("moonflour.raw", "sugar.white"), 11, 175)


def said(text: str, *items: str, kinds=("result",)) -> Understood:
    """A comment whose sentences are all of these kinds; items are named in it, as 'word=item' or by their own word."""
    pieces = tuple(
        Piece(found.start(), found.end(), found.group(), tuple((kind, 0.9) for kind in kinds))
        for found in re.finditer(r"[^.!?]+[.!?]?", text)
    )
    mentions = []
    for item in items:
        word, _, meant = item.partition("=")
        ingredient, _, form = (meant or word).partition(".")
        mentions += [
            Mention(found.start(), found.end(), found.group(), ingredient, form) for found in re.finditer(word, text)
        ]
    mentions.sort(key=lambda mention: mention.start)
    return Understood("c", text, "en", tuple((kind, 0.9) for kind in kinds), pieces, tuple(mentions), ())


@pytest.mark.parametrize(
    ("word", "text", "came"),
    [
        ("green", "green by breakfast", True),
        ("green", "GREEN all through", True),
        ("green", "not one bit green", False),
        ("green", "did not become green", False),
        ("green", "stayed brown for three days", False),
        ("green", "brown as a boot", False),
        ("green", "with green tea", None),
        ("green", "lovely with coffee", None),
        ("green", "green outside and not green inside", None),
        ("sunk", "it sank in the middle", True),
        ("sunk", "rose beautifully", False),
        ("dense", "dense as a brick", True),
        ("khaki", "khaki round the chips", True),
        ("khaki", "no khaki at all", False),
        ("white spots", "covered in white spots", True),
        ("well-risen", "not well-risen this time", False),
    ],
)
def test_whether_an_outcome_came(word, text, came):
    assert reports.had_in(word)(text) is came


def test_every_symptom_tells_of_itself():
    """A word that names a symptom is found as it is typed, or it could not be asked about."""
    named = [name for name in symptoms() if [*tells_of(name)(f"mine were {name} again")]]
    assert set(symptoms()) - set(named) == set()


def batches(one, word="green", recipe=RECIPE, moon=None):
    return reports.batches(one, word, recipe, moon, outcome)


def test_only_results_tell(moon):
    assert batches(said("it went green", kinds=("question",)), moon=moon) == []
    assert len(batches(said("it went green"), moon=moon)) == 1


def test_a_report_of_two_bakes_is_cut_where_the_outcome_changes(moon):
    one = said("With lemon they stayed brown. With no lemon they were green by morning.", "lemon")
    first, second = batches(one, moon=moon)
    assert (first.had, first.told["lemon"]) == (False, True)
    assert (second.had, second.told["lemon"]) == (True, False)
    assert [batch.source for batch in (first, second)] == ["c (1)", "c (2)"]


def test_two_bakes_in_one_sentence(moon):
    one = said("the bag half stayed tan for days, the bowl half went green overnight")
    assert [batch.had for batch in batches(one, moon=moon)] == [False, True]


def test_used_less_and_not_used(moon):
    one = said(
        "Half the moonflour, some vinegar and no lemon: no green at all.", "moonflour=moonflour.raw", "vinegar", "lemon"
    )
    (found,) = batches(one, moon=moon)
    assert found.had is False
    assert found.told["moonflour"] is True
    assert found.told["less:moonflour"] is True
    assert found.told["vinegar"] is True
    assert found.told["lemon"] is False


def test_what_something_stood_in_for_was_not_used(moon):
    (found,) = batches(said("used honey instead of sugar and they went green", "honey", "sugar"), moon=moon)
    assert (found.told["honey"], found.told["sugar"]) == (True, False)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("baked 15 min, not green", {"time: longer than shown": True, "time: shorter than shown": False}),
        ("baked from frozen 11 minutes, still green", {"time: longer than shown": False}),
        ("oven at 350 F and green", {"heat: hotter than shown": False, "heat: cooler than shown": False}),
        ("oven at 160 C and green", {"heat: cooler than shown": True}),
    ],
)
def test_time_and_heat_beside_what_was_shown(moon, text, told):
    (found,) = batches(said(text), moon=moon)
    assert told.items() <= found.told.items()


def test_what_is_no_baking_tells_no_time(moon):
    (found,) = batches(said("green after 30 min on the rack"), moon=moon)
    assert [key for key in found.told if key.startswith(("time", "heat"))] == []


def test_the_recipe_is_read_from_the_upload():
    """The invented cookies: 175 degrees for 11 minutes; the loaf is baked in stages, so it has none."""
    episodes = {one.id: one for one in load_knowledge(shipped("knowledge"), invented=True)[0].knowledge.episodes}
    cookies, loaf = (reports.recipe_of(episodes[key]) for key in ("green-cookies", "white-loaf"))
    assert (cookies.minutes, cookies.celsius) == (11, 175)
    assert (loaf.minutes, loaf.celsius) == (None, None)
    assert "sunflower.butter" in cookies.items


def test_a_named_pan_rules_out_the_others(moon):
    (found,) = batches(said("baked in a glass dish, not green"), moon=moon)
    assert found.told["pan: glass or ceramic"] is True
    assert found.told["pan: metal"] is False


def test_brown_sugar_is_no_brown_crumb(moon):
    assert batches(said("with brown sugar it was lovely", "brown sugar=sugar.white"), moon=moon) == []


def test_whoever_is_happy_and_names_no_fault_did_not_have_it(moon):
    """Not so for a colour: green cookies can be lovely."""
    happy = said("they were perfect, so soft")
    assert outcome("sunk") == "bad"
    assert [batch.had for batch in batches(happy, "sunk", moon=moon)] == [False]
    assert batches(happy, "green", moon=moon) == []


@given(st.text(max_size=80))
def test_any_text_is_read(text):
    for batch in reports.batches(said(text), "green", None, None, outcome):  # type: ignore[arg-type]
        assert isinstance(batch.had, bool)
