"""A trial's facts beside published values."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.knowledge.agreement import normalised_error
from qa.knowledge.library import Library
from qa.measures.measure import COVERAGE, Measure
from qa.stages import vouch
from qa.trials.agree import agreed, pooled


def test_flax_agrees_with_the_table_and_moves_it_little(invented):
    """USDA SR26 prints 7 g for a tablespoon of ground flaxseed; the invented spoonfuls come to 7.07 g."""
    found = agreed(invented.trial("chia-or-flax-egg"), invented)[0]
    assert found.fact.item == "flax.ground"
    table = next(other for other in found.others if other.fact.source == "usda-sr26" and other.value.value == 7)
    assert table.agrees
    assert table.error == pytest.approx(normalised_error(found.fact, table.fact))
    assert found.before is not None
    assert found.after is not None
    assert min(found.before.value, found.value.value) <= found.after.value <= max(found.before.value, found.value.value)
    assert "chia-or-flax-egg" not in {other.fact.source for other in found.others}


def test_what_is_far_from_a_published_value_is_said_to_disagree(invented):
    husk = agreed(invented.trial("psyllium-spoons"), invented)[0]
    far = [other for other in husk.others if other.error > 1]
    assert far
    assert any("disagrees with" in told.words for told in husk.told)
    assert not any(other.agrees for other in far)


def test_common_practice_and_memory_are_never_pooled(invented):
    home = agreed(invented.trial("psyllium-spoons"), invented)[2]
    assert {other.fact.tier for other in home.others} == {"common practice"}
    assert (home.before, home.after) == (None, None)
    assert "to pool it with" in home.told[-1].words


def test_every_number_in_the_sentences_is_a_figure(invented):
    for trial in invented.knowledge.trials:
        for one in agreed(trial, invented):
            for told in one.told:
                assert vouch.vouch(told.words, vouch.place(told.words, told.figures)) == (), told.words
                assert all(figure.facts for figure in told.figures)


def test_a_weighted_mean_worked_by_hand():
    """10.0 ± 0.3 and 11.0 ± 0.4: weights 11.11 and 6.25, mean 10.36, χ² = 4; Birge's ratio is 2 and the spread 0.48."""
    found = pooled([Measure.of(10.0, "g", spread=0.3, fact="a"), Measure.of(11.0, "g", spread=0.4, fact="b")])
    assert found.measure.value == pytest.approx(10.36)
    assert (found.ends[1] - found.measure.value) / COVERAGE == pytest.approx(0.48)
    assert found.measure.facts == ("a", "b")
    assert "scatter 2 times" in found.working[1]


measures = st.lists(st.tuples(st.floats(1, 100), st.floats(0.1, 10)), min_size=1, max_size=6)


@given(measures)
def test_a_pooled_value_lies_among_the_values_and_is_no_vaguer_than_they_agree(pairs):
    found = pooled([Measure.of(value, "g", spread=spread) for value, spread in pairs])
    assert min(value for value, _ in pairs) - 1e-9 <= found.measure.value <= max(value for value, _ in pairs) + 1e-9
    best = min(spread for _, spread in pairs)
    assert found.measure.spread <= best + 1e-9
    assert found.ends[1] - found.measure.value >= COVERAGE * found.measure.spread - 1e-9


@given(measures)
def test_a_single_value_pooled_is_itself(pairs):
    value, spread = pairs[0]
    found = pooled([Measure.of(value, "g", spread=spread)])
    assert (found.measure.value, found.measure.spread) == pytest.approx((value, spread))


def test_an_earlier_trial_counts_and_a_later_one_does_not(invented):
    """The same invented spoonfuls weighed again a year later, half as heavy again."""
    trial = invented.trial("psyllium-spoons")
    later = replace(trial, id="weighed-again", date="2027-03-16")
    again = [
        replace(fact, id=f"{fact.id}-again", source=later.id, checked=later.date, measure=fact.measure * 1.5)
        for fact in invented.knowledge.facts
        if fact.source == trial.id
    ]
    source = replace(invented.source(trial.id), id=later.id)
    known = invented.knowledge
    library = Library(
        replace(known, facts=(*known.facts, *again), trials=(*known.trials, later), sources=(*known.sources, source))
    )
    before = agreed(trial, library)[2]
    after = agreed(later, library)[2]
    assert {other.fact.source for other in before.others} == {"common-practice"}
    earlier = next(other for other in after.others if other.fact.source == trial.id)
    assert earlier.error > 1
    assert after.before is not None
    assert after.before.value == pytest.approx(before.value.value)
    assert "earlier" not in " ".join(told.words for told in before.told[:-1])
