"""What goes with an outcome: tables, chances, and what is never said."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.stages.extract.reports import QUESTIONS, had_in
from qa.trials.chance import Table, fisher
from qa.trials.suspects import LESS, Batch, own_batches, suspects
from qa.trials.told_suspects import told as suspects_told
from tests.trials.conftest import made

RECIPE = frozenset(("soda", "soda.powder"))


def batches(table: Table, key: str = "lemon") -> list[Batch]:
    """Batches that tell of one suspect as a table has it."""
    number = itertools.count()
    ways = ((True, True), (True, False), (False, True), (False, False))
    return [
        Batch(str(next(number)), had, {key: there})
        for (there, had), count in zip(ways, table, strict=True)
        for _ in range(count)
    ]


def test_the_tea_tasting_as_batches():
    """Fisher, The Design of Experiments (1935), chapter II: three of four right has a two-sided chance of 0.486."""
    (found,) = suspects(batches(Table(3, 1, 1, 3), "milk first"))
    assert found.table == Table(3, 1, 1, 3)
    assert found.p.value == pytest.approx(0.486, abs=5e-4)
    assert found.goes == "cannot tell"


def test_all_right_goes_with_it():
    (found,) = suspects(batches(Table(4, 0, 0, 4)))
    assert found.p.value == pytest.approx(2 / 70)
    assert found.goes == "with"
    assert suspects(batches(Table(0, 4, 4, 0)))[0].goes == "without"


def test_few_batches_that_could_show_nothing_are_asked_about_and_not_tested():
    """Two with it and fifteen without: even the most one-sided table has a chance above one in twenty."""
    (found,) = suspects(batches(Table(2, 0, 3, 12)))
    assert found.goes == "too few"
    assert found.corrected is None


def test_hopeless_suspects_cost_the_others_nothing():
    """Tarone's correction: only those count that could have shown something."""
    own = batches(Table(4, 0, 0, 4))
    told = [
        Batch(b.source, b.had, {**b.told, **({"pan: glass": b.source != "0"} if b.source in "04" else {})}) for b in own
    ]
    found = {one.key: one for one in suspects(told)}
    assert found["pan: glass"].corrected is None
    assert found["lemon"].corrected is not None
    assert found["lemon"].corrected.value == pytest.approx(found["lemon"].p.value)


def test_tested_suspects_are_corrected_for_their_number():
    own = [
        Batch(b.source, b.had, {"lemon": b.told["lemon"], "vinegar": b.told["lemon"]})
        for b in batches(Table(5, 0, 0, 5))
    ]
    for one in suspects(own):
        assert one.corrected is not None
        assert one.corrected.value == pytest.approx(2 * one.p.value)


def test_whoever_says_nothing_counts_by_the_recipe_and_is_counted_as_such():
    own = [
        Batch("a", False, {"lemon": True}, RECIPE),
        Batch("b", False, {"lemon": True}, RECIPE),
        Batch("c", True, {}, RECIPE),
        Batch("d", True, {}, None),
    ]
    (found,) = suspects(own)
    assert found.table == Table(0, 2, 1, 0)
    assert (found.silent, found.unreported) == (1, 1)


def test_a_circumstance_nobody_named_is_not_reported():
    own = [Batch("a", True, {"pan: glass": True}, RECIPE), Batch("b", False, {"pan: glass": False}, RECIPE)]
    (found,) = suspects([*own, Batch("c", True, {}, RECIPE)])
    assert found.unreported == 1


def test_none_of_it_is_also_less_of_it():
    batch = Batch("a", False, {"soda": False}, RECIPE)
    assert batch.there(f"{LESS}soda") is True
    assert Batch("b", False, {}, RECIPE).there(f"{LESS}soda") is False


counts = st.integers(0, 6)


@given(counts, counts, counts, counts)
def test_tables_add_up_and_agree_with_the_test(a, b, c, d):
    own = batches(Table(a, b, c, d))
    for one in suspects(own):
        assert sum(one.table) + one.unreported == len(own)
        assert one.p.value == pytest.approx(fisher(Table(a, b, c, d)))
        assert one.odds.low < one.odds.value < one.odds.high


def test_levels_of_a_trial_are_batches_of_our_own(invented):
    """The invented soda trial: green with full and with less soda, brown with lemon."""
    found = own_batches(invented.trial("soda-and-green"), ["baking-soda.powder"], had_in("green"))
    assert [(batch.source, batch.had) for batch in found] == [
        ("soda-and-green, full soda", True),
        ("soda-and-green, less soda", True),
        ("soda-and-green, full soda with lemon", False),
    ]
    assert [batch.told["lemon"] for batch in found] == [False, False, True]
    assert [batch.told["less:baking-soda"] for batch in found] == [False, True, False]
    assert not any(batch.reported for batch in found)


def test_a_level_nobody_described_is_no_batch():
    trial = made({"a": [1.0], "b": [2.0]}, observations=(("a", "green all over"),))
    assert [batch.source for batch in own_batches(trial, None, had_in("green"))] == ["a-trial, a"]


def test_no_sentence_speaks_of_a_cause_and_each_suspect_has_its_question(invented):
    own = [*batches(Table(0, 6, 6, 0)), Batch("x", True, {"pan: metal": True}), Batch("y", True, {"pan: metal": False})]
    shape = suspects_told("green", own, 3, suspects(own), QUESTIONS, invented)
    assert (shape["batches"], shape["had"], shape["had_not"], shape["unsaid"]) == (14, 8, 6, 3)
    words = " ".join(one["words"] for one in shape["suspects"])
    assert "green stays away with lemon" in words
    assert "cause" not in words
    questions = {one["suspect"]: one["question"] for one in shape["suspects"]}
    assert questions["lemon"] == "Did you use lemon, and how many grams of it?"
    assert questions["pan: metal"] == QUESTIONS["pan"]
