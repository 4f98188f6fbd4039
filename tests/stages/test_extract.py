"""What a comment mentions and asks, on the starter knowledge; the texts are invented, each for one difficulty."""

import pytest

from qa.errors import Place
from qa.knowledge.facts import Ingredient, Name
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.measures.parse import find_amounts
from qa.records import AskType, Cleaned, Comment, Mention, Piece, Understood
from qa.settings import Settings, shipped
from qa.stages.clean import clean
from qa.stages.extract import AskModel, extract
from qa.stages.extract.asks import Asked, amounts_of, asked, items_of
from qa.stages.extract.constructions import construction
from qa.stages.extract.dangers import recipe_conflict, unsafe_tips
from qa.stages.extract.index import bare, index_of
from qa.stages.extract.learn import Typed
from qa.stages.extract.names import find_mentions
from qa.stages.extract.region import region_of
from qa.text.sentences import pieces_of


@pytest.fixture(scope="module")
def library() -> Library:
    return load_knowledge(shipped("knowledge"))[0]


def mentions(text: str, library: Library, region: str = "", language: str = "en") -> list[Mention]:
    index = index_of(library.knowledge.ingredients, Settings().similar_spelling)
    return find_mentions(text, language, region, index)


def understood(text: str, library: Library, parent: str = "") -> Understood:
    """Every sentence taken as a question, and types told by the frames alone."""
    comments = [Comment("1", text, parent="0" if parent else "")] + ([Comment("0", parent)] if parent else [])
    cleaned = clean(comments)
    return extract(cleaned, [asking(one) for one in cleaned], comments, library, Settings(), AskModel())[0]


def asking(one: Cleaned) -> tuple[Piece, ...]:
    return tuple(Piece(a, b, one.text[a:b], (("question", 0.9),)) for a, b in pieces_of(one.text))


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("ground flax seed", ["flax.ground"]),
        ("milled linseed", ["flax.ground"]),
        ("psylium husk", ["psyllium.husk"]),
        ("tapoica starch", ["tapioca.starch"]),
        ("almondflour", ["almond.flour"]),
        ("oat flower", ["oat.flour"]),
        ("butter milk", ["buttermilk"]),
        ("two eggs and some potatoes", ["egg", "potato"]),
        ("potato starch or flour", ["potato.starch", "potato.flour"]),
        ("oat or almond flour", ["oat.flour", "almond.flour"]),
        ("almond milk or oat, which is better", ["almond-drink", "oat-drink"]),
        ("oat milk or butter, which is better", ["oat-drink", "butter"]),
        ("brown rice flour instead of white", ["rice.brown-flour", "rice.flour"]),
        ("egg white and caster sugar", ["egg.white", "sugar.caster"]),
        ("is 00 flour the same as plain, at 1.00 a bag", ["wheat.type-00-flour", "wheat.all-purpose-flour"]),
        ("do you oil yours", []),
        ("wheat flour (atta) in place of maida", ["wheat.atta", "wheat.atta", "wheat.all-purpose-flour"]),
        ("psyllium, 10 g powder", ["psyllium", "psyllium.powder"]),
        ("2 tsp soda", ["baking-soda"]),
        ("tigernut flour", ["tigernut.flour"]),
        ("tiger nut flour", ["tigernut"]),
        ("egg-free", ["egg"]),
        ("egg substitute", ["egg"]),
        ("tomatoes and bacon", ["tomato", "bacon"]),
        ("butter, oil, tried both", ["butter", "oil"]),
        ("no honey in the house, no sugar", ["honey", "sugar"]),
    ],
)
def test_a_name_is_found_however_it_is_spelt(text: str, items: list[str], library: Library) -> None:
    found = [mention.item for mention in mentions(text, library)]
    assert [item.removesuffix(".powder") if "soda" in item else item for item in found] == items


@pytest.mark.parametrize(
    "text",
    [
        "lactose-free and gluten free",
        "cream it until pale, then butter the tin",
        "Ginger and Olive are my two cats",
        "over ice cream",
        "the banana bread aisle",
        "my uncle cured his sugar",
        "I just sprinkle it over the top",
        "the jelly stuck in its mould",
        "Cinder toffee went flat",
        "it smells like beer",
        "that was a piece of cake",
        "I squash them together and roll again",
        "a tray of sausage rolls for the party",
        "my cream puffs went flat",
        "pumpkin pie cracked, and so did the pecan pie",
        "two pork pies for the hike",
        "my ginger nuts are soft",
        "it split and looks like cottage cheese",
        "they overflow and go into one giant mushroom",
        "it came out like tiny curds",
        "one side was flat as a coaster",
        "take it with a pinch of salt lol",
        "thanks honey!",
        "no, honey!",
        "the brand matches my whisk",
        "where is the bread",
        "she is on insulin",
        "flowers on the floor",
        "a soda while I wait",
        "does pastry cream keep",
        "a meat thermometer or the sugar one",
        "wrapped in banana leaf with two lime leaves",
    ],
)
def test_what_only_looks_like_a_name_is_none(text: str, library: Library) -> None:
    assert mentions(text, library) == []


def test_a_regional_name_is_read_by_region_and_kept_open_without_one(library: Library) -> None:
    """Cornflour is a starch in Britain; American corn flour is ground whole corn (common practice, no source)."""
    assert mentions("corn flour", library, "UK")[0].item == "maize.starch"
    assert mentions("corn flour", library, "US")[0].item == "maize.flour"
    unknown = mentions("corn flour", library)[0]
    assert {unknown.item, *unknown.others} >= {"maize.starch", "maize.flour"}


def test_foreign_names_count_in_their_language(library: Library) -> None:
    assert [m.item for m in mentions("Kann ich Kartoffelstärke nehmen?", library, language="de")] == ["potato.starch"]
    katakuriko = Ingredient("potato", "potato", "starch", (Name("片栗粉", language="ja"),), (), (), (), Place("here"))
    found = find_mentions("片栗粉でもいいですか", "ja", "", index_of((katakuriko,), 0.84))
    assert [(m.text, m.item) for m in found] == [("片栗粉", "potato")]


def test_mentions_stand_where_they_say(library: Library) -> None:
    text = "Can I swap the Ground Flaxseed for chia seeds, or psylium?"
    assert all(text[m.start : m.end] == m.text for m in mentions(text, library))


def test_an_amount_goes_to_its_ingredient(library: Library) -> None:
    found = understood("is 2 tbsp of chia with 7 g flax too much", library).mentions
    assert [(m.ingredient, m.amount and m.amount.value, m.amount and m.amount.unit) for m in found] == [
        ("chia", 2.0, "tbsp"),
        ("flax", 7.0, "g"),
    ]


@pytest.mark.parametrize(
    ("text", "kind", "items"),
    [
        ("can I use chia instead of flax", "swap", ("flax", "chia")),
        ("instead of flax can I use chia", "swap", ("flax", "chia")),
        ("can i replace the flax with chia", "swap", ("flax", "chia")),
        ("no flax here, would chia work", "swap", ("flax", "chia")),
        ("could I do chia in place of the flax and if so do I cut the milk?", "swap", ("flax", "chia")),
        ("no flax left. would chia do in these?", "swap", ("flax", "chia")),
        ("we have chia here. could that stand in for the flax?", "swap", ("flax", "chia")),
        ("does chia work in oat bread instead of flax", "swap", ("flax", "chia")),
        ("can I leave out the psyllium", "swap", ("psyllium",)),
        ("is potato starch the same as potato flour", "same_thing", ("potato.starch", "potato.flour")),
        ("how many grams is 3 tbsp of chia", "weight", ("chia",)),
        ("has anyone tried chia", "tried", ("chia",)),
    ],
)
def test_the_frames_of_the_trade_tell_type_and_order(
    text: str, kind: str, items: tuple[str, ...], library: Library
) -> None:
    ask = understood(text, library).asks[-1]
    assert (ask.type, ask.items) == (kind, items)


def test_what_only_says_what_to_use_is_completed_from_the_recipe() -> None:
    """The invented muffins hold one sugar and one binder that chia stands in for, but two flours."""
    library = load_knowledge(shipped("knowledge"), invented=True)[0]

    def items(text: str) -> tuple[str, ...]:
        cleaned = clean([Comment("1", text)])
        comments = [Comment("1", text, episode="seed-eggs")]
        return extract(cleaned, [asking(cleaned[0])], comments, library, Settings(), AskModel())[0].asks[0].items

    assert items("can I use honey?") == ("sugar.granulated", "honey")
    assert items("can I use chia?") == ("flax.ground", "chia")
    assert items("can I use teff flour?")[-1] == "teff.flour"
    assert len(items("can I use teff flour?")) == 1


def test_a_parent_that_names_several_things_leaves_the_reply_open(library: Library) -> None:
    (ask,) = understood("can it be frozen?", library, parent="I used psyllium and honey").asks
    assert ask.items == ()


@pytest.mark.parametrize(
    ("sentence", "name"),
    [
        ("and how do I keep X fresh?", "keep"),
        ("how do you knead a wet dough", "how"),
        ("why do bakers score a loaf", "why so"),
        ("why did my loaf sink", "why mine"),
        ("what is the purpose of X", "effect"),
        ("what could I use in place of a whisk", "swap tool"),
        ("what could I use in place of X", "swap"),
        ("is X the same as X", "difference"),
        ("who invented the doughnut", "origin"),
        ("making a glossy glaze", "doing it"),
        ("hm", ""),
    ],
)
def test_one_construction_names_a_question(sentence: str, name: str) -> None:
    assert construction(sentence) == name


def test_a_chain_of_conditions_is_one_ask(library: Library) -> None:
    (ask,) = understood("Can I use chia instead of flax? If so, how much?", library).asks
    assert (ask.type, ask.items) == ("swap", ("flax", "chia"))


def test_an_idea_thrown_in_is_no_second_ask(library: Library) -> None:
    (ask,) = understood("What can I use instead of corn syrup? Golden syrup?", library).asks
    assert (ask.type, ask.items) == ("swap", ("corn-syrup",))


def test_unrelated_asks_are_apart(library: Library) -> None:
    asks = understood("How many grams is a cup of oat flour? Has anyone tried it with honey?", library).asks
    assert [ask.type for ask in asks] == ["weight", "tried"]


@pytest.mark.parametrize(
    ("text", "types", "apart"),
    [
        ("Is oat cream fine in the filling? Can the base be made of almonds?", ("swap", "swap"), True),
        ("Can I use oil? Would it rise?", ("swap", "swap"), False),
        ("Ran out of baking paper, can I butter the tray?", ("equipment", "equipment"), False),
        ("Is gluten powder a must or can I leave it?", ("same_thing", "swap"), False),
        ("Why did it sink? Is it the soda?", ("went_wrong", "purpose"), False),
        ("Why did it sink? Is it good with honey in place of sugar?", ("went_wrong", "swap"), True),
        ("Is it a must or how long may it stand?", ("same_thing", "safety"), True),
    ],
)
def test_two_questions_are_two_asks_if_each_asks_something(text: str, types: list[AskType], apart: bool) -> None:
    """The other half of a choice, a mere suspect and a bare afterthought go with the question before them."""
    parts = [Piece(start, end, text[start:end]) for start, end in pieces_of(text)]
    assert len(parts) == len(types)
    asks = asked(text, [(one, 0.9) for one in parts], [one.text for one in parts], [Typed(one, 0.9) for one in types])
    assert len(asks) == 1 + apart
    assert (asks[0].start, asks[-1].end) == (parts[0].start, parts[-1].end)


def test_a_reply_is_about_what_it_replies_to(library: Library) -> None:
    (ask,) = understood("can I leave it out?", library, parent="I love the psyllium in this").asks
    assert ask.items == ("psyllium",)


@pytest.mark.parametrize(
    ("text", "region"),
    [
        ("here in Oz we have 20 ml spoons", "AU"),
        ("my packet (uk) says 14 g", "UK"),
        ("two sticks of butter", "US"),
        ("oven at gas mark 4", "UK"),
        ("NZ viewer here", "NZ"),
        ("tell us the weight", ""),
        ("GIVE US GRAMS", ""),
    ],
)
def test_the_region_of_measure_is_read(text: str, region: str) -> None:
    assert region_of(text) == region


@pytest.mark.parametrize(
    ("text", "kind", "medical"),
    [
        ("I take blood thinners, is a spoon of flax a day ok?", "health", True),
        ("my baby is 8 months, can she have the honey one?", "health", False),
        ("is xylitol ok for dogs?", "health", False),
        ("dough left on the counter since last night, still safe to bake?", "safety", False),
        ("for my diabetic dad, can I use erythritol instead of sugar?", "swap", True),
        ("celiac here: can I replace the oats with rice flour?", "swap", True),
    ],
)
def test_a_medical_word_is_mostly_the_motive(text: str, kind: str, medical: bool, library: Library) -> None:
    ask = understood(text, library).asks[-1]
    assert (ask.type, ask.medical) == (kind, medical)


@pytest.mark.parametrize(
    "text",
    [
        "I keep garlic in olive oil in the cupboard all year",
        "a little raw honey settles babies right down",
        "xylitol works too, my dog gets some every day and she is fine",
        "oats never hurt a coeliac, it is all in their heads",
        "just cut the mould off and eat the rest",
        "pour it hot in the jars, they seal themselves and keep for years",
        "a handful of apricot kernels gives a lovely flavour, use five or six",
    ],
)
def test_a_tip_that_must_not_be_repeated_is_held_back(text: str, library: Library) -> None:
    assert unsafe_tips(text, (), library.knowledge.cautions)


@pytest.mark.parametrize(
    "text",
    [
        "please don't keep garlic in oil in the cupboard",
        "xylitol kills dogs, never give it to them",
        "I toast the oats and keep them in a jar for a week",
        "freeze the bread in slices",
    ],
)
def test_a_warning_or_a_harmless_tip_is_not(text: str, library: Library) -> None:
    assert unsafe_tips(text, (), library.knowledge.cautions) == ()


@pytest.mark.parametrize(
    ("text", "conflict"),
    [
        ("the video says 2 eggs, the pdf says 3", True),
        ("In the list there is vanilla, in the film I see none. Where is the vanilla?", True),
        ("at 3:05 you say teaspoon but the screen says tablespoon", True),
        ("love this recipe and the video", False),
        ("I watched the video twice and wrote it down", False),
    ],
)
def test_video_against_recipe_is_an_erratum(text: str, conflict: bool) -> None:
    assert bool(recipe_conflict(text)) is conflict


def test_plurals_are_taken_off_names_and_texts_alike() -> None:
    assert [bare(word) for word in ("oats", "oat", "berries", "glass")] == ["oat", "oat", "berry", "glass"]


@pytest.mark.parametrize("text", ["", "😍😍", "?" * 400, "X" * 5000, "can i " * 900, "{{ 7 * 7 }} {% for %}"])
def test_odd_texts_are_understood_without_complaint(text: str, library: Library) -> None:
    found = understood(text, library)
    assert found.mentions == ()
    assert all(ask.items == () for ask in found.asks)


def test_what_was_said_before_an_ask_that_points_back_goes_with_it(library: Library) -> None:
    text = "You write 2 cups of rice flour. How many grams is this?"
    ask = Asked(text.index("How"), len(text), "weight", 0.9)
    assert [amount.unit for amount in amounts_of(ask, text, find_amounts(text))] == ["cup"]
    assert items_of(ask, text, mentions(text, library), ()) == ("rice.flour",)
    assert amounts_of(Asked(ask.start, ask.end, "purpose", 0.9), text, find_amounts(text)) == ()


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("I bought ground flax. How many grams is 3 tablespoons?", ("flax.ground",)),
        ("Is flax meal ground with the oil or without? And tell me the grams of 3 tablespoons.", ()),
    ],
)
def test_a_weight_is_of_what_was_named_before_only_if_that_was_one_thing(
    text: str, items: tuple[str, ...], library: Library
) -> None:
    assert understood(text, library).asks[-1].items == items


def test_can_is_a_verb_of_its_own_after_can_i() -> None:
    text = "Can I can this jam? Mine set but can I freeze it"
    assert [text[start:end] for start, end in pieces_of(text)] == ["Can I can this jam?", "Mine set", "can I freeze it"]


@pytest.mark.parametrize(
    ("told", "asks", "items"),
    [
        ("We only have cornstarch, no potato starch. ", "Same amount?", ("potato.starch", "maize.starch")),
        ("", "We don't get brown sugar here, can jaggery go in?", ("sugar.brown", "sugar.jaggery")),
        ("Butter is so dear now. ", "Is margarine alright for the sponge?", ("butter", "margarine")),
    ],
)
def test_what_is_missing_is_replaced_by_what_else_was_named(
    told: str, asks: str, items: tuple[str, ...], library: Library
) -> None:
    text = told + asks
    assert items_of(Asked(len(told), len(text), "swap", 0.9), text, mentions(text, library), ()) == items
