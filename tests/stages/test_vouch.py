"""The number gate: nothing with a number in it leaves without a figure."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.outside.render import Gate
from qa.records import Figure, Placed
from qa.stages.vouch import place, vouch

MASS = Figure("21 g", 21.0, 20.1, 21.9, "g", ("flax.ground.bulk-density.usda-sr26",), "3 tbsp × 7 g per tbsp = 21 g")
REPLY = "Three level spoonfuls come to about 21 g, going by the USDA table; level them with a knife."
PLAIN = "Level spoonfuls come to about 21 g, going by the USDA table; level them with a knife."
AT = PLAIN.index("21 g")
PLACED = (Placed(MASS, AT, AT + 4),)

NUMERALS = st.one_of(
    st.integers(0, 10**6).map(str),
    st.decimals(0, 1000, places=2).map(str),
    st.sampled_from("½ ⅓ ¼ ¾ ⅔ ⅛ ¹ ² ③ Ⅳ ٣ ३ 七".split()),
)
WORDS = st.sampled_from(
    """zero two three four five six seven eight nine ten eleven twelve thirteen nineteen twenty thirty forty ninety
    twenty-five hundred thousand million dozen half quarter quarters thirds twice thrice double tripled twofold
    two-fold Seven TWELVE Half couple""".split()
)


def test_a_vouched_figure_passes():
    assert vouch(PLAIN, PLACED) == ()


def test_a_number_word_in_a_reply_is_caught():
    assert [loose.text for loose in vouch(REPLY, ())] == ["Three", "21"]


@given(NUMERALS, st.integers(0, len(PLAIN)))
def test_a_numeral_inserted_anywhere_is_caught(numeral, position):
    """Even inside a word or touching the figure, where it would change what the figure says."""
    text = PLAIN[:position] + numeral + PLAIN[position:]
    shifted = tuple(Placed(p.figure, p.start + len(numeral), p.end + len(numeral)) for p in PLACED)
    assert vouch(text, PLACED if position > AT + 3 else shifted)
    assert vouch(text, place(text, [MASS]))


@given(WORDS, st.integers(0, len(PLAIN)))
def test_a_number_word_inserted_between_words_is_caught(word, position):
    cut = PLAIN.rfind(" ", 0, position) + 1
    text = f"{PLAIN[:cut]}{word} {PLAIN[cut:]}"
    assert word in [loose.text for loose in vouch(text, place(text, [MASS]))]


@given(st.lists(st.sampled_from(["flax", "chia", "{{ mass }}", "a level spoon", "twice", "7", "½"]), min_size=1))
def test_what_the_gate_wrote_is_vouched_for_and_nothing_else(pieces):
    page = Gate().write(" ".join(pieces), {"mass": MASS})
    loose = [found.text for found in vouch(page.text, page.placed, page.names)]
    assert loose == [piece for piece in pieces if piece in {"twice", "7", "½"}]


@pytest.mark.parametrize(
    "text",
    [
        "the one you want",
        "which one?",
        "no one knows",
        "that is the one to use",
        "someone often weighs a height of freight",
        "a second rise and a first try",
        "both of them, once cool",
        "Tender crumb, attend to it",
    ],
)
def test_words_that_only_look_like_numbers_pass(text):
    assert vouch(text, ()) == ()


@pytest.mark.parametrize(
    ("text", "loose"),
    [
        ("use one egg", "one"),
        ("the one egg", "one"),
        ("a third of it", "third"),
        ("½ cup", "½"),
        ("twentyfive grams", "twentyfive"),
        ("ten-fold", "ten-fold"),
        ("type 00", "00"),
        ("Bake at 180°C", "180"),
        ("E464", "464"),
        ("half-and-half", "half"),
    ],
)
def test_numbers_in_other_clothes_are_caught(text, loose):
    assert vouch(text, ())[0].text == loose


def test_a_name_with_a_numeral_is_vouched_for_as_a_name_only_where_it_stands():
    text = "type 00 flour is not 00 grind"
    assert [loose.start for loose in vouch(text, (), [(0, 13)])] == [text.rindex("00")]


@pytest.mark.parametrize(
    "edited", ["About 121 g of it", "About 21 grams", "About 21 g/8 of it", "About ½21 g", "0.21 g"]
)
def test_an_edit_that_changes_a_figure_loses_its_vouching(edited):
    assert vouch(edited, place(edited, [MASS]))


def test_a_figure_moved_by_an_edit_is_found_again():
    edited = "In short: 21 g. Yes, 21 g!"
    assert vouch(edited, place(edited, [MASS])) == ()
    assert [p.start for p in place(edited, [MASS])] == [10, 21]


def test_the_longer_figure_wins_a_place():
    longer = Figure("1 to 21 g", 11.0, 1.0, 21.0, "g", ("x",))
    assert [p.figure for p in place("take 1 to 21 g", [MASS, longer])] == [longer]
