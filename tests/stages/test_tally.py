"""Viewers' results counted by ingredient."""

import pytest

from qa.records import Mention, Piece, Understood
from qa.stages.tally import outcome, tally


def result(comment, text, *ingredients):
    mentions = tuple(Mention(0, 1, name, name) for name in ingredients)
    pieces = (Piece(0, len(text), text, (("result", 0.9),)),)
    return Understood(comment, text, "en", (("result", 0.9),), pieces, mentions, ())


def test_reports_are_sorted_by_how_it_went():
    found = tally(
        [
            result("a", "used duck eggs, so fluffy and lovely", "egg"),
            result("b", "mine sank and was gummy", "egg", "flax"),
            result("c", "made it on Sunday", "egg"),
        ]
    )
    assert (found["egg"].good, found["egg"].bad, found["egg"].unclear) == (("a",), ("b",), ("c",))
    assert found["flax"].bad == ("b",)


def test_a_question_is_no_report():
    asked = Understood(
        "q", "will duck egg be lovely?", "en", (("question", 0.9),), (), (Mention(0, 1, "egg", "egg"),), ()
    )
    assert tally([asked]) == {}


def test_a_count_is_a_figure_that_names_its_reports():
    found = tally([result("a", "perfect", "chia"), result("b", "great", "chia")])["chia"].figure("good")
    assert (found.text, found.facts) == ("2", ("reports:chia",))
    assert "a, b" in found.working


@pytest.mark.parametrize(
    ("text", "how"),
    [
        ("not dense at all", "good"),
        ("wasn't moist", "bad"),
        ("perfect crumb but a bit gummy and dense", "bad"),
        ("it was bread", "unclear"),
        ("", "unclear"),
    ],
)
def test_verdict_words_and_their_negation(text, how):
    assert outcome(text) == how
