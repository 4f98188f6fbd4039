"""The measure itself is measured on cases worked out by hand."""

import pytest

from qa.records import Ask, Draft, Example, Mention, Understood
from qa.scoring import report, score
from qa.scoring.measures import NATURAL_SHARE_OF_QUESTIONS


def example(key, kinds=("question",), asks=(("swap", ("egg",)),), mentions=((0, 3, "egg"),), status="drafted"):
    return Example(key, "egg?", "voice", "en", kinds, asks, mentions, status)


def said(key, kinds=("question",), asks=("swap",), mentions=((0, 3, "egg", ""),)):
    return Understood(
        key, "egg?", "en", tuple((k, 1.0) for k in kinds), (),
        tuple(Mention(a, b, "egg", item, form) for a, b, item, form in mentions),
        tuple(Ask(t, 0, 4, "egg?", ("egg",)) for t in asks),
    )  # fmt: skip


def test_a_perfect_tool_scores_one():
    result = score([example("a")], [said("a")], [Draft("a", "drafted")])["as_labelled"]
    assert result["kinds"]["macro_f1"] == result["mentions"]["f1"] == result["asks"]["first_type_right"] == 1.0
    assert result["drafts"] == {
        "share_of_answerable_drafted": 1.0,
        "precision": 1.0,
        "by_status": result["drafts"]["by_status"],
    }


def test_misses_and_false_finds_lower_recall_and_precision():
    examples = [example("a"), example("b"), example("c", kinds=("thanks",), asks=(), mentions=(), status="no_reply")]
    found = [said("a"), said("b", kinds=(), asks=(), mentions=()), said("c")]
    drafts = [Draft("a", "drafted"), Draft("b", "no_reply"), Draft("c", "drafted")]
    result = score(examples, found, drafts)
    question = result["as_labelled"]["kinds"]["by_kind"]["question"]
    assert (question["precision"], question["recall"]) == (0.5, 0.5)
    assert result["as_labelled"]["drafts"]["precision"] == 0.5
    assert result["must_not"] == ["c"]


def test_natural_weights_make_false_questions_cost_more():
    """Two of four ask; at 10 % one false find among the other two is weighed 0.9 / 0.5 against 0.1 / 0.5 for a hit."""
    examples = [example("a"), example("b")]
    examples += [example(k, kinds=("thanks",), asks=(), mentions=(), status="no_reply") for k in "cd"]
    found = [said("a"), said("b"), said("c"), said("d", kinds=("thanks",), asks=(), mentions=())]
    drafts = [Draft(e.id, "drafted" if e.id in "abc" else "no_reply") for e in examples]
    natural = score(examples, found, drafts)["natural"]["kinds"]["by_kind"]["question"]
    hits, false = 2 * NATURAL_SHARE_OF_QUESTIONS / 0.5, (1 - NATURAL_SHARE_OF_QUESTIONS) / 0.5
    assert natural["precision"] == pytest.approx(hits / (hits + false), abs=0.001)


@pytest.mark.parametrize(
    ("wanted", "found", "right"),
    [
        ((0, 10, "flax.ground"), (0, 10, "flax", "ground"), 1.0),
        ((0, 10, "flax.ground"), (0, 10, "flax", ""), 1.0),
        ((0, 10, "flax.ground"), (0, 10, "flax", "whole"), 0.0),
        ((0, 10, "flax"), (4, 10, "flax", "ground"), 1.0),
        ((0, 10, "flax"), (6, 10, "flax", ""), 0.0),
        ((0, 10, "flax"), (0, 10, "chia", ""), 0.0),
    ],
)
def test_a_mention_is_right_if_place_and_item_agree(wanted, found, right):
    result = score([example("a", mentions=(wanted,))], [said("a", mentions=(found,))], [Draft("a", "drafted")])
    assert result["as_labelled"]["mentions"]["f1"] == right


def test_the_report_names_every_measure():
    words = report(score([example("a")], [said("a")], [Draft("a", "drafted")]))
    for name in ("kinds", "asks", "mentions", "drafts", "natural proportions", "should not be: none"):
        assert name in words


def test_nothing_labelled_is_no_crash():
    assert score([], [], [])["comments"] == 0
