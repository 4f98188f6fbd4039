"""The sums of the trade as figures of an answer, over the shipped knowledge, for asks built by hand."""

import pytest

from qa.errors import Missing, NoKnowledge
from qa.knowledge.load import load_knowledge
from qa.measures.parse import find_amounts
from qa.records import Ask, Figure
from qa.settings import shipped
from qa.stages.compute import Asked, compute, figure_of, follow

UK_LABEL = "my packet (uk) says carbs 14g fibre 38g per 100g so thats minus 24 net?? free carbs!!"
TWO_LABELS = "one bag says 3g carbs per 15 g, other brand says 2g per 7 g. so the second is nearly a half more?"
DOUGH = "500 flour 350 water is 70% hydration right? and does the 60g of yogurt count"
POWDER = "out of baking powder. googled 1/4 tsp soda + 1/2 tsp cream of tartar = 1 tsp. true?"
NET_SPOONS = "1 g net carb per two tablespoons of whole psyllium husk and 1 g per teaspoon of psyllium powder"
SODA, TARTAR = "baking-soda.powder", "cream-of-tartar.powder"


@pytest.fixture(scope="module")
def library():
    return load_knowledge(shipped("knowledge"))[0]


def ask(text, *items, region="", kind="check"):
    return Ask(kind, 0, len(text), text, items, tuple(find_amounts(text)), region=region)


def shown(library, recipe, text, *items, region=""):
    found = follow(recipe, Asked(ask(text, *items, region=region), library, region))
    return found.text if isinstance(found, Figure) else found


@pytest.mark.parametrize(
    ("recipe", "text", "region", "figure"),
    [
        # Regulation (EU) 1169/2011, Annex I: carbohydrate leaves fibre out.
        ("label digestible", UK_LABEL, "UK", "14 g"),
        ("label fibre counted", UK_LABEL, "UK", "outside"),
        ("label verdict", UK_LABEL, "UK", "wrong"),
        ("label carbohydrate", UK_LABEL, "UK", "14g"),
        ("label place", UK_LABEL, "", ""),
        ("label fibre counted", UK_LABEL, "", "unknown"),
        # 21 CFR 101.9(c)(6): total carbohydrate holds the fibre; whole grams, so 12 − 9 is 2 to 4.
        ("label digestible", "12 g carbs 9 g fiber per 30 g", "US", "3 g"),
        ("label range", "12 g carbs 9 g fiber per 30 g", "US", "2 to 4 g"),
        ("label digestible as EU", "12 g carbs 9 g fiber per 30 g", "US", "12 g"),
        # FDA Food Labeling Guide, Appendix H: whole grams.
        ("label printed 1", TWO_LABELS, "US", "2.5 to 3.5 g"),
        ("label printed 2", TWO_LABELS, "US", "1.5 to 2.5 g"),
        ("label hundred 1", TWO_LABELS, "US", "17 to 23 g"),
        ("label hundred 2", TWO_LABELS, "US", "21 to 36 g"),
        ("label serving 2", TWO_LABELS, "US", "7 g"),
        ("labels verdict", TWO_LABELS, "US", "rounding"),
        ("labels apart", TWO_LABELS, "US", "1.43"),
        ("labels verdict", "3 g carbs per 15 g or 9 g per 15 g", "US", "different"),
        # Common practice, no source: 1 g in two tablespoons of husk, 1 g in a teaspoon of powder.
        ("labels apart", NET_SPOONS, "US", "3.64"),
        ("labels verdict", NET_SPOONS, "US", "rounding"),
        # USDA SR26 01116: plain whole-milk yogurt is 87.9 % water; (350 + 52.7) ÷ 500.
        ("dough line", DOUGH, "", "350 ÷ 500 = 70 %"),
        ("dough verdict", DOUGH, "", "right"),
        ("dough total", DOUGH, "", "81 %"),
        ("dough share", DOUGH, "", "88 %"),
        ("dough water", DOUGH, "", "53 g"),
        ("dough amount", DOUGH, "", "60g"),
        ("dough verdict", "flour 500 g, water 300 g is 70 % hydration?", "", "wrong"),
        ("dough hidden", "flour 500 g, water 300 g is 70 % hydration?", "", ""),
        # 188.176 ÷ 84.006 (stoichiometry; Food additives data book prints 2.24); USDA SR26: 4.6 g and 3.0 g a teaspoon.
        (f"acid ratio of {TARTAR}", POWDER, "", "2.24"),
        (f"soda theirs spent by theirs of {TARTAR}", POWDER, "", "58 %"),
        (f"soda theirs beside theirs of {TARTAR}", POWDER, "", "spare soda"),
        (f"acid {TARTAR} for theirs of soda in us_tsp", POWDER, "", "⅞ tsp"),
        (f"said of {TARTAR}", POWDER, "", "1/2 tsp"),
        (f"soda 1 g beside 2.24 g of {TARTAR}", "", "", "even"),
        (f"soda 1 g beside 4 g of {TARTAR}", "", "", "spare acid"),
        ("powder 1 us_tsp as soda in us_tsp", "", "", "¼ tsp"),
        ("powder 1 us_tsp as tartar in g", "", "", "2.4 g"),
        # π 23² ÷ π 20² = 1.3225; 117 ÷ 64 = 1.83 (geometry).
        ("pan factor", "recipe for 20cm round tin, i have 23cm", "", "1.32"),
        ("pan factor", "8 inch square to 9x13 inch", "", "1.83"),
        ("pan verdict", "recipe for 20cm round tin, i have 23cm", "", "bigger"),
        ("pan old", "recipe for 20cm tin, i have 23cm", "", "20 cm"),
        ("eggs factor", "recipe has 3 eggs, I have 2", "", "0.667"),
        ("eggs verdict", "recipe has 3 eggs, I have 2", "", "short"),
        ("eggs missing", "recipe has 3 eggs, I have 2", "", "50 g"),
        # UK charts: gas mark 4 is 350 °F, 180 °C on a dial; fan 20 °C lower.
        ("oven degC", "gas mark 4 in celsius", "", "180 °C"),
        ("oven degF", "gas mark 4 in celsius", "", "350 °F"),
        ("oven fan", "gas mark 4 in celsius", "", "160 °C"),
        ("oven gas_mark", "what gas mark is 350", "", "gas mark 4"),
        ("oven gas_mark", "what gas mark is 200 fan", "", "gas mark 7"),
        ("oven degC", "350F?", "", "177 °C"),
        ("oven kind", "180 C fan?", "", "is fan"),
        ("oven kind", "180 C, my oven has a fan", "", "fan"),
        ("checked verdict", "flax is 1:3 so 2 tbsp flax to 5 tbsp water, right?", "", "wrong"),
        ("checked result", "flax is 1:3 so 2 tbsp flax to 5 tbsp water, right?", "", "6 tbsp"),
        ("checked line", "flax is 1:3 so 2 tbsp flax to 6 tbsp water, right?", "", "2 tbsp × 3 = 6 tbsp"),
    ],
)
def test_what_each_sum_comes_to(library, recipe, text, region, figure):
    assert shown(library, recipe, text, region=region) == figure


@pytest.mark.parametrize(
    ("recipe", "text", "items", "figure"),
    [
        # J Food Sci Technol 2014, Table 2: erythritol 0.6 to 0.8 of sugar.
        ("sweeten asked of first for second", "100 g", ("sugar", "erythritol"), "130 to 170 g"),
        ("bulk asked of first for second", "100 g", ("sugar", "stevia.extract"), "100 g"),
        ("sweetener kind of second", "", ("sugar", "stevia.extract"), "high intensity"),
        ("sweetener kind of second", "", ("sugar", "erythritol"), "polyol"),
        ("sweetener kind of second", "", ("sugar", "allulose"), "rare sugar"),
        ("sweetener kind of second", "", ("sugar", "honey"), "sugar"),
        # Baking reference tables: a third, with their disagreement.
        ("yeast asked of first for second", "30 g", ("yeast.fresh", "yeast.instant"), "8 to 11 g"),
        ("checked verdict", "2 us tbsp ground flax weighs 20 g?", ("flax.ground",), "wrong"),
        ("checked verdict", "2 us tbsp ground flax weighs 14 g?", ("flax.ground",), "right"),
    ],
)
def test_sums_about_ingredients(library, recipe, text, items, figure):
    assert shown(library, recipe, text, *items) == figure


@pytest.mark.parametrize(
    ("recipe", "text", "items"),
    [
        ("label digestible", "how many carbs?", ()),
        ("label digestible", "14 g carbs 38 g fibre per 100 g", ()),
        ("label serving", "14 g carbs 3 g fibre", ()),
        ("labels verdict", "14 g carbs per 100 g", ()),
        ("label hundred 2", "3 g carbs per 15 g or 2 g per spoon", ()),
        ("dough total", "350 water", ()),
        ("dough water", "500 g flour 350 g water", ()),
        (f"soda theirs spent by theirs of {TARTAR}", "1 tsp soda", ()),
        ("soda 0 g spent by 1 g of cream-of-tartar.powder", "", ()),
        ("pan factor", "my 20 cm round tin", ()),
        ("eggs factor", "3 eggs", ()),
        ("oven degC", "warm oven", ()),
        ("oven gas_mark", "90 C?", ()),
        ("oven still", "250 convection, what is that without", ()),
        ("oven degC", "gas mark 12", ()),
        ("checked verdict", "is it right?", ()),
        ("sweeten asked of first for second", "100 g", ("sugar",)),
        ("yeast asked of first for second", "", ("yeast.fresh", "yeast.instant")),
    ],
)
def test_what_makes_no_sum_is_said_to_be_missing(library, recipe, text, items):
    region = "US" if "14 g carbs 38" in text else ""  # fibre cannot exceed the total that holds it
    with pytest.raises(Missing):
        follow(recipe, Asked(ask(text, *items, region=region), library, region))


@pytest.mark.parametrize(
    ("recipe", "items"),
    [
        ("sweeten 100 g of first for second", ("sugar", "flax")),
        ("yeast 7 g of first for second", ("yeast.nutritional", "yeast.instant")),
        ("acid ratio of first", ("flax",)),
        ("acid ratio of flax.ground", ()),
    ],
)
def test_without_the_fact_there_is_no_figure(library, recipe, items):
    with pytest.raises(NoKnowledge):
        follow(recipe, Asked(ask("", *items), library, ""))


def test_every_number_of_a_label_is_theirs_or_has_its_rule(library):
    asked = Asked(ask(UK_LABEL, region="UK"), library, "")
    theirs, ours = figure_of("label fibre", asked), figure_of("label digestible", asked)
    assert theirs.theirs
    assert theirs.facts == ()
    assert "rule:UK-CARB-DEF" in ours.facts
    assert not ours.theirs


def test_labels_of_an_unnamed_country_are_compared_as_american_and_that_is_said(library):
    asked = Asked(ask(TWO_LABELS), library, "")
    assert follow("labels verdict", asked) == "rounding"
    assert asked.assumption == "taking both for US labels"


def test_a_heaped_spoon_of_soda_counts_for_more(library):
    level, heaped = (
        figure_of(f"acid {TARTAR} for theirs of soda in g", Asked(ask(text), library, "US"))
        for text in ("1/4 tsp soda", "a heaped 1/4 tsp soda")
    )
    assert heaped.value > 1.2 * level.value


@pytest.mark.parametrize(
    ("answer", "text", "region", "figures", "words"),
    [
        ("label-net-sum", UK_LABEL, "UK", {"carb": "14g", "digestible": "14 g"}, {"counted": "outside", "place": "UK"}),
        ("labels-compared", TWO_LABELS, "US", {"p1": "2.5 to 3.5 g", "h2": "21 to 36 g"}, {"verdict": "rounding"}),
        ("check-hidden-water", DOUGH, "", {"total": "81 %", "water": "53 g"}, {"hidden": "plain whole-milk yogurt"}),
        ("check-soda-tartar", POWDER, "", {"share": "58 %", "ratio": "2.24"}, {"balance": "spare soda"}),
    ],
)
def test_answers_get_figures_and_words(library, answer, text, region, figures, words):
    done = compute(ask(text, region=region), library.answer(answer), library, "")
    assert {name: done.figures[name].text for name in figures} == figures
    assert {name: done.words[name] for name in words} == words


def test_a_sum_may_stand_before_the_question_about_it(library):
    """The asking itself shows none, so the comment it stands in is read."""
    comment = "500 g flour 350 g water 60 g yogurt, is that 70% hydration?"
    place = comment.index("is that")
    part = Ask("check", place, len(comment), comment[place:], context=comment)
    assert figure_of("dough total", Asked(part, library, "")).text == "81 %"
    with pytest.raises(Missing):
        follow("dough total", Asked(ask(comment[place:]), library, ""))
