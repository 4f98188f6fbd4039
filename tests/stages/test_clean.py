"""Repair of texts: each step does its one thing, and no text is too long, too odd or too hostile."""

import time
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.records import Comment
from qa.stages.clean import LONGEST, STEPS, clean, language_of


def cleaned(text: str) -> str:
    return clean([Comment("1", text)])[0].text


@pytest.mark.parametrize(
    ("step", "before", "after"),
    [
        ("mojibake", "crÃ¨me fraÃ®che", "crème fraîche"),
        ("entities", "don&#39;t &amp; won&#x27;t", "don't & won't"),
        ("entities", "salt &amp;amp; sugar", "salt & sugar"),
        ("tags", "one<br>two <i>three</i>", "one\ntwo three"),
        ("controls", "flax\x07 \u202eseed\u202c", "flax seed"),
        ("zero width", "psy\u200bllium \ufeffhusk", "psyllium husk"),
        ("letters", "\U0001d413\U0001d400\U0001d40f \uff28\uff29", "TAP HI"),
        ("quotes", "it\u2019s \u201cflour\u201d", 'it\'s "flour"'),
        ("spaces", "too    many \t spaces \n\n\n\n here", "too many spaces\n\nhere"),
    ],
)
def test_a_step_repairs_its_own_fault_and_is_named(step: str, before: str, after: str) -> None:
    found = clean([Comment("1", before)])[0]
    assert found.text == after
    assert step in found.steps


def test_a_plain_text_is_left_alone() -> None:
    assert clean([Comment("1", "can I use 2½ cups < 3?")])[0].steps == ()


def test_signs_that_only_look_like_tags_stay() -> None:
    assert cleaned("I <3 this, 1 < 2 and 3 > 2") == "I <3 this, 1 < 2 and 3 > 2"


def test_shouting_is_kept_and_noted() -> None:
    found = clean([Comment("1", "WHY IS MY LOAF PURPLE")])[0]
    assert (found.text, found.steps) == ("WHY IS MY LOAF PURPLE", ("shouting",))


@pytest.mark.parametrize("text", ["<a" * 500_000, "&amp;" * 200_000, "Ã©" * 500_000, " \n" * 500_000, "x" * 1_000_000])
def test_a_megabyte_is_cut_and_takes_no_time(text: str) -> None:
    began = time.process_time()
    found = clean([Comment("1", text)])[0]
    assert len(found.text) <= LONGEST
    assert time.process_time() - began < 2


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("can i sub oat flour", "en"),
        ("Kann ich das auch mit Dinkelmehl machen?", "de"),
        ("¿Puedo usar maicena en lugar de fécula?", "es"),
        ("je peux remplacer les oeufs ?", "fr"),
        ("美味しそう、片栗粉でもできますか", "ja"),
        ("Gracias!", "es"),
        ("😍😍😍", "und"),
        ("", "und"),
        ("10/10", "und"),
        ("1/2 tsp xanthan", "en"),
    ],
)
def test_the_language_is_named(text: str, language: str) -> None:
    assert language_of(text) == language


@given(st.text(max_size=300))
def test_cleaning_twice_changes_nothing_more_in_plain_text(text: str) -> None:
    """Holds for what has no markup left in it: escapes may be nested to any depth, and two levels are undone."""
    if "&" in text or "<" in text or not unicodedata.is_normalized("NFC", text):
        return
    once = cleaned(text)
    assert cleaned(once) == once


def test_the_steps_have_distinct_names() -> None:
    assert len({name for name, _ in STEPS}) == len(STEPS)
