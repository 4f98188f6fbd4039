"""The tip sheet: what is on it, in which order, and what is left out and why. Knowledge is made up."""

from dataclasses import replace

import pytest

from qa.errors import NoKnowledge
from qa.knowledge.load import load_knowledge
from qa.records import Ask, Comment, Draft, Figure, Matched, Mention, Placed, Said, Tally, Topic, Understood
from qa.settings import shipped
from qa.stages.round_up import round_up

MASS = Figure("7 g", 7.0, 6.8, 7.2, "g", ("moonflour.fine.bulk-density.moon-tables",), "1 tbsp × 7 g = 7 g")


TOPIC = Topic("weight:moonflour", "the weight of moonflour", "weight", ("moonflour",))


def said(key, type_="weight", *, topic="weight:moonflour", reply="About that much.", kinds=("question",), **more):
    ask = Ask(type_, 0, 1, "?", more.get("items", ("moonflour",)))
    understood = Understood(
        key, more.get("text", "?"), "en", tuple((kind, 0.9) for kind in kinds), (),
        (Mention(0, 1, "moonflour", "moonflour"),), (ask,), topic=topic, unsafe=more.get("unsafe", ()),
    )  # fmt: skip
    status, reasons = more.get("status", "drafted"), more.get("reasons", ())
    draft = Draft(
        key,
        status,
        reasons,
        reply=reply,
        sureness=more.get("sureness", 0.9),
        matched=(Matched(ask, more.get("answer", "a"), 0.9),),
        figures=more.get("figures", ()),
    )
    return Said(
        Comment(key, "?", author=f"viewer {key}", likes=more.get("likes", 0)), understood, draft, more.get("signed", "")
    )


def weigh(amount, item):
    if not item.startswith("moonflour"):
        raise NoKnowledge("nobody weighed it")
    return MASS


def sheet(library, *rows, tallies=None):
    return round_up(rows, tallies or {}, library, {"weight:moonflour": TOPIC}, weigh, ["Thanks!"])


def lines(made, heading):
    return [line for section in made.sections if section.heading == heading for line in section.lines]


def test_most_asked_comes_first_and_a_signed_reply_before_a_draft(moon):
    rows = [said("a", topic="t1"), said("b"), said("c", signed="My own words."), said("d", topic="t1", reply="Other.")]
    rows.append(said("e"))
    asked = lines(sheet(moon, *rows), "Asked most")
    assert [line.topic for line in asked] == ["the weight of moonflour", "t1"]
    assert asked[0].source == "My own words."


def test_a_reply_about_more_than_its_topic_goes_by_the_question_it_answers(moon):
    """Over "moonflour or starflour" the topic "moonflour" would promise too much."""
    row = said("a", items=("moonflour", "starflour"), answer="weigh-moonflour")
    assert lines(sheet(moon, row), "Asked most")[0].topic == "How many grams is a tablespoon of moonflour?"


def test_where_the_answer_is_gone_the_topic_has_to_do(moon):
    row = said("a", items=("moonflour", "starflour"), answer="long-gone")
    assert lines(sheet(moon, row), "Asked most")[0].topic == "the weight of moonflour"


def test_a_reply_that_thanks_one_viewer_gives_way_to_a_plain_one(moon):
    thanking = said("a", kinds=("question", "result"), reply="Thanks! Yes.", sureness=0.99)
    assert lines(sheet(moon, thanking, said("b", sureness=0.8)), "Asked most")[0].source == "About that much."


@pytest.mark.parametrize("words", [{"reply": "Thanks! About 7 g."}, {"signed": "Thanks! About 7 g."}])
def test_the_sheet_does_without_thanks_to_one_viewer(moon, words):
    row = said("a", kinds=("question", "result"), figures=(Placed(MASS, 14, 17),), **words)
    assert lines(sheet(moon, row), "Asked most")[0].source == "About 7 g."


def test_a_sum_on_one_viewers_label_is_left_out_unless_it_is_signed(moon):
    own = (Placed(replace(MASS, theirs=True), 6, 9),)
    assert lines(sheet(moon, said("a", "carbs", reply="About 7 g.", figures=own)), "Asked most") == []
    assert lines(sheet(moon, said("a", "carbs", figures=own, signed="Mine.")), "Asked most")[0].source == "Mine."
    assert lines(sheet(moon, said("a", "weight", reply="About 7 g.", figures=own)), "Asked most")


@pytest.mark.parametrize("type_", ["tried", "where_to_buy", "episode"])
def test_what_helps_one_viewer_only_is_left_out_and_said(moon, type_):
    made = sheet(moon, said("a", type_))
    assert lines(made, "Asked most") == []
    assert made.left_out[0].why == "of use to one viewer"


def test_spoons_in_grams_for_what_was_asked_and_weighed(moon):
    line = lines(sheet(moon, said("a")), "In grams")[0]
    assert line.topic == "fine moonflour"
    assert line.values == {"spoon": MASS, "cup": MASS}


def test_reports_are_tallied_with_thanks_to_those_who_told(moon):
    tally = Tally("moonflour", ("a", "b"), ("c",))
    line = lines(sheet(moon, said("a"), said("b"), said("c"), tallies={"moonflour": tally}), "What viewers found")[0]
    assert line.credits == ("viewer a", "viewer b", "viewer c")
    assert line.values["all"].text == "3"


def test_an_unsafe_tip_is_held_out_however_well_liked(moon):
    unsafe = said("a", kinds=("tip",), text="keep it warm for a week", unsafe=("M1",), likes=900, topic="")
    good = said("b", kinds=("tip",), text="sift it before use", likes=2, topic="")
    made = sheet(moon, unsafe, good)
    quotes = [str(line.values["quote"]) for line in lines(made, "What viewers found") if "quote" in line.values]
    assert quotes == ["sift it before use"]
    assert ("a tip by viewer a", "unsafe to repeat") in made.left_out


def test_trials_show_their_readings_as_figures(moon):
    tested = lines(sheet(moon), "Tested here")
    assert tested
    assert any(isinstance(value, Figure) for line in tested for value in line.values.values())


def test_what_many_ask_and_nobody_knows_is_named(moon):
    rows = [said(key, status="needs_you", reasons=("no_knowledge",), reply=None, topic="t9") for key in "ab"]
    line = lines(sheet(moon, *rows), "Not known yet")[0]
    assert (line.topic, line.values["count"].text) == ("t9", "2")


def test_what_was_seen_in_a_test_that_was_not_fair_is_called_a_hint():
    """The invented trials: equal spoonfuls of husk and powder were unequal doses, the soda test was fair."""
    library = load_knowledge(shipped("knowledge"), invented=True)[0]
    tested = {line.topic: line.source for line in lines(sheet(library), "Tested here")}
    assert "not a fair test" in tested["What a level spoon of psyllium weighs"]
    assert "not a fair test" not in tested["Less soda, or lemon, against green cookies"]
