"""The trade's sums from words as people type them: published rows, wrong input, and words nobody would type."""

import csv
import math
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from qa import contract
from qa.calculator import Sums
from qa.errors import InvalidMeasure, LevelspoonError, NoKnowledge
from qa.knowledge.load import load_knowledge
from qa.settings import shipped

LIBRARY = load_knowledge(shipped("knowledge"))[0]
US, UK, ANYWHERE = (Sums(LIBRARY, region) for region in ("US", "UK", ""))
CASES = Path(__file__).with_name("cases")


def table(name):
    with (CASES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


RULES = {row["id"]: row for row in table("kitchen_rules.csv")}


# -- labels --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words", ["14 g fibre 38 g per 100 g", "carbs 14g, fibre 38g per 100g", "14g carbs 38g fibre/100g"]
)
def test_a_british_label_is_read_as_it_stands_and_subtracting_is_refused(words):
    found = UK.carbs(words)
    assert (found["text"], found["low"], found["high"]) == ("14 g", 13.5, 14.5)
    assert any("count it twice" in note for note in found["readings"][0]["notes"])


def test_an_american_label_loses_its_fibre_and_keeps_its_rounding():
    found = US.carbs("12 g carbs 9 g fiber per 30 g")
    assert (found["value"], found["low"], found["high"]) == (3.0, 2.0, 4.0)


def test_a_label_of_an_unknown_country_is_read_both_ways():
    found = ANYWHERE.carbs("12 g carbs 9 g fiber per 30 g")
    assert [(one["region"], one["value"]) for one in found["readings"]] == [("US", 3.0), ("EU", 12.0)]


def test_an_american_figure_means_the_whole_gram_of_its_rule():
    """Rules US-CARB-LT1 and US-CARB-1 of the FDA's Food Labeling Guide, Appendix H: to the nearest gram."""
    step = next(float(row["step"]) for row in table("label_rules.csv") if row["rule_id"] == "US-CARB-1")
    for printed in range(1, 40):
        found = US.carbs(f"{printed} g carbs per 30 g")
        assert (found["low"], found["high"]) == (printed - step / 2, printed + step / 2)


def test_rounding_alone_can_explain_the_two_bags():
    """3 g in 15 g and 2 g in 7 g, whole grams by the FDA's Food Labeling Guide, Appendix H."""
    found = US.compare("3 g per 15 g", "2 g per 7 g")
    assert found["explained"]
    assert (found["first"]["text"], found["second"]["text"], found["text"]) == (
        "17 to 23 g",
        "21 to 36 g",
        "1.43 times",
    )


def test_husk_and_powder_by_the_spoon():
    """Common practice, no source: 1 g net in two tablespoons of husk and in a teaspoon of powder, 3.6 times apart."""
    found = US.compare("1 g net per 2 tbsp whole psyllium husk", "1 g net per tsp psyllium powder")
    assert found["value"] == pytest.approx(3.6, abs=0.05)
    assert found["explained"]


def test_what_rounding_cannot_explain():
    assert not US.compare("3 g per 15 g", "9 g per 15 g")["explained"]


def test_food_by_the_spoon_goes_by_its_composition():
    """AUSNUT 2011: 1.3 g of carbohydrate without fibre in 100 g of psyllium husk; 12 g in two US tablespoons."""
    found = US.carbs("2 tbsp psyllium husk")
    assert found["value"] == pytest.approx(0.156)
    assert {"psyllium.husk.carbohydrate-without-fibre.ausnut-2011"} < set(found["facts"])


# -- leavening -----------------------------------------------------------------------------------------------------


def test_the_popular_spoon_rule_spends_58_percent():
    """Stoichiometry 2.24 (Food additives data book) and USDA SR26: 4.6 g and 3.0 g a teaspoon."""
    found = US.leaven("1/4 tsp soda", ("1/2 tsp cream of tartar",))
    assert found["share"] is not None
    assert found["share"]["text"] == "58 %"
    assert found["share"]["value"] == pytest.approx(100 * 1.5 / 2.240 / 1.15, abs=0.2)
    assert found["signs"]
    assert "58 %" in US.leaven("1 tsp baking powder")["verdict"]


def test_soda_and_its_weight_times_2_24_of_tartar_are_even():
    ratio = float(next(row["value"] for row in table("leavening.csv") if row["id"] == "RATIO-COT-SODA"))
    found = ANYWHERE.leaven("10 g soda", (f"{10 * ratio:.1f} g cream of tartar",))
    assert found["value"] == pytest.approx(0, abs=0.01)
    assert not found["signs"]


def test_what_replaces_baking_powder_lifts_like_it():
    """12 % of its mass as gas (USDA definition, from memory): 1 g of gas in 8.33 g."""
    found = ANYWHERE.leaven("100 g baking powder")
    assert found["gas"] is not None
    assert found["gas"]["value"] == pytest.approx(12.0)


# -- sweetness -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["erythritol", "maltitol", "sorbitol", "mannitol", "lactitol"])
def test_published_sweetness_bounds_the_amount(name):
    """J Food Sci Technol 2014;51(4):611-621, Table 2."""
    row = next(r for r in table("sweetness.csv") if r["sweetener"] == name and r["source"].startswith("J Food Sci"))
    found = ANYWHERE.sweeten("100 g sugar", name)
    assert found["low"] == pytest.approx(100 / float(row["high"]))
    assert found["high"] == pytest.approx(100 / float(row["low"]))


def test_an_extract_leaves_all_the_bulk_to_make_up():
    found = ANYWHERE.sweeten("100 g sugar", "pure stevia extract")
    assert found["is_extract"]
    assert found["bulk_lost"]["value"] > 99


# -- scaling, heat, checks -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rule", "old", "new"),
    [
        ("PAN-8R-9R", "8 inch round", "9 inch round"),
        ("PAN-8S-9X13", "8 inch square", "9x13 inch"),
        ("PAN-20R-23R", "20 cm round", "23 cm"),
        ("PAN-9R-8S", "9 inch round", "8 inch square"),
    ],
)
def test_pan_factors(rule, old, new):
    assert ANYWHERE.scale(pans=(old, new))["value"] == pytest.approx(float(RULES[rule]["output"]), abs=0.005)


def test_scaled_amounts_stay_in_their_measure():
    assert ANYWHERE.scale("500 g flour", times=1.5)["text"] == "750 g"
    assert US.scale("2 tbsp flax", times=0.5)["text"] == "1 tbsp"
    assert ANYWHERE.scale(eggs=(3, 2))["value"] == pytest.approx(2 / 3)


def test_an_episodes_recipe_is_scaled_line_by_line():
    library = load_knowledge(shipped("knowledge"), invented=True)[0]
    found = Sums(library).scale(times=2, episode="seed-eggs")
    recipe = {line.item: line.grams for line in library.episode("seed-eggs").lines}
    scaled = {f"{line['ingredient']}.{line['form']}": line["value"] for line in found["lines"]}
    assert scaled == {item: pytest.approx(2 * grams) for item, grams in recipe.items()}


@pytest.mark.parametrize("mark", range(1, 10))
def test_gas_marks(mark):
    found = ANYWHERE.oven(f"gas mark {mark}")
    printed = [float(part) for part in RULES[f"GAS-{mark}"]["output"].replace("-", " ").replace("to", " ").split()]
    assert found["low"] - 5 <= min(printed) <= max(printed) <= found["high"] + 5


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.startswith("BOIL-PUB-")])
def test_boiling_points_of_a_published_chart(rule):
    row = RULES[rule]
    assert ANYWHERE.altitude(row["input"])["value"] == pytest.approx(float(row["output"]), abs=0.4)


def test_a_bare_number_is_read_on_every_scale_it_can_mean():
    assert [one["scale"] for one in ANYWHERE.oven("220")["readings"]] == ["degC", "degF"]
    assert [one["scale"] for one in ANYWHERE.oven("350")["readings"]] == ["degF"]


def test_safe_cores_name_their_authority():
    found = ANYWHERE.core("poultry")
    assert (found["cores"][0]["printed"], found["cores"][0]["authority"]) == ("165 °F (74 °C)", "USDA FSIS")
    assert len(ANYWHERE.core("all")["cores"]) > 4


@pytest.mark.parametrize(
    ("words", "right", "result"),
    [
        ("500 g flour and 350 g water is 70 %", True, "70 %"),
        ("500 g flour and 300 g water is 70 %", False, "60 %"),
        ("500 flour 350 water is 70% hydration right? and does the 60g of yogurt count", True, "81 %"),
        ("500 g flour, 250 g whole milk is 50 % hydration", False, "44 %"),
        ("flax is 1:3 so 2 tbsp flax to 6 tbsp water", True, "6 tbsp"),
        ("2 us tbsp ground flax weighs 20 g", False, "14 g"),
        ("half of ¾ cup is ⅓ cup", False, "⅜ cup"),
    ],
)
def test_sums_of_the_askers_own(words, right, result):
    """Hydration: 70 by bakers' percentages; yogurt and milk by their water in USDA SR26 (01116, 01077)."""
    found = ANYWHERE.check_sum(words)
    assert (found["right"], found["text"]) == (right, result)


def test_references_of_yeast_disagree_and_that_is_said():
    assert ANYWHERE.swap("20 g fresh yeast", "instant yeast")["references"].startswith("reference tables disagree")
    assert ANYWHERE.swap("1 tbsp ground flax", "ground chia")["references"] == ""


def test_a_weight_says_where_sources_disagree_and_gives_all():
    found = US.weigh("2 tbsp psyllium husk")
    assert found["disagreement"] == "two sources disagree beyond their spread: 10 g and 15 g"
    assert [other["text"] for other in found["others"]] == ["10 g", "15 g"]
    assert US.weigh("100 g flour in cups")["others"] == []


def test_spoons_asked_for_are_the_regions_own():
    """20 mL and 14.79 mL: what weighs the same fills fewer Australian tablespoons."""
    units = [sums.weigh("100 g honey in tablespoons")["unit"] for sums in (US, Sums(LIBRARY, "AU"), ANYWHERE)]
    assert units == ["us_tbsp", "au_tbsp", "us_tbsp"]


# -- wrong input ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("work", "says"),
    [
        (lambda: US.carbs("psyllium"), "no amount"),
        (lambda: US.carbs("2 tbsp of"), "no ingredient"),
        (lambda: US.carbs("14 g carbs 38 g fibre per 100 g"), "cannot stand on one such label"),
        (lambda: US.carbs("2 tbsp moon dust"), "no ingredient is called"),
        (lambda: US.carbs("3 g carbs per 0 g"), "serving of nothing"),
        (lambda: US.carbs("3 g carbs per tbsp"), "needs its ingredient|too few ingredients"),
        (lambda: US.compare("flax", "chia"), "no label"),
        (lambda: US.compare("0 g per 15 g", "1 g per 15 g"), "none at all"),
        (lambda: US.leaven("1 tsp flour"), "neither soda nor baking powder"),
        (lambda: US.leaven("0 g soda"), "no soda"),
        (lambda: US.leaven("1 tsp soda", ("1 cup buttermilk",)), "neutralising value"),
        (lambda: US.leaven("1 tsp baking powder", ("1 tsp cream of tartar",)), "its acid in it"),
        (lambda: US.sweeten("100 g sugar", "stevia"), "name the form"),
        (lambda: US.sweeten("sugar", "stevia"), "no amount"),
        (lambda: US.scale("500 g flour"), "one way at a time"),
        (lambda: US.scale("500 g flour", times=1, eggs=(3, 2)), "one way at a time"),
        (lambda: US.scale("500 g flour", times=0), "no factor"),
        (lambda: US.scale("500 g flour", times=math.nan), "no factor"),
        (lambda: US.scale("-5 g flour", times=2), "less than nothing"),
        (lambda: US.scale(eggs=(0, 2)), "above zero"),
        (lambda: US.scale(pans=("20", "23 cm round")), "inches or centimetres"),
        (lambda: US.scale(pans=("900 cm round", "23 cm round")), "no oven holds"),
        (lambda: US.scale(times=2, episode="nowhere"), "no episode"),
        (lambda: US.oven("warm"), "no oven setting"),
        (lambda: US.oven("9000 F"), "no temperature of a kitchen"),
        (lambda: US.oven("gas mark 12"), "no gas mark"),
        (lambda: US.altitude("high"), "no altitude"),
        (lambda: US.altitude("99000 m"), "nobody bakes"),
        (lambda: US.core("unicorn"), "no safe core"),
        (lambda: US.check_sum("is it right?"), "no sum"),
        (lambda: US.weigh("3 g in cups of"), "no ingredient|no amount"),
        (lambda: Sums.of(LIBRARY, "Mars"), "no region"),
    ],
)
def test_wrong_input_is_one_clear_line(work, says):
    with pytest.raises((InvalidMeasure, NoKnowledge), match=says) as fault:
        work()
    assert "\n" not in str(fault.value)
    assert fault.value.remedy


WORDS = [
    *"0 1 2 3.5 ½ 100 -4 1/0 9999999999 1e9 % g tsp tbsp cup oz F C × = : per in is and right? of".split(), "gas mark",
    "carbs", "fibre", "net", "soda", "baking powder", "cream of tartar", "flour", "water", "milk", "sugar", "eggs",
    "erythritol", "psyllium husk", "round", "inch", "cm", "9x13", "\x00", "🍞", "ſ", "'; drop", "{{ x }}", "",
]  # fmt: skip
typed = st.lists(st.sampled_from(WORDS), max_size=9).map(" ".join)


@settings(max_examples=150)
@given(typed, typed, st.sampled_from([US, UK, ANYWHERE]))
def test_no_words_break_a_sum(words, other, sums):
    """Every sum gives finite ends around its value, or says what is wrong."""
    for work in (
        lambda: sums.weigh(words),
        lambda: sums.carbs(words),
        lambda: sums.compare(words, other),
        lambda: sums.leaven(words, (other,)),
        lambda: sums.leaven(f"1 g soda {words}", ()),
        lambda: sums.sweeten(words, other),
        lambda: sums.scale(words, times=1.5),
        lambda: sums.scale(pans=(words, other)),
        lambda: sums.oven(words),
        lambda: sums.altitude(words),
        lambda: sums.core(words),
        lambda: sums.check_sum(words),
        lambda: sums.swap(words, other),
    ):
        with suppress(LevelspoonError):
            found = work()
            assert all(math.isfinite(found[key]) for key in ("low", "value", "high"))
            assert found["low"] <= found["value"] <= found["high"]


@given(st.integers(1, 40), st.integers(1, 60), st.integers(2, 5))
def test_more_servings_never_narrow_the_interval(carbs, serving, times):
    one, more = (US.carbs(f"{carbs} g carbs per {serving} g") for _ in range(2))
    pair = US.compare(f"{carbs} g per {serving} g", f"{carbs * times} g per {serving * times} g")
    assert one == more
    widths = [part["high"] - part["low"] for part in (pair["first"], pair["second"])]
    assert widths[0] >= widths[1]  # a longer serving is printed with finer grain for its weight
    assert pair["explained"]


@given(st.floats(0.1, 50), st.floats(1, 500))
def test_scaling_is_linear(times, grams):
    assert ANYWHERE.scale(f"{grams:.3f} g flour", times=times)["value"] == pytest.approx(float(f"{grams:.3f}") * times)


@pytest.mark.parametrize(
    ("name", "work"),
    [
        ("weigh", lambda: US.weigh("2 tbsp psyllium husk")),
        ("swap", lambda: US.swap("1 tbsp ground flax", "ground chia")),
        ("carbs", lambda: ANYWHERE.carbs("12 g carbs 9 g fiber per 30 g")),
        ("carbs-compare", lambda: US.compare("3 g per 15 g", "2 g per 7 g")),
        ("leaven", lambda: US.leaven("1 tsp baking powder")),
        ("leaven", lambda: US.leaven("1 tsp soda", ("1 tsp cream of tartar",))),
        ("sweeten", lambda: US.sweeten("1 cup sugar", "erythritol")),
        ("scale", lambda: US.scale("1 cup sugar", times=3)),
        ("heat", lambda: US.oven("350")),
        ("heat", lambda: US.core("egg")),
        ("check-sum", lambda: US.check_sum("3 x 7 = 20")),
    ],
)
def test_every_sum_has_the_shape_that_is_promised(name, work):
    Draft202012Validator(contract.schema(name)).validate(work())
