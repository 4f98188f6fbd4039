"""The dish an ask is about, and the failure it speaks of: words that are easily taken for others."""

import pytest

from qa.stages.extract.dishes import dish_of, symptom_of


@pytest.mark.parametrize(
    ("text", "dish"),
    [
        ("Can I freeze the dough for pizza?", "pizza"),
        ("Which batter do you use for waffles", "waffles"),
        ("What frosting goes on carrot cake?", "cake"),
        ("How do I keep a crust flaky under a quiche?", "quiche"),
        ("Which sauce goes with profiteroles?", "profiteroles"),
        ("How long does the dough keep?", "dough"),
        ("my dough turned into soup", "dough"),
        ("Batter is soup, why", "batter"),
        ("why did my loaf come out flat as a pancake", "loaf"),
        ("Went flat like a pancake", ""),
        ("my dough always spreads into a pancake", "dough"),
        ("Do I double the yeast for two loaves?", "loaf"),
        ("Can the flatbreads be made without yoghurt?", "flatbread"),
        ("Can flour thicken my soup?", "soup"),
        ("should the oats go on the crumble raw", "crumble"),
        ("Rhubarb crumble went pale", "rhubarb crumble"),
        ("they crumble when I cut them", ""),
        ("Gnocchi dough, can it wait?", "gnocchi"),
        ("puff pastry in hot weather", "puff pastry"),
        ("What makes an éclair crisp", "éclair"),
        ("Pretzels or challah first?", "pretzels"),
        ("they spread into one giant pancake on the tray", ""),
        ("Cookies came out puffy, like little cakes", "cookies"),
        ("these brownies are more like bread", "brownies"),
        ("I like muffins tall", "muffins"),
        ("flapjacks that fall to bits", "flapjacks"),
        ("sausage rolls leaked", "sausage rolls"),
        ("my hand pies burst and the jam came out", "pie"),
        ("Do the tarts need a blind bake?", "tart"),
        ("baguettes with no holes, why", "baguette"),
        ("my pandesal went wrinkly", "rolls"),
        ("Does pastry cream freeze?", "pastry cream"),
        ("how do I unmould a panna cotta", "panna cotta"),
        ("My pav is leaking syrup", "pav"),
        ("the caramels never hardened", "caramels"),
        ("my crème brûlée never set", "creme brulee"),
        ("two creme brulees stayed liquid", "creme brulee"),
        ("Creme caramel full of holes", "creme caramel"),
        ("the brigadeiros won't roll", "brigadeiros"),
        ("Sorbet that stays soft, how", "sorbet"),
        ("batter like jelly", "batter"),
        ("the peanut brittle is sticky", "peanut brittle"),
        ("they are so brittle they snap", ""),
        ("my ginger nuts never snap", "biscuits"),
        ("Do the Anzacs need coconut", "biscuits"),
        ("Is cake flour needed for cookies?", "cookies"),
        ("shortcrust with oil, any good", "pastry"),
        ("the dough sticks when I roll it", "dough"),
        ("how thin do I roll the crackers", "crackers"),
        ("my swiss roll cracked", "swiss roll"),
        ("how much seed to a soft roll", "soft roll"),
        ("what replaces buttermilk? we have milk and curd", ""),
        ("is my lemon curd too thin", "curd"),
    ],
)
def test_the_dish_is_the_one_that_is_made(text: str, dish: str) -> None:
    assert dish_of(text, text) == dish


def test_the_asking_counts_before_the_rest_of_the_comment() -> None:
    assert dish_of("Can I freeze the dough?", "Lovely pizza. Can I freeze the dough?") == "dough"
    assert dish_of("Can I freeze it?", "That dough for pizza! Can I freeze it?") == "pizza"


@pytest.mark.parametrize(
    ("text", "symptom"),
    [
        ("Why are my pancakes tough", "dense"),
        ("crackers went chewy", ""),
        ("rubbery though there are no lumps", ""),
        ("Pancakes with no colour, too pale", "pale"),
        ("my loaf is flat as a pancake", "flat"),
        ("Loaf came out like pancake", "flat"),
        ("Why won't my muffins dome", "flat"),
        ("Volcano on every sponge", "domed"),
        ("pie has a wet bottom", "soggy"),
        ("Wet in the middle after an hour", "gummy"),
        ("the dough is too wet to shape", "sticky"),
        ("it burnt on the baking stone", "burnt"),
        ("loaf like a stone", "dense"),
        ("my heavy cream came out grainy", "gritty"),
        ("crumb is sandy", "gritty"),
        ("they crumble at a touch", "dry"),
        ("my ganache split when I stirred it", "curdled"),
        ("why did the custard go and split", "curdled"),
        ("it split as I added the cream", "curdled"),
        ("the loaf split at the side", "cracked"),
        ("crust separates and has a crack", "cracked"),
        ("batter like soup", "runny"),
        ("soup tastes bitter", "bitter"),
        ("cake sticks to the tin", "stuck"),
        ("pastry shrank down the sides", "shrunk"),
        ("lumps in the gravy", "lumpy"),
        ("chocolate seized on me", "seized"),
        ("caramel full of crystals though I did not let it burn", "gritty"),
        ("the fudge never set", "runny"),
        ("tunnels in the muffins", "tunnels"),
        ("cookies are far too sweet", "too sweet"),
        ("batter is too thick to pour", "too thick"),
        ("bread tastes sour", "sour"),
        ("sour cream cake came out greasy", "greasy"),
        ("rolls stale by noon", "stale"),
    ],
)
def test_a_failure_is_not_taken_for_another(text: str, symptom: str) -> None:
    assert symptom_of("went_wrong", text) == symptom


def test_only_a_failure_has_a_symptom() -> None:
    assert symptom_of("method", "how do I keep my sauce from splitting") == ""
