"""Which question to test next, and with how many bakes."""

import pytest

from qa.records import Topic
from qa.trials.designs import NO_TEST, Open, open_questions, plan, rank, repeats_needed


def open_question(name, askers=5, weeks=(2, 3), unknown=1.0, items=("almond.flour", "tigernut"), type_="swap"):
    return Open(name, name, type_, items, askers, weeks, unknown)


@pytest.mark.parametrize(
    ("effect", "each"),
    [
        # Cohen, Statistical Power Analysis for the Behavioral Sciences (1988), two-sided 5 %, power 80 %: 64, 26 each
        # for half a spread and for 0.8 spreads (the figures as usually quoted; from memory).
        (0.5, 64),
        (0.8, 26),
    ],
)
def test_repeats_agree_with_the_published_table(effect, each):
    assert repeats_needed(effect).value == each


def test_repeats_agree_with_a_reference_library():
    from statsmodels.stats.power import TTestIndPower

    for effect in (0.6, 1.0, 1.5, 2.5):
        n = repeats_needed(effect).value
        power = TTestIndPower().power
        assert power(effect, n, 0.05) >= 0.8 > power(effect, n - 1, 0.05)


def test_more_askers_faster_growth_and_less_known_come_first():
    few, many = open_question("few", askers=2), open_question("many", askers=9)
    grown = open_question("grown", askers=5, weeks=(0, 5))
    shrunk = open_question("shrunk", askers=5, weeks=(5, 0))
    half_known = open_question("half known", askers=9, unknown=0.3)
    assert [q.name for q in rank([few, shrunk, half_known, grown, many])] == [
        "grown", "many", "half known", "few", "shrunk",
    ]  # fmt: skip


def test_what_takes_minutes_comes_before_what_takes_days():
    kept, weighed, baked = (open_question(kind, type_=kind) for kind in ("storage", "weight", "swap"))
    assert [q.name for q in rank([kept, weighed, baked])] == ["weight", "swap", "storage"]


def test_what_is_known_is_not_tested():
    assert rank([open_question("known", unknown=0.0)]) == []


def test_the_order_of_equals_never_changes_by_itself():
    questions = [open_question(name) for name in "cab"]
    assert [q.name for q in rank(questions)] == ["a", "b", "c"]


def test_a_plan_is_by_weight_balanced_and_the_same_each_time():
    names = {"almond.flour": "almond flour", "tigernut": "tigernut flour"}
    first, again = (plan(open_question("tigernut"), names) for _ in range(2))
    assert first == again
    assert first.levels == ("almond flour", "tigernut flour")
    assert "equal weight" in first.dose
    assert {first.order.count(level) for level in first.levels} == {int(first.repeats.value)}
    assert list(first.order) != sorted(first.order)


@pytest.mark.parametrize("type_", ["swap", "weight", "colour", "storage", "went_wrong", "other"])
def test_every_type_gets_two_levels_even_for_one_ingredient(type_):
    made = plan(open_question("duck egg", items=("egg.duck",), type_=type_), {})
    assert len(made.levels) == 2
    assert made.hypothesis
    assert made.constant


def topic(key, type_, *items, comments=("a",), weeks=(("2026-W10", 1),)):
    return Topic(key, key, type_, items, comments, weeks=weeks)


def test_everything_about_an_unknown_ingredient_is_one_question_with_its_growth():
    topics = [
        topic("swap:almond+tigernut", "swap", "almond", "tigernut", comments=("a", "b"), weeks=(("2026-W10", 1),)),
        topic("tried:tigernut", "tried", "tigernut", comments=("c", "b"), weeks=(("2026-W11", 3),)),
        topic("weight:almond", "weight", "almond", comments=("d",)),
        topic("method:in general", "method", comments=("e",)),
    ]
    found = {q.topic: q for q in open_questions(topics, {"a": 1.0, "b": 1.0, "c": 1.0}, lambda item: item == "almond")}
    assert set(found) == {"tigernut", "weight:almond"}
    assert (found["tigernut"].askers, found["tigernut"].weeks, found["tigernut"].unknown) == (3, (1, 3), 1.0)
    assert found["tigernut"].items == ("almond", "tigernut")
    assert found["weight:almond"].unknown == 0.0


@pytest.mark.parametrize("type_", sorted(NO_TEST))
def test_what_no_kitchen_test_answers_is_not_planned(type_):
    """Health, allergy and safety belong to others; nor does a test tell where to buy a thing."""
    assert open_questions([topic(f"{type_}:nuts", type_, "nuts")], {"a": 1.0}, {"almond"}.__contains__) == []


def test_a_plan_for_one_thing_bakes_with_it_and_without():
    made = plan(open_question("doing without yeast", items=("yeast",), type_="swap"), {"yeast": "yeast"})
    assert made.levels == ("yeast", "without yeast")
    assert made.hypothesis == "the bake has the same height and crumb without yeast"
    assert made.bakes.value == len(made.order) == 2 * made.repeats.value
