"""Answers judged, rivals, reliability and the worst mistakes, on cases worked out by hand."""

import math
from dataclasses import replace

import pytest

from qa.records import Ask, Draft, Example, Matched, Understood
from qa.scoring import headline, page_values, report, score
from qa.scoring.baselines import bm25, nearest_neighbour
from qa.scoring.curves import calibration_error, reliability
from qa.stages.match import aligned

SWAP = Ask("swap", 0, 9, "chia egg?", ("egg", "chia"), sureness=0.9)
KEEP = Ask("storage", 10, 20, "keeps long?", (), sureness=0.6)


def labelled(answers, status="drafted", asks=(("swap", ("egg", "chia")), ("storage", ()))):
    return Example("a", "chia egg? keeps long?", "v", "en", ("question",), asks, (), status, answers=answers)


def understood(*asks):
    return Understood("a", "chia egg? keeps long?", "en", (("question", 0.9),), (), (), asks)


def drafted(*matched, status="drafted"):
    return Draft("a", status, reply="text" if status == "drafted" else None, matched=matched, sureness=0.8)


def measured(example, draft):
    return score([example], [understood(SWAP, KEEP)], [draft])


def test_a_reply_is_right_if_every_ask_has_an_answer_the_reader_would_sign():
    example = labelled((("egg-to-chia", "swap-any"), ("storage-bread",)))
    both = drafted(Matched(SWAP, "swap-any", 0.9), Matched(KEEP, "storage-bread", 0.8))
    assert measured(example, both)["answers"] == {
        "judged_asks": 2, "first_right": 1.0, "answered": 1.0, "judged_replies": 1, "right_and_complete": 1.0,
    }  # fmt: skip
    half = drafted(Matched(SWAP, "swap-any", 0.9))
    assert measured(example, half)["answers"]["right_and_complete"] == 0.0
    wrong = drafted(Matched(SWAP, "swap-any", 0.9), Matched(KEEP, "storage-eggs", 0.8))
    assert measured(example, wrong)["answers"]["right_and_complete"] == 0.0
    assert measured(example, wrong)["answers"]["first_right"] == 0.5


def test_a_silent_ask_counts_for_its_first_runner_up_and_not_as_answered():
    example = labelled((("egg-to-chia",), None))
    silent = drafted(Matched(SWAP, None, 0.4, (("egg-to-chia", 0.4),), "unsure"), status="needs_you")
    found = measured(example, silent)["answers"]
    assert (found["judged_asks"], found["first_right"], found["answered"]) == (1, 1.0, 0.0)
    assert found["right_and_complete"] is None


def test_an_answer_to_something_that_was_not_asked_makes_a_reply_wrong():
    example = labelled((("egg-to-chia",),), asks=(("swap", ("egg", "chia")),))
    spare = drafted(Matched(SWAP, "egg-to-chia", 0.9), Matched(KEEP, "storage-bread", 0.8))
    assert measured(example, spare)["answers"]["right_and_complete"] == 0.0


@pytest.mark.parametrize(
    ("found", "wanted", "places"),
    [
        ([("swap", ("egg",))], [("swap", ("egg",))], [0]),
        ([("swap", ("milk",)), ("swap", ("egg",))], [("swap", ("egg",)), ("swap", ("milk",))], [1, 0]),
        ([("method", ()), ("storage", ())], [("storage", ())], [None, 0]),
        ([], [("storage", ())], []),
    ],
)
def test_asks_go_with_the_labels_they_agree_with_most(found, wanted, places):
    assert aligned(found, wanted) == places


def test_bm25_by_hand():
    """Two known texts of three and one words; "chia" stands in one of them, "soak" in both.

    By the formula, with k1 = 1.2, b = 0.75 and mean length 2, a word standing once in a text of n words weighs
    idf × 2.2 / (1 + 1.2 × (0.25 + 0.75 × n / 2)): the long text has "chia" and "soak", the short one only "soak".
    """
    idf = {"chia": math.log(1 + (2 - 1 + 0.5) / (1 + 0.5)), "soak": math.log(1 + (2 - 2 + 0.5) / (2 + 0.5))}

    def weight(length):
        return 2.2 / (1 + 1.2 * (0.25 + 0.75 * length / 2))

    long, short = (idf["chia"] + idf["soak"]) * weight(3), idf["soak"] * weight(1)
    assert long > short
    assert idf["soak"] * weight(1) > idf["soak"] * weight(3)  # without "chia" the shorter one wins
    known = ["soak chia seeds", "soak"]
    assert list(bm25(known, ["how to soak chia", "how long to soak"])) == [0, 1]


def test_the_nearest_neighbour_is_the_text_itself():
    known = ["why is it purple", "how much is a cup", "can i freeze it"]
    assert list(nearest_neighbour(known, known)) == [0, 1, 2]
    assert len(bm25(known, [])) == len(nearest_neighbour(known, [])) == 0


def test_rivals_are_measured_where_there_is_something_to_look_at():
    known = [
        replace(labelled(()), id="k1", text="chia egg? please"),
        replace(labelled((), asks=()), id="k2", text="lovely", kinds=("thanks",)),
    ]
    example = labelled((("egg-to-chia",), None))
    phrasings = [("chia egg?", "egg-to-chia"), ("how to keep cake", "storage-cake")]
    draft = drafted(Matched(SWAP, "egg-to-chia", 0.9))
    rivals = score([example], [understood(SWAP, KEEP)], [draft], known, phrasings)["rivals"]
    assert set(rivals) == {"ours", "BM25", "nearest neighbour"}
    assert {row["first_answer_right"] for row in rivals.values()} == {1.0}
    assert {row["first_type_right"] for row in rivals.values()} == {1.0}
    assert set(score([example], [understood(SWAP)], [draft])["rivals"]) == {"ours"}


def test_a_curve_on_its_diagonal_has_no_error_and_a_boastful_one_has():
    honest = [(0.75, n < 3) for n in range(4)]
    assert calibration_error(reliability(honest)) == pytest.approx(0.0)
    assert calibration_error(reliability([(1.0, False)])) == pytest.approx(1.0)
    assert reliability([]) == []
    assert calibration_error([]) == 0.0


def test_what_must_not_go_out_comes_first_among_the_mistakes():
    held = replace(labelled((None, None), status="needs_you"), id="held", reasons=("health",))
    fine = labelled((("egg-to-chia",), None))
    wrong = drafted(Matched(SWAP, "storage-eggs", 0.99))
    result = score([fine, held], [understood(SWAP, KEEP)] * 2, [wrong, wrong])
    kinds = [mistake["what"] for mistake in result["worst"]]
    assert kinds[:2] == ["must not be drafted", "wrong answer"]
    assert result["must_not"] == ["held"]
    assert result["as_labelled"]["held"]["health"] == {"recall": 0.0, "support": 1.0}


def test_a_held_comment_counts_only_with_its_reason():
    held = replace(labelled((None, None), status="needs_you"), reasons=("unsafe",))
    named = Draft("a", "needs_you", ("safety",))
    unnamed = Draft("a", "needs_you", ("unsure",))
    for draft, recall in ((named, 1.0), (unnamed, 0.0)):
        assert measured(held, draft)["as_labelled"]["held"]["unsafe"]["recall"] == recall


def test_the_report_and_the_page_show_what_was_taught_and_left_out():
    result = measured(labelled((("egg-to-chia",), None)), drafted(Matched(SWAP, "egg-to-chia", 0.9)))
    result |= {"left_out": 7, "taught": {"examples": 2, "measures": {"kinds, macro-F1": [0.5, 0.75]}}}
    words = report(result)
    for part in (
        "7 comments by the same voices",
        "2 corrections were taught",
        "0.500     0.750",
        "reliability of answers",
    ):
        assert part in words
    values = page_values(result)
    assert [name for name, _, _ in values["headline"]] == list(headline(result["as_labelled"]))
