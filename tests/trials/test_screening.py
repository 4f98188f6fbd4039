"""Screening designs and what comes of them."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import LevelspoonError
from qa.trials.readings import read
from qa.trials.screening import MOST, effects, run_name, screen, screening_plan
from tests.trials.conftest import made

NAMES = tuple(f"thing {letter}" for letter in "abcdefghijklmnopqrstuvwxyz")


def columns(found):
    return [[1 if run[i] else -1 for run in found.runs] for i in range(len(found.varied))]


@pytest.mark.parametrize(
    ("suspects", "bakes"),
    # Powers of two where a fractional factorial leaves two bakes to judge by, else multiples of four.
    [
        (2, 8),
        (3, 8),
        (4, 8),
        (5, 8),
        (6, 12),
        (7, 12),
        (9, 12),
        (10, 16),
        (13, 16),
        (14, 20),
        (17, 20),
        (18, 24),
        (21, 24),
    ],
)
def test_every_suspect_is_in_half_of_the_bakes_independently_of_the_others(suspects, bakes):
    found = screen(NAMES[:suspects], "a topic")
    assert len(found.runs) == bakes == found.size.value
    own = columns(found)
    assert all(sum(column) == 0 for column in own)
    assert all(sum(a * b for a, b in zip(one, other, strict=True)) == 0 for one, other in combinations(own, 2))


def test_twelve_bakes_are_the_printed_design():
    """IUPAC, Pure and Applied Chemistry 88 (2016), 416: the twelve rows for eleven factors (read).

    Up to the order of rows, and of columns, and with all signs of a column turned: compared by how often every three
    columns multiply to plus, which none of these changes up to the sign.
    """
    first = "-+-+++---+-"
    printed = ["+" * 11, *(first[-i:] + first[:-i] for i in range(11))]
    theirs = [[1 if row[i] == "+" else -1 for row in printed] for i in range(11)]
    ours = columns(screen(NAMES[:9], "a topic"))

    def shares(own):
        triples = combinations(own, 3)
        return {abs(sum(a * b * c for a, b, c in zip(*triple, strict=True))) for triple in triples}

    assert shares(ours) == shares(theirs) == {4}


def test_what_could_be_mistaken_is_told():
    """Four in eight bakes is the half fraction D = ABC: AB = CD, AC = BD, AD = BC (Box, Hunter and Hunter; memory)."""
    found = screen(("a", "b", "c", "d"), "a topic")
    assert len(found.mistaken) == 3
    assert "What a with b do together cannot be told from what c with d do together." in found.mistaken
    assert screen(("a", "b", "c"), "a topic").mistaken == ("No effect can be mistaken for another.",)
    five = screen(("a", "b", "c", "d", "e"), "a topic").mistaken
    assert any(told.startswith("What a seems to do may instead be") for told in five)
    assert "mixed with a part" in screen(NAMES[:7], "a topic").mistaken[0]


def test_the_order_is_drawn_by_the_topic_alone():
    assert screen(NAMES[:4], "green") == screen(NAMES[:4], "green")
    assert screen(NAMES[:4], "green").runs != screen(NAMES[:4], "purple").runs


@pytest.mark.parametrize(
    "suspects", [("one",), (), ("a", "a"), ("a", "b + c"), ("a", "none of them"), NAMES[: MOST + 1]]
)
def test_what_cannot_be_screened_is_refused(suspects):
    with pytest.raises(LevelspoonError):
        screen(suspects, "a topic")


# Box, Hunter and Hunter, Statistics for Experimenters (1978), table 10.1, pilot plant: yields of a two-to-the-third
# design, effects temperature 23, concentration -5, catalyst 1.5 (from memory; the effects follow from the yields).
YIELDS = {"": 60, "t": 72, "c": 54, "tc": 68, "k": 52, "tk": 83, "ck": 45, "tck": 80}
VARIED = ("temperature", "concentration", "catalyst")


def pilot_plant():
    letters = dict(zip("tck", VARIED, strict=True))
    readings = {run_name([letters[one] for one in run]): [float(value)] for run, value in YIELDS.items()}
    return made(readings, unit="percent", resolution=1.0, varied=VARIED)


def test_effects_of_a_printed_example():
    trial = pilot_plant()
    found = {one.suspect: one for one in effects(trial, read(trial)[0])}
    assert {name: one.difference.value for name, one in found.items()} == pytest.approx(
        {"temperature": 23.0, "concentration": -5.0, "catalyst": 1.5}
    )
    assert found["temperature"].difference.text == "+23 %"
    assert found["temperature"].difference.facts == ("readings:a-trial",)


def test_effects_agree_with_a_reference_library():
    import numpy as np
    import statsmodels.api as sm

    trial = pilot_plant()
    rows = np.array([[1, *(1 if letter in run else -1 for letter in "tck")] for run in YIELDS], dtype=float)
    reference = sm.OLS(np.array(list(YIELDS.values()), dtype=float), rows).fit()
    for one in effects(trial, read(trial)[0]):
        place = 1 + VARIED.index(one.suspect)
        assert one.difference.value == pytest.approx(2 * reference.params[place])
        assert one.p is not None
        assert one.p.value == pytest.approx(reference.pvalues[place])


tenths = st.integers(-500, 500).map(lambda number: number / 10)


@given(st.lists(tenths, min_size=4, max_size=4), tenths)
def test_effects_that_were_put_in_come_out(true, mean):
    """A whole screening baked without any scatter gives back what each suspect does."""
    found = screen(NAMES[:4], "a topic")
    readings = {
        run_name([name for name, there in zip(found.varied, run, strict=True) if there]): [
            mean + sum(value / 2 * (1 if there else -1) for value, there in zip(true, run, strict=True))
        ]
        for run in found.runs
    }
    trial = made(readings, varied=found.varied)
    told = {one.suspect: one.difference.value for one in effects(trial, read(trial)[0])}
    assert told == pytest.approx(dict(zip(found.varied, true, strict=True)), abs=1e-6)


def test_too_few_runs_say_nothing():
    trial = made({"a": [1.0], "b": [2.0]}, varied=("a", "b"))
    assert effects(trial, read(trial)[0]) == ()
    assert effects(made({"a": [1.0]}), read(made({"a": [1.0]}))[0]) == ()


def test_a_plan_holds_every_bake():
    plan = screening_plan("green", "suspects of green", ("lemon", "rest"), "colour")
    assert sorted(set(plan.order)) == ["lemon", "lemon + rest", "none of them", "rest"]
    assert {plan.order.count(level) for level in plan.levels} == {2} == {plan.repeats.value}
    assert plan.bakes.value == len(plan.order) == 8
