"""The matcher of texts to targets, on texts made up here."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from qa.similarity import Matcher

SYLLABLES = [first + vowel + last for first in "bdfglmnprst" for vowel in "aeiou" for last in "dklmnrst"]


def sentences(count: int, targets: int, seed: int, chance: float = 0.35) -> tuple[list[str], list[int]]:
    """Sentences of a made-up tongue: each target has ten words of its own, drawn from all, that come up by chance."""
    words = [one + other for one, other in pairwise(SYLLABLES)]
    own = np.random.default_rng(1).choice(len(words), (targets, 10))
    random = np.random.default_rng(seed)
    texts, wanted = [], []
    for number in range(count):
        target = number % targets
        length = int(random.integers(4, 11))
        places = np.where(random.random(length) < chance, random.choice(own[target], length), 0)
        usual = np.minimum(random.pareto(0.6, length) * 3, len(words) - 1).astype(int)
        texts.append(" ".join(words[place] for place in np.where(places > 0, places, usual)))
        wanted.append(target)
    return texts, wanted


@pytest.fixture(scope="module")
def learned():
    return Matcher().fit(*sentences(900, 30, seed=2))


def test_unseen_texts_find_their_target(learned):
    texts, wanted = sentences(600, 30, seed=3)
    right = [match.target == target for match, target in zip(learned.match(texts), wanted, strict=True)]
    assert np.mean(right) > 0.7


def test_probabilities_are_how_often_it_is_right(learned):
    """Of texts about a target, bin by bin; texts about nothing known are allowed for, so somewhat too low is right."""
    texts, wanted = sentences(3000, 30, seed=4)
    matches = learned.match(texts)
    sure = np.array([match.probability for match in matches])
    right = np.array([match.target == target for match, target in zip(matches, wanted, strict=True)])
    assert abs(sure.mean() - right.mean()) < 0.06
    for low in (0.2, 0.4, 0.6, 0.8):
        within = (sure >= low) & (sure < low + 0.2)
        assert within.sum() > 50
        assert abs(sure[within].mean() - right[within].mean()) < 0.13


def test_targets_never_seen_are_seldom_sure(learned):
    """Other targets' sentences, with the same usual words, mostly score below 95 % of sentences with a target."""
    inside = [match.probability for match in learned.match(sentences(600, 30, seed=5, chance=0.6)[0])]
    texts, targets = sentences(1200, 60, seed=6, chance=0.6)
    strange = [text for text, target in zip(texts, targets, strict=True) if target >= 30]
    outside = [match.probability for match in learned.match(strange)]
    assert np.mean(np.array(outside) < np.quantile(inside, 0.05)) > 0.8


def test_the_order_of_phrasings_does_not_matter():
    texts, targets = sentences(150, 10, seed=7)
    asked = sentences(40, 10, seed=8)[0]
    order = np.random.default_rng(9).permutation(150)
    one = Matcher().fit(texts, targets).match(asked)
    other = Matcher().fit([texts[i] for i in order], [targets[i] for i in order]).match(asked)
    assert one == other


def test_texts_are_matched_each_for_itself(learned):
    texts = sentences(20, 30, seed=10)[0]
    alone = [learned.match([text])[0] for text in texts]
    together = learned.match(texts)
    assert alone == together


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.text(max_size=30), st.sampled_from("abcdef")), min_size=1, max_size=12),
    st.lists(st.text(max_size=40), max_size=5),
)
def test_any_texts_give_sound_probabilities(pairs, texts):
    matcher = Matcher().fit([text for text, _ in pairs], [target for _, target in pairs])
    matches = matcher.match(texts)
    assert len(matches) == len(texts)
    for match in matches:
        shares = [share for _, share in match.runners_up]
        assert all(0 <= share <= match.probability for share in shares)
        assert match.probability + sum(shares) <= 1 + 1e-5
        assert shares == sorted(shares, reverse=True)
        named = [match.target, *(target for target, _ in match.runners_up)]
        assert len(set(named)) == len(named)
        assert set(named) <= {target for _, target in pairs}


def test_nothing_in_common_is_no_match():
    matcher = Matcher().fit(["how long does it keep", "what does a cup weigh"], ["storage", "weight"])
    assert [match.probability for match in matcher.match(["", "   ", "ξξξ"])] == [0.0, 0.0, 0.0]


def test_one_target_and_the_same_phrasing_twice():
    matcher = Matcher().fit(["where to buy it", "where to buy it"], ["shop", "shop"])
    [match] = matcher.match(["where to buy it"])
    assert (match.target, match.runners_up) == ("shop", ())
    assert match.probability > 0.5


def test_one_phrasing_with_two_targets_is_no_better_than_a_toss():
    matcher = Matcher().fit(["is it done"] * 20, ["baking", "frying"] * 10)
    assert matcher.match(["is it done"])[0].probability < 0.7


@pytest.mark.parametrize(("phrasings", "targets"), [([], []), (["a"], []), (["a"], ["x", "y"])])
def test_each_phrasing_needs_a_target(phrasings, targets):
    with pytest.raises(ValueError, match="give one target for each"):
        Matcher().fit(phrasings, targets)


@pytest.mark.parametrize(
    ("asked", "target"),
    [
        ("the carousel stopped and mine was not on it", "lost luggage"),
        ("I would rather be by the window", "seat choice"),
        ("will I go hungry up there", "meals"),
    ],
)
def test_what_is_meant_is_found_in_other_words(asked, target):
    phrasings = {
        "lost luggage": ["I cannot find my baggage", "luggage did not arrive", "report missing baggage after landing"],
        "seat choice": ["choose where I sit", "reserve a place with extra legroom", "change my seating"],
        "meals": ["is food served on board", "order a vegetarian dish", "drinks during the flight"],
    }
    pairs = [(text, target) for target, texts in phrasings.items() for text in texts]
    matcher = Matcher().fit([text for text, _ in pairs], [target for _, target in pairs])
    assert matcher.match([asked])[0].target == target
