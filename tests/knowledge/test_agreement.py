"""Sources that disagree are told so, with the reason their own conditions give; none is averaged away."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from qa.kitchen import weights
from qa.knowledge.agreement import Agreement, agreement, agreements, normalised_error
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.settings import shipped
from qa.stages.vouch import place, vouch
from qa.trials import compare

SOURCES = """
- {id: sun-tables, kind: database, citation: Tables of the Sun Mill (invented for the tests), short: the sun tables}
"""


@pytest.fixture
def told(folder: Path, request: pytest.FixtureRequest) -> Agreement:
    """Starflour's bulk density, with the facts in the test's own docstring beside the moon tables' 8 ± 0.2 g."""
    (folder / "sources.yaml").write_text((folder / "sources.yaml").read_text() + SOURCES)
    path = folder / "ingredients/starflour.yaml"
    lines = [line.strip() for line in request.function.__doc__.splitlines() if line.strip().startswith("-")]
    path.write_text(path.read_text() + "".join(f"  {line}\n" for line in lines))
    library, problems = load_knowledge(folder)
    assert [str(p) for p in problems] == []
    found = agreement("starflour.white", "bulk density", library)
    assert found is not None
    return found


def test_two_sources_within_their_spreads_agree(told: Agreement) -> None:
    """
    - {form: white, property: bulk density, value: 8.5 ± 0.3 g/us_tbsp, source: sun-tables}
    """
    # ISO 13528: E_n = |8 - 8.5| / (2 √(0.2² + 0.3²)) = 0.6934
    assert told.error == pytest.approx(0.6934, abs=1e-4)
    assert (told.verdict, told.words, told.figures) == ("agree", "", ())
    # The shown range is two spreads either way.
    assert [(row.label, row.low, row.high) for row in told.rows] == [
        ("the moon tables", pytest.approx(7.6), pytest.approx(8.4)),
        ("the sun tables", pytest.approx(7.9), pytest.approx(9.1)),
    ]


def test_packing_that_differs_is_the_reason(told: Agreement) -> None:
    """
    - {form: white, property: bulk density, variant: a, value: 7.8 ± 0.2 g/us_tbsp, packing: spoon, source: moon-tables}
    - {form: white, property: bulk density, value: 11 ± 0.3 g/us_tbsp, packing: tapped, source: sun-tables}
    """
    assert told.verdict == "differ for a stated reason"
    assert told.words == (
        "Published figures differ: 7.8 g per tbsp by the moon tables and 11 g per tbsp by the sun tables, "
        "because the packing is not the same (spoon; tapped)."
    )
    assert [figure.value for figure in told.figures] == pytest.approx([7.8, 11])


def test_what_only_one_source_states_is_named(told: Agreement) -> None:
    """
    - {form: white, property: bulk density, value: 11 ± 0.3 g/us_tbsp, packing: tapped, source: sun-tables}
    """
    assert told.verdict == "differ"
    assert told.words == (
        "Published figures differ: 8 g per tbsp by the moon tables and 11 g per tbsp by the sun tables, "
        "perhaps because only the sun tables states the packing (tapped)."
    )


def test_nobody_says_why(told: Agreement) -> None:
    """
    - {form: white, property: bulk density, value: 8.9 ± 0.3 g/us_tbsp, source: sun-tables}
    """
    assert told.error > 1
    assert "perhaps because neither states the packing" in told.words


def test_other_measures_are_turned_into_the_first(told: Agreement) -> None:
    """
    - {form: white, property: bulk density, value: 128 ± 3.2 g/us_cup, source: sun-tables}
    """
    # A US cup is 16 US tablespoons, so 128 g per cup is 8 g per tablespoon: no conflict.
    assert told.error == pytest.approx(0, abs=1e-9)
    assert told.rows[1].label == "the sun tables, by the cup"
    assert told.rows[1].value == pytest.approx(8)
    assert told.rows[1].high == pytest.approx(8.4)


def test_one_source_is_no_agreement(library: Library) -> None:
    """Nor are words, nor a property nobody gives."""
    assert agreement("moonflour.fine", "bulk density", library) is None
    assert agreement("moonflour.coarse", "behaviour", library) is None
    assert agreement("moonflour.fine", "sweetness", library) is None


def test_the_test_is_the_one_of_the_trials(library: Library) -> None:
    """Where spreads are stated, the same as in `trials.compare` and `kitchen.weights`."""
    facts = [library.fact(f"moonflour.fine.bulk-density.moon-tables:{v}") for v in ("cup", "sifted")]
    assert [f.by_digits for f in facts] == [False, False]
    first, second = (f.measure for f in facts)
    assert first is not None
    assert second is not None
    assert normalised_error(*facts) == pytest.approx(compare.normalised_error(first, second))
    assert normalised_error(*facts) == pytest.approx(abs(weights.normalised_error(first, second)))


@pytest.fixture(scope="module")
def real() -> Library:
    """The starter knowledge with the demo's invented trials."""
    return load_knowledge(shipped("knowledge"), invented=True)[0]


def test_every_real_conflict_can_be_said(real: Library) -> None:
    """Each sentence names both sources and shows both numbers, and a figure vouches for every number in it."""
    told = [one for i in real.knowledge.ingredients for one in agreements(i.id, real)]
    apart = [one for one in told if one.verdict != "agree"]
    assert len(told) > 250
    assert len(apart) > 30
    for one in apart:
        assert one.error > 1
        assert vouch(one.words, place(one.words, one.figures), ()) == (), one.words
        assert all(figure.text in one.words for figure in one.figures)
        assert one.words.endswith(".")
    assert all(one.error <= 1 for one in told if one.verdict == "agree")


def test_what_the_kitchen_found_stands_beside_what_is_published(real: Library) -> None:
    """The invented psyllium test disagrees with a conference abstract; the abstract is told, not the rule of thumb."""
    found = agreement("psyllium.husk", "bulk density", real)
    assert found is not None
    assert found.words.startswith(
        "What was measured in our kitchen and what is published differ: 6 g per tbsp by our own"
    )
    tiers = [row.fact.tier for row in found.rows]
    assert {"measured", "published", "common practice"} <= set(tiers)


def test_rows_keep_the_order_of_the_file(real: Library) -> None:
    """So that the first is the one a cook should be told."""
    found = agreement("rice.flour", "bulk density", real)
    assert found is not None
    lines = [row.fact.place.line for row in found.rows]
    assert all(first < second for first, second in pairwise(lines))
