"""Who is replaced and what is used instead, in marked sentences."""

import pytest

from qa.text.pairs import pair_in, role_in


@pytest.mark.parametrize(
    ("sentence", "pair"),
    [
        ("I've got X but the recipe says X, how much", (1, 0)),
        ("the recipe wants X, could I take X", (0, 1)),
        ("the recipe wants X, can I use X", (0, 1)),
        ("it calls for X but I only have X", (0, 1)),
        ("no X here, will X do", (0, 1)),
        ("would X work as X", (1, 0)),
        ("is the X needed", (None, None)),
        ("we don't get X here, can X go in", (0, 1)),
        ("would X be weird in these", (None, 0)),
        ("any replacement for X in X bread", (0, None)),
        ("can I put X where you have X", (1, 0)),
        ("we always use X, is fresh X ok", (0, 1)),
        ("can I put X in a mix that calls for X", (1, 0)),
        ("can X be substituted in for X", (1, 0)),
        ("could X be substituted for X in scones", (1, 0)),
        ("can X be substituted with X", (0, 1)),
        ("can X be swapped for X", (0, 1)),
        ("can X be swapped in for X", (1, 0)),
        ("X when the box says X, any good?", (1, 0)),
    ],
)
def test_a_pair_is_told_in_the_order_of_the_sentence(sentence: str, pair: tuple[int | None, int | None]) -> None:
    assert tuple(pair_in(sentence)) == pair


@pytest.mark.parametrize(
    ("sentence", "comment", "role"),
    [
        ("what is the nearest?", "no X in the shops. what is the nearest?", 1),
        ("can I use X", "can I use X", -1),
        ("can I use X", "I hate X. can I use X", 1),
        ("X instead of X", "X instead of X", 0),
        ("how long do I bake it", "how long do I bake it", 0),
        ("is X alright for it", "X is so dear now. is X alright for it", 1),
    ],
)
def test_what_is_lacking_is_replaced_wherever_the_comment_says_so(sentence: str, comment: str, role: int) -> None:
    assert role_in(sentence, comment) == role
