"""Splitting where punctuation, spaces or line breaks were lost; and patterns written as phrases."""

import time
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.text.phrases import phrases
from qa.text.sentences import pieces_of


def split(text: str) -> list[str]:
    return [text[start:end] for start, end in pieces_of(text)]


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("It rose. 350 F for 1 hr.", ["It rose.", "350 F for 1 hr."]),
        ("recipe looks goodWhat can I sub for eggs", ["recipe looks good", "What can I sub for eggs"]),
        ("so soft!Can I freeze it", ["so soft!", "Can I freeze it"]),
        ("instead of lard can I use all butter", ["instead of lard can I use all butter"]),
        ("loved it but how long does it keep", ["loved it", "how long does it keep"]),
        ("my bread is gummy, is it the psyllium or did i underbake it?",
         ["my bread is gummy", "is it the psyllium", "did i underbake it?"]),
        ("1) too sweet 2) why is it purple 3. nice crumb", ["1) too sweet", "2) why is it purple", "3. nice crumb"]),
        ("great, thanks. P.S. how much is a stick", ["great, thanks.", "P.S.", "how much is a stick"]),
        ("2.5 cups i.e. 300 g, right?", ["2.5 cups i.e. 300 g, right?"]),
        ("no idea why it did that", ["no idea why it did that"]),
        ("I wonder if I can use oats", ["I wonder if I can use oats"]),
        ("what can i use instead and if so how much", ["what can i use instead and if so how much"]),
        ("somewhat gummy", ["somewhat gummy"]),
        ("which sugar free dark chocolate do you use", ["which sugar free dark chocolate do you use"]),
        ("how long does it keep, and is margarine all right?", ["how long does it keep", "is margarine all right?"]),
        ("it is wet, and is very sticky to the touch?", ["it is wet, and is very sticky to the touch?"]),
        ("", []),
    ],
)  # fmt: skip
def test_a_text_is_split_where_a_reader_would(text: str, pieces: list[str]) -> None:
    assert split(text) == pieces


JOINING = {"but", "and", "also", "so", "because", "btw", "otherwise", "however", "now", "though", "or", ""}


@given(
    st.lists(
        st.sampled_from(["can", "I", "but", "and", "it", "rose.", "Why", "ok!", "\n", "1)", ",", "so"]), max_size=25
    )
)
def test_pieces_keep_their_order_and_lose_only_joining_words(words: list[str]) -> None:
    text = " ".join(words)
    spans = pieces_of(text)
    assert all(start < end for start, end in spans)
    assert all(one[1] <= other[0] for one, other in pairwise(spans))
    between = zip([0, *(end for _, end in spans)], [*(start for start, _ in spans), len(text)], strict=True)
    lost = " ".join(text[start:end] for start, end in between).replace(",", " ").split()
    assert set(lost) <= JOINING


@pytest.mark.parametrize("text", ["can i " * 1300, "but " * 2000, ", but so" * 1000, "?!" * 4000, "a.B" * 2600])
def test_splitting_a_hostile_text_takes_no_time(text: str) -> None:
    began = time.process_time()
    pieces_of(text)
    assert time.process_time() - began < 1


@pytest.mark.parametrize(
    ("written", "found", "not_found"),
    [
        ("freez* | fridge", "is it FREEZING", "unfreezable"),
        ("how (much|many) .. grams?", "how much is that in grams", "how much, and then some words too many, grams"),
        ("don't", "dont worry", "donut"),
        ("left .. out ... safe", "left it all out since Monday, still safe", "out left"),
    ],
)
def test_phrases_find_what_they_say(written: str, found: str, not_found: str) -> None:
    pattern = phrases(written)
    assert pattern.search(found)
    assert not pattern.search(not_found)
