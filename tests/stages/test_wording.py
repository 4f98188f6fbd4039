"""How near asks are to known texts, and that what is left out does not count."""

import numpy as np
import pytest

from qa.records import Ask, Mention
from qa.stages.match.wording import Known, Worded, Wording, worded


def words(text: str) -> Worded:
    return Worded(text, text, text, text)


@pytest.fixture(scope="module")
def wording() -> Wording:
    known = [
        Known(0, words("how long does the loaf keep"), "keep 0"),
        Known(0, words("will bread keep till sunday"), "ann", viewer=True),
        Known(1, words("why did the cake sink"), "sink 0"),
    ]
    return Wording.of(known, ["Wrapped, it keeps a few days.", "The middle sinks when the oven is opened."])


def test_a_known_text_is_as_near_as_can_be_unless_its_writer_is_left_out(wording: Wording) -> None:
    asked = [words("will bread keep till sunday")]
    assert wording.near(asked).named[0] == pytest.approx([1.0, 0.0], abs=0.3)
    assert wording.near(asked).named[0, 0] > 0.99
    without = wording.near(asked, ["ann"])
    assert without.named[0, 0] < 0.6
    assert without.heard[0, 0] == 0 < wording.near(asked).heard[0, 0]


def test_what_an_answer_speaks_of_covers_an_ask_and_viewers_words_do_not(wording: Wording) -> None:
    covered = wording.near([words("oven opened, sank"), words("sunday")]).covered
    assert covered[0, 1] > covered[0, 0]
    assert covered[1].max() == 0


def test_who_names_what_is_used_does_not_ask_as_those_do_who_name_what_is_replaced() -> None:
    known = [Known(0, words("what can I use instead of X")._replace(role=1), "instead"),
             Known(1, words("can I use X")._replace(role=-1), "use"),
             Known(1, words("is X ok")._replace(role=0), "ok")]  # fmt: skip
    roles = Wording.of(known, ["Take oil.", "Yes."]).near([words("can I take X")._replace(role=-1)]).role
    assert roles.tolist() == [[-1.0, 0.5]]


def test_everything_lies_between_nothing_and_all(wording: Wording) -> None:
    near = wording.near([words("why"), words(""), words("how long does the loaf keep why did the cake sink")])
    for part in near[:-1]:
        assert np.all((part >= 0) & (part <= 1.000001))


def test_a_dish_counts_for_answers_that_name_it(wording: Wording) -> None:
    near = wording.near([words("x")._replace(dish="cake"), words("x")])
    assert near.dish.tolist() == [[-1.0, 1.0], [0.0, 0.0]]


def test_a_short_comment_is_looked_at_as_a_whole_and_a_long_one_back_from_the_ask() -> None:
    text = "Mine is 500 g flour and 350 water. Is it correct, please?"
    ask = Ask("check", 35, len(text), text[35:])
    mention = Mention(14, 19, "flour", "wheat")
    assert worded(ask, [mention], text).around == text.replace("flour", "wheat")
    long = "word " * 100
    later = Ask("check", len(long), len(long) + len(ask.text), ask.text)
    around = worded(later, [], long + ask.text).around
    assert around.endswith(ask.text)
    assert len(ask.text) < len(around) <= 150
