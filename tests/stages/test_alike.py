"""Word pieces that find their like in an answer's texts, and those that do not; sentences made up here."""

from __future__ import annotations

import numpy as np
import pytest

from qa.stages.match.alike import EVIDENCE, Likeness

TEXTS = ["which water for yeast", "how warm is water for yeast", "why did my cookies spread", "...", "oats for flour"]
SOURCES = ["p0", "viewer", "p2", "p3", "p4"]


@pytest.fixture(scope="module")
def known() -> Likeness:
    """Four answers: two texts, one, one without any word, one."""
    return Likeness.fit(TEXTS, np.array([0, 2, 3, 4]), np.array(SOURCES))


def test_a_known_text_is_wholly_alike_itself_and_only_there(known: Likeness):
    rows = known.to("which water for yeast", [1, 0])
    assert rows[1] == pytest.approx([1, 1, 0, 0, 0, 1], abs=2e-3)
    assert rows[0, EVIDENCE.index("alike")] < 0.6


def test_a_text_that_is_left_out_does_not_count(known: Likeness):
    alike = EVIDENCE.index("alike")
    (with_it,), (without,) = known.to(TEXTS[1], [0]), known.to(TEXTS[1], [0], "viewer")
    assert with_it[alike] > without[alike] > 0
    assert known.to(TEXTS[4], [3], "p4").tolist() == [[0.0] * len(EVIDENCE)]


def test_the_odd_word_tells_though_the_rest_is_the_same(known: Likeness):
    odd = EVIDENCE.index("odd in ask")
    kin, far = (known.to(text, [1])[0, odd] for text in ("why did my biscuits spread", "why did my uncle spread"))
    assert far > kin + 0.1


def test_what_says_nothing_is_like_nothing(known: Likeness):
    assert known.to("", [0, 1]).tolist() == [[0.0] * len(EVIDENCE)] * 2
    assert known.to("which water", []).shape == (0, len(EVIDENCE))
    assert known.to("zqx vw", [0])[0, EVIDENCE.index("alike in all")] < 0.3


def test_texts_without_any_word_are_like_nothing():
    known = Likeness.fit(["", " "], np.array([0, 1]), np.array(["p0", "p1"]))
    assert known.to("which water", [0, 1]).tolist() == [[0.0] * len(EVIDENCE)] * 2
