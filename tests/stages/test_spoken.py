"""Which body of an answer speaks of what was asked. Bodies are made up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.stages.match.spoken import Spoken

WRAP = "Wrap the loaf in a clean cloth and it stays soft."
FREEZE = "A loaf keeps for months frozen, sliced first."
FELL = "A sunken loaf was risen too long, about {{ hours }} of {{ name('freezer') }} hours."
BODIES = [WRAP, FREEZE, FELL]
SPOKEN = Spoken.of(BODIES)


@pytest.mark.parametrize(
    ("ask", "best"),
    [
        ("could I freeze this loaf", FREEZE),
        ("do I wrap it", WRAP),
        ("my loaf collapsed", FELL),  # a word of the same meaning
    ],
)
def test_the_body_that_speaks_of_the_ask_has_the_greatest_share(ask, best):
    shares = SPOKEN.shares(ask, BODIES)
    assert BODIES[shares.index(max(shares))] == best
    assert max(shares) > sorted(shares)[-2] + 0.05


def test_what_a_figure_is_called_is_not_spoken_of():
    assert SPOKEN.shares("freezer", [FELL]) == (0.0,)


def test_a_word_that_all_bodies_hold_tells_less_than_one_that_a_single_body_holds():
    assert SPOKEN.shares("loaf cloth", ["loaf"])[0] < SPOKEN.shares("loaf cloth", ["cloth"])[0]


@given(st.text(max_size=60), st.lists(st.sampled_from(BODIES), max_size=4))
def test_a_share_lies_between_nothing_and_all(ask, bodies):
    shares = SPOKEN.shares(ask, bodies)
    assert len(shares) == len(bodies)
    assert all(0 <= share <= 1 + 1e-9 for share in shares)
