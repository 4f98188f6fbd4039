"""Labels, pans, eggs and ovens as people write them, and which sum a text shows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.kitchen.read_labels import find_labels
from qa.kitchen.read_pans import find_eggs, find_oven, find_pans
from qa.kitchen.shows import SHOWN, shows


@pytest.mark.parametrize(
    ("text", "labels"),
    [
        ("carbs 14g fibre 38g per 100g so free carbs!!", [({"carbohydrate": "14", "fibre": "38"}, 100.0)]),
        ("14 g carbs and 38 g of fibre per 100 g", [({"carbohydrate": "14", "fibre": "38"}, 100.0)]),
        ("per 100 g: carbs 14, fibre 38", [({"carbohydrate": "14", "fibre": "38"}, 100.0)]),
        ("carbohydrate: <0.5 g per 10 g serving", [({"carbohydrate": "<0.5"}, 10.0)]),
        ("total carbs 12 fiber 9 erythritol 5 in a 30 g portion",
         [({"carbohydrate": "12", "fibre": "9", "erythritol": "5"}, 30.0)]),
        ("one says 3g carbs per 15 g, other 2g per 7 g", [({"carbohydrate": "3"}, 15.0), ({"carbohydrate": "2"}, 7.0)]),
        ("2 g per 7 g vs 3 g per 15 g carbs", [({"carbohydrate": "2"}, 7.0), ({"carbohydrate": "3"}, 15.0)]),
        ("1 g net per teaspoon", [({"net": "1"}, 1.0)]),
        ("bake 20 min at 180 C", []),
        ("is it low carb?", []),
    ],
)  # fmt: skip
def test_labels_are_read_whichever_way_they_are_quoted(text, labels):
    found = [({n: line.printed for n, line in one.lines.items()}, one.serving.value) for one in find_labels(text)]
    assert found == labels


@pytest.mark.parametrize(
    ("text", "claimed"),
    [
        ("carbs 14g fibre 38g per 100g so thats minus 24 net??", -24.0),
        ("12g carbs 9g fiber so 3g net right?", 3.0),
        ("total carbs 12 fiber 9 per 30g serving is 3 net", 3.0),
        ("12g carbs 9g fiber", None),
    ],
)
def test_what_the_writer_made_of_the_label(text, claimed):
    assert find_labels(text)[0].claimed == claimed


@pytest.mark.parametrize(
    ("text", "pans"),
    [
        ("recipe for 20cm round tin, i have 23cm", ["20 cm round", "23 cm round"]),
        ("8 inch round to 9x13", ["8 inch round", "9 × 13 inch"]),
        ("6 inch round cake from an 8 inch recipe", ["8 inch round", "6 inch round"]),
        ("two 8 inch rounds or one 9x13", ["2 of 8 inch round", "9 × 13 inch"]),
        ("wants a 20cm tin and I have 2 x 15cm", ["20 cm round", "2 of 15 cm round"]),
        ("bake in a tin", []),
        ("I want to do this in a 23 cm tin in place of the 20, do I need more?", ["20 cm round", "23 cm round"]),
        ("I have a 26 cm springform and your cake is 20, double it?", ["20 cm round", "26 cm round"]),
        ("recipe says 20cm but mine is 23", ["20 cm round", "23 cm round"]),
        ("only got a 9 inch tin and it says 8, is that ok", ["8 inch round", "9 inch round"]),
        ("an 8 inch cake, and the recipe says 6 eggs", []),
        ("8 inch tin instead of 12 muffins", []),
    ],
)
def test_pans_come_the_recipes_own_first(text, pans):
    assert [pan.text for pan in find_pans(text)] == pans


@pytest.mark.parametrize(
    ("text", "eggs"),
    [
        ("recipe has 3 eggs, I have 2", (3.0, 2.0)),
        ("i have 2 eggs, recipe needs 3", (3.0, 2.0)),
        ("7 eggs for 8 what do i change", (8.0, 7.0)),
        ("it calls for 3 eggs and i have 2 can i still make it", (3.0, 2.0)),
        ("3 eggs and 2 cups flour", None),
        ("2 spoons for 3 cups", None),
    ],
)
def test_eggs_wanted_and_eggs_on_hand(text, eggs):
    assert find_eggs(text) == eggs


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [("gas mark 4 in celsius", 4.0, "gas_mark"), ("what gas mark is 350", 350.0, "deg"), ("350F?", 350.0, "degF")],
)
def test_oven_settings(text, value, unit):
    found = find_oven(text)
    assert found is not None
    assert (found.value, found.unit) == (value, unit)


@pytest.mark.parametrize(
    ("text", "sums"),
    [
        ("carbs 14g fibre 38g per 100g", {"label"}),
        ("3g carbs per 15 g, other 2g per 7 g", {"labels"}),
        ("500 flour 350 water is 70% right?", {"sum"}),
        ("500 flour 350 water is 70% right? and the 60g of yogurt?", {"dough"}),
        ("1/4 tsp soda + 1/2 tsp cream of tartar = 1 tsp. true?", {"soda and tartar"}),
        ("8 inch round to 9x13", {"pans"}),
        ("recipe has 3 eggs, I have 2", {"eggs"}),
        ("what gas mark is 350", {"oven", "degrees", "to gas"}),
        ("gas mark 4?", {"oven", "gas mark"}),
        ("1 tsp baking powder", {"powder"}),
        ("do i subtract fiber from carbs on a uk label", set()),
    ],
)
def test_which_sum_a_text_shows(text, sums):
    assert shows(text) - {"amount"} == sums


WORDS = [
    *"0123456789/.,%½",
    "g",
    "tsp",
    "carbs",
    "fibre",
    "per",
    "eggs",
    "have",
    "soda",
    "tartar",
    "flour",
    "milk",
    "x",
]


@given(st.lists(st.sampled_from(WORDS), max_size=12), st.sampled_from(["", " "]))
def test_no_text_breaks_the_readers(words, between):
    text = between.join(words)
    assert shows(text) <= set(SHOWN)
    assert all(label.lines for label in find_labels(text, "carbohydrate"))
