"""Likeness from 0 to 1, ridge with its left-out scores, and the matcher, checked against slow and obvious versions."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.similarity import Match, Matcher, likeness, likeness_matrix
from qa.similarity.ridge import dual, dual_and_left_out

# Invented askings of a ferry office: nothing of baking, since the matcher knows nothing of it.
FERRY = {
    "timetable": """when does the {} boat leave | what time is the {} sailing | departure of the {} ferry?
        | how often does the {} boat go | first {} boat in the morning | is there a late {} crossing""",
    "luggage": """can I take {} on board | is there room for {} | do you charge extra for {} | where do I put {}
        | how much {} may I carry | am I allowed to bring {}""",
    "refund": """I want my money back for the {} trip | refund for a missed {} boat | cancel my {} booking
        | how do I get repaid for {} | return the fare of the {} crossing | claim back the {} ticket""",
    "dogs": """may my dog come along on the {} boat | are pets allowed on {} | is a puppy free on the {} ferry
        | dogs on the {} crossing? | can I bring a cat to {} | pet fare for {}""",
}
WORDS = ("island", "harbour", "bicycle", "skerry", "tent", "northern", "pram", "sunday")


def asked(words: tuple[str, ...]) -> list[tuple[str, str]]:
    return [(text.strip().format(w), name) for name, texts in FERRY.items() for text in texts.split("|") for w in words]


@pytest.fixture(scope="module")
def matcher() -> Matcher:
    rows = asked(WORDS[:6])
    return Matcher().fit([text for text, _ in rows], [name for _, name in rows])


def test_askings_about_things_never_named_find_their_target(matcher: Matcher) -> None:
    rows = asked(WORDS[6:])
    found = matcher.match([text for text, _ in rows])
    assert sum(match.target == name for match, (_, name) in zip(found, rows, strict=True)) >= 0.95 * len(rows)


def test_what_is_about_nothing_known_is_less_sure(matcher: Matcher) -> None:
    inside = [match.probability for match in matcher.match([text for text, _ in asked(WORDS[6:])])]
    outside = [match.probability for match in matcher.match(["qqq zzz", "compose a sonnet", "7 x 8", ""])]
    assert max(outside) < 0.5 < sorted(inside)[len(inside) // 20]


def test_probabilities_lie_between_nothing_and_all_and_runners_up_follow_in_order(matcher: Matcher) -> None:
    for match in matcher.match(["when may my dog leave", "", "refund refund refund"]):
        shares = [share for _, share in match.runners_up]
        assert shares == sorted(shares, reverse=True)
        assert 0 <= match.probability <= 1
        assert match.probability + sum(shares) <= 1 + 1e-6
        assert match.target not in {target for target, _ in match.runners_up}


def test_each_text_is_matched_by_itself(matcher: Matcher) -> None:
    texts = ["is a puppy free", "cancel it", "what time"]
    assert matcher.match(texts) == [match for text in texts for match in matcher.match([text])]


def test_the_same_phrasings_give_the_same_matches(matcher: Matcher) -> None:
    texts = ["boat?", "my dog"]
    again = Matcher().fit(["boat leaves when", "dog allowed", "boat time", "dog fare"], [1, 2, 1, 2])
    once = Matcher().fit(["boat leaves when", "dog allowed", "boat time", "dog fare"], [1, 2, 1, 2])
    assert once.match(texts) == again.match(texts)
    assert [match.target for match in once.match(texts)] == [1, 2]


def test_one_target_is_enough() -> None:
    assert Matcher().fit(["boat"], ["timetable"]).match(["boat"])[0].target == "timetable"
    assert Matcher().fit(["boat"], ["timetable"]).match([]) == []


@pytest.mark.parametrize(("phrasings", "targets"), [([], []), (["a"], []), (["a"], ["x", "y"])])
def test_phrasings_and_targets_must_pair_up(phrasings: list[str], targets: list[str]) -> None:
    with pytest.raises(ValueError, match="one target for each"):
        Matcher().fit(phrasings, targets)


def test_sureness_grows_with_the_share_that_is_right() -> None:
    """Half of each target's phrasings are the same words as the other's, so nobody can be sure of those."""
    rows = (
        [("tide table", i % 2) for i in range(60)]
        + [(f"dog {i % 7}", 0) for i in range(30)]
        + [(f"fare {i % 7}", 1) for i in range(30)]
    )
    matcher = Matcher().fit([text for text, _ in rows], [target for _, target in rows])
    doubtful, clear = matcher.match(["tide table", "dog 3"])
    assert doubtful.probability < 0.75 < clear.probability
    assert isinstance(clear, Match)


@given(st.text(max_size=40), st.text(max_size=40))
def test_likeness_is_symmetric_and_within_its_range(one: str, other: str) -> None:
    assert 0 <= likeness(one, other) == likeness(other, one) <= 1


def test_likeness_of_a_matrix_has_a_row_for_each_text() -> None:
    found = likeness_matrix(["boat to skerry", "dogs"], ["boat to skerry", "dog", "zzz"])
    assert found.shape == (2, 3)
    assert found[0, 0] == pytest.approx(1, abs=1e-5)
    assert found[1].argmax() == 1
    assert found.min() >= 0


def test_left_out_scores_are_those_of_models_fitted_without_the_group() -> None:
    """Against the slow way: solve anew without each group."""
    random = np.random.default_rng(3)
    rows, wanted = random.normal(size=(12, 5)), random.normal(size=(12, 2))
    groups = [place // 3 for place in range(12)]
    kernel = rows @ rows.T
    weights, left_out = dual_and_left_out(kernel, wanted, 0.7, groups)
    assert weights == pytest.approx(dual(kernel, wanted, 0.7))
    for group in set(groups):
        held = np.array(groups) == group
        slow = kernel[np.ix_(held, ~held)] @ np.linalg.solve(
            kernel[np.ix_(~held, ~held)] + 0.7 * np.eye((~held).sum()), wanted[~held]
        )
        assert left_out[held] == pytest.approx(slow)
