"""What the sheets show, without any server."""

from __future__ import annotations

from dataclasses import replace

import pytest

from qa.outside.store import Waiting
from qa.records import Topic
from qa.web.desk import in_order, look_over
from qa.web.drawn import Row, bar, forest, weeks
from qa.web.sheets.comment import LONGEST_SHOWN, comment_sheet, text_in_hand
from qa.web.sheets.kitchen import kitchen_sheet
from qa.web.sheets.larder import ingredient_sheet, larder_sheet
from qa.web.sheets.slips import slip
from qa.web.sheets.sums import sums_sheet
from qa.web.sheets.topic import topic_sheet
from qa.web.sheets.week import stale_facts, week_sheet
from qa.web.words import untangled

from .conftest import HOSTILE, flax_fact


def sheet_of(bench, key, text=None):
    entry = bench.store.entry(key)
    text = text_in_hand(entry) if text is None else text
    return comment_sheet(entry, bench.checked(entry, text), bench.library, bench.settings)


def test_health_comes_first_then_what_many_ask_then_what_is_oldest():
    topics = [
        Topic("few-old", "a", "swap", (), ("x",), "2026-01-01"),
        Topic("few-new", "b", "swap", (), ("y",), "2026-02-01"),
        Topic("many", "c", "swap", (), ("1", "2", "3"), "2026-03-01"),
    ]
    waiting = [
        Waiting("new", "drafted", (), "few-new"),
        Waiting("old", "drafted", (), "few-old"),
        Waiting("yours", "needs_you", ("unsure",), "many"),
        Waiting("ready", "drafted", (), "many"),
        Waiting("nowhere", "drafted", (), ""),
        Waiting("allergy", "needs_you", ("allergy",), "few-new"),
        Waiting("health", "needs_you", ("unsure", "health"), ""),
    ]
    assert [one.comment for one in in_order(waiting, topics)] == [
        "health",
        "allergy",
        "ready",
        "yours",
        "old",
        "new",
        "nowhere",
    ]


def test_the_pile_holds_what_waits_and_nothing_else(bench):
    overview = look_over(bench)
    assert overview.pile[0].comment == "pills"
    assert "thanks" not in overview.place
    assert overview.first == 1
    assert overview.topics[0].id == "health:flax"


def test_their_words_are_whole_and_marked_in_place(bench):
    sheet = sheet_of(bench, "flax-3")
    assert "".join(run.text for run in sheet.words) == "how many grams is 3 tbsp ground flax??"
    assert [(run.text, run.kind) for run in sheet.words if run.kind] == [
        ("3 tbsp", "amount"),
        ("ground flax", "ingredient"),
    ]
    assert "ground flaxseed (sure)" in next(run.said for run in sheet.words if run.kind == "ingredient")
    assert [(ask.letter, ask.wanted, ask.about) for ask in sheet.asks] == [("a", "what it weighs", "ground flaxseed")]


def test_our_answer_carries_its_workings_and_source_slips(bench):
    part = sheet_of(bench, "flax-3").answering
    assert "".join(run.text for run in part.runs) == part.text
    assert [run.text for run in part.runs if run.kind == "figure"] == ["21 g"]
    assert part.notes[0].lines == ("3 tbsp × 7 g per tbsp = 21 g",)
    assert part.slips[0].id == flax_fact(bench.library)
    assert part.slips[0].source
    assert part.slips[0].place.line > 0
    assert part.loose == ()


def test_a_comment_for_a_person_says_why_and_what_the_usual_caution_is(bench):
    sheet = sheet_of(bench, "pills")
    assert sheet.urgent
    assert sheet.reason == "Health question: only the person's doctor can say."
    assert [(c.id, c.missing) for c in sheet.answering.cautions] == [("S34", True)]


def test_a_long_comment_is_cut_and_says_so(bench):
    sheet = sheet_of(bench, "a/long?id=<b>&x")
    assert sum(len(run.text) for run in sheet.words) == LONGEST_SHOWN
    assert sheet.cut == 1_200_000 - LONGEST_SHOWN


def test_reordering_characters_are_shown(bench):
    words = "".join(run.text for run in sheet_of(bench, "hostile").words)
    assert words == untangled(HOSTILE)
    assert "[U+202E]" in words


def test_only_what_differs_is_in_full_ink(bench):
    entries = [bench.store.entry(key) for key in ("flax-3", "flax-2")]
    topic = Topic("weight:flax", "what ground flaxseed weighs", "weight", ("flax.ground",), ("flax-3", "flax-2"))
    sheet = topic_sheet(topic, entries, 2, bench.checked, bench.library)
    first, second = sheet.groups[0].replies
    assert [piece.text for piece in second.stretches if piece.kind == "new"] == ["14 "]
    assert "".join(piece.text for piece in second.stretches) == second.reply
    assert (first.figures, second.figures) == (("21 g",), ("14 g",))
    assert sheet.ready == 2


def test_the_week_in_words(bench):
    sheet = week_sheet(look_over(bench), [], [], [], 0)
    said = " ".join(sheet.told)
    assert said.startswith("7 comments came in; 6 ask something. 3 have a draft to read and sign; 3 need you.")
    assert "1 of them is a matter of health or safety and comes first." in said


def test_when_nothing_waits_the_kettle_is_yours(bench):
    for key in look_over(bench).place:
        bench.store.lay_aside(key)
    assert week_sheet(look_over(bench), [], [], [], 0).told[-1] == "Nothing is waiting. The kettle is yours."


def test_a_fact_that_changed_under_a_signed_reply_is_owed(bench):
    fact = flax_fact(bench.library)
    now = bench.library.use(fact).version
    in_use = [(fact, now), (fact, "older"), ("moonflour.density.nobody", "v"), ("reports:flax", "")]
    assert stale_facts(in_use, bench.library) == [
        (fact, "has changed since"),
        ("moonflour.density.nobody", "is no longer in the larder"),
    ]


def test_every_entry_of_the_knowledge_has_a_slip(shelf):
    known = shelf.library.knowledge
    for entry in (*known.facts, *known.swaps, *known.manners):
        found = slip(entry.id, shelf.library)
        assert found is not None
        assert found.value, entry.id
        assert found.source, entry.id
    assert slip("reports:flax", shelf.library) is None


def test_every_ingredient_has_a_sheet_with_all_its_facts(shelf):
    for one in shelf.library.knowledge.ingredients:
        sheet = ingredient_sheet(one.id, shelf.library)
        shown = {s.id for part in sheet.parts for each in part.properties for s in each.slips}
        assert shown == {f.id for f in shelf.library.knowledge.facts if f.item.partition(".")[0] == one.id}


@pytest.mark.parametrize("asked", ["flax", "Leinsamen", "purple", "cornflour", "tapioca pearls"])
def test_the_larder_finds_names_answers_and_sources(shelf, asked):
    assert larder_sheet(shelf.library, asked).found


def test_a_misspelt_name_is_met_half_way(shelf):
    sheet = larder_sheet(shelf.library, "psylium")
    assert sheet.found == ()
    assert "psyllium" in [near.key for near in sheet.nearest]


def outcome(bench, key, **typed):
    return next(part.outcome for part in sums_sheet(key, typed, bench.library, "") if part.key == key)


# A UK label's 14 g of carbohydrate leaves the fibre out (Regulation (EU) 1169/2011, Annex I point 7), a US label's 12 g
# holds its 9 g of fibre (21 CFR 101.9(c)(6)); 350 °F is 176.7 °C; round tins go by area: (23/20)² × 200 is 264.5;
# KHC4H4O6 weighs 2.24 times NaHCO3 (188.18 ÷ 84.01); by USDA spoon weights 1.5 g ÷ 2.24 ÷ 1.15 g is 58 %.
@pytest.mark.parametrize(
    ("key", "typed", "shown"),
    [
        ("carbs", {"food": "14 g carbs 38 g fibre per 100 g", "region": "UK"}, "14 g"),
        ("carbs", {"food": "12 g carbs 9 g fibre per 15 g", "region": "US"}, "3 g"),
        ("heat", {"oven": "350 F"}, "177 °C"),
        ("heat", {"altitude": "1500 m"}, "95 °C"),
        ("scale", {"amount": "200 g flour", "times": "1.5"}, "300 g"),
        ("scale", {"amount": "200 g flour", "pan": "20 cm round", "to": "23 cm round"}, "265 g"),
        ("check", {"sum_said": "500 g flour and 350 g water is 70 %"}, "70 %"),
        ("sweeten", {"sugar": "100 g sugar", "use": "erythritol"}, None),
        ("leaven", {"amount": "1/4 tsp baking soda", "acids": "1/2 tsp cream of tartar"}, "58 %"),
        ("swap", {"amount": "1 tbsp ground flax", "use": "ground chia"}, None),
        ("weigh", {"amount": "2 tbsp potato starch"}, None),
    ],
)
def test_sums_come_out_as_published(shelf, key, typed, shown):
    found = outcome(shelf, key, **typed)
    assert found.fault == ""
    assert found.lines
    assert shown is None or shown in [line.value for line in found.lines]


@pytest.mark.parametrize(
    ("key", "typed"),
    [
        ("weigh", {"amount": "some flour"}),
        ("weigh", {"amount": "1 cup flour", "region": "Moon"}),
        ("heat", {"oven": "hot"}),
        ("scale", {"amount": "200 g flour", "times": "x"}),
        ("carbs", {"food": "x"}),
        ("swap", {"amount": "1 tbsp flax", "use": "gravel"}),
    ],
)
def test_a_sum_that_cannot_be_done_says_so_in_a_line(shelf, key, typed):
    found = outcome(shelf, key, **typed)
    assert found.fault
    assert found.lines == ()


def test_drawings_are_named_in_words_and_escape_them():
    plot = forest([Row("<b>", 1, 2, 3, used=True), Row('"x"', 2, 3, 4)], "g")
    assert "<b>" not in plot
    assert 'aria-label="Sources differ: &lt;b&gt; 2 g, 1 to 3; &#34;x&#34; 3 g, 2 to 4"' in plot
    assert forest([Row("alone", 1, 2, 3)], "g") == ""
    assert "style=" not in plot + bar(0.5) + weeks([("2026-W10", 3), ("2026-W11", 0)])


def test_equal_values_can_be_drawn():
    assert "NaN" not in forest([Row("a", 0, 0, 0), Row("b", 0, 0, 0)], "g")


def test_a_decision_by_hand_closes_the_field(bench):
    bench.store.answer_myself("flax-3", "", "Ana", "2026-03-07T00:00:00+00:00")
    sheet = sheet_of(bench, "flax-3")
    assert sheet.decided == "answered_myself"
    assert sheet.decision == "Answered by hand by Ana, 7 March 2026"
    assert replace(sheet, decided="").decided == ""


def test_what_has_no_reply_says_why_it_needs_you(bench):
    topic = Topic("health:flax", "health and flaxseed", "health", ("flax",), ("pills",))
    sheet = topic_sheet(topic, [bench.store.entry("pills")], 1, bench.checked, bench.library)
    (reply,) = sheet.groups[0].replies
    assert (reply.ready, reply.why) == (False, "Health question: only the person's doctor can say.")


def test_a_topic_says_which_earlier_ones_it_took_in_or_parted_from(bench):
    grown = Topic("swap:egg", "doing without egg", "swap", ("egg",), ("a",), merged=("swap:chia+egg", "swap:egg+flax"))
    about = topic_sheet(grown, [], 0, bench.checked, bench.library).about
    assert "took in “chia and egg” and “egg and flax”" in about
    new = Topic("swap:chia+egg", "chia instead of egg", "swap", ("chia", "egg"), ("a",), parted="swap:egg")
    assert "parted from “egg”" in topic_sheet(new, [], 0, bench.checked, bench.library).about


def test_the_kitchen_says_whether_a_trial_was_fair_and_what_can_be_told_apart(shelf):
    """The invented spoons: unequal doses, one reading that stands alone, one value far from a published one."""
    sheet = kitchen_sheet(shelf.library, [])
    spoons = next(part for part in sheet.trials if part.id == "psyllium-spoons")
    assert spoons.fair == "not fair"
    assert any("1.68 times as much" in words for words in spoons.fair_words)
    assert any("disagrees with" in words for words in spoons.agreement)
    weighed, gel = spoons.quantities
    assert [line.times for line in weighed.lines] == ["", "1.68", "1.51"]
    assert "powder more than home-ground" in weighed.words
    assert [(line.single, bool(line.spread)) for line in gel.lines] == [(False, True), (False, True), (True, False)]
