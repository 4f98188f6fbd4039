"""The tests of chance against published worked examples and against reference libraries."""

from __future__ import annotations

import math
import statistics

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from qa.trials.chance import Sample, Table, chance_figure, factor, fisher, freedom_of, holm, odds_ratio, welch

# Cushny and Peebles (1905), as printed by Student, "The probable error of a mean", Biometrika 6 (1908), 20.
FIRST = (0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0)
SECOND = (1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4)


def sample(values):
    return Sample(statistics.fmean(values), statistics.variance(values), len(values))


def test_welch_as_printed_for_the_sleep_data():
    """R's datasets::sleep, t.test(extra ~ group): t = -1.8608, 17.776 degrees of freedom, p = 0.07939 (read)."""
    found = welch(sample(FIRST), sample(SECOND))
    assert found is not None
    assert found.t == pytest.approx(-1.8608, abs=5e-5)
    assert found.freedom == pytest.approx(17.776, abs=5e-4)
    assert found.p == pytest.approx(0.07939, abs=5e-6)


numbers = st.lists(st.floats(-100, 100).map(lambda x: round(x, 2)), min_size=2, max_size=8)


@given(numbers, numbers)
def test_welch_agrees_with_a_reference_library(first, second):
    from scipy.stats import ttest_ind_from_stats

    one, other = sample(first), sample(second)
    assume(one.variance + other.variance > 1e-6)
    found = welch(one, other)
    parts = (one.mean, one.variance**0.5, one.size, other.mean, other.variance**0.5, other.size)
    reference = ttest_ind_from_stats(*parts, equal_var=False)
    assert found is not None
    assert (found.t, found.p) == pytest.approx((float(reference.statistic), float(reference.pvalue)), abs=1e-9)


def test_two_means_without_any_spread_are_not_tested():
    assert welch(Sample(1.0, 0.0, 3), Sample(2.0, 0.0, 3)) is None


@pytest.mark.parametrize(
    ("freedom", "printed"),
    # NIST Technical Note 1297, table B.1, the column for 95.45 %: that of GUM table G.2 (read).
    [(1, 13.97), (2, 4.53), (3, 3.31), (4, 2.87), (5, 2.65), (10, 2.28), (20, 2.13), (50, 2.05), (math.inf, 2.0)],
)
def test_ranges_are_as_wide_as_the_printed_table_has_it(freedom, printed):
    assert factor(freedom) == pytest.approx(printed, abs=0.005)


@given(st.lists(st.tuples(st.floats(0.01, 10), st.integers(1, 50)), min_size=1, max_size=5))
def test_degrees_of_freedom_lie_between_the_fewest_and_the_sum(parts):
    """The bounds of Satterthwaite's formula (GUM G.4.1, note)."""
    found = freedom_of(parts)
    fewest, together = min(degrees for _, degrees in parts), sum(degrees for _, degrees in parts)
    assert fewest - 1e-9 <= found <= together + 1e-9


@pytest.mark.parametrize(
    ("table", "p"),
    [
        # Fisher, The Design of Experiments (1935), chapter II: eight cups, three of four right; the two-sided chance as
        # usually printed, twice the one-sided 0.243 of R's fisher.test page after Agresti (2002), p. 91 (read).
        (Table(3, 1, 1, 3), 0.486),
        (Table(4, 0, 0, 4), 2 / 70),
        # Fisher, Statistical Methods for Research Workers: convictions of like-sex twins; R prints 0.0005367 (memory).
        (Table(2, 15, 10, 3), 0.0005367),
    ],
)
def test_fisher_as_printed(table, p):
    assert fisher(table) == pytest.approx(p, rel=2e-3)


cells = st.integers(0, 12)


@given(cells, cells, cells, cells)
def test_fisher_is_the_sum_over_tables_no_likelier(a, b, c, d):
    """Against the definition, term by term."""
    there, absent, had = a + b, c + d, a + c

    def likely(x):
        return math.comb(there, x) * math.comb(absent, had - x) if had - x <= absent else 0

    ways = [likely(x) for x in range(max(0, had - absent), min(there, had) + 1)]
    expected = sum(way for way in ways if way <= likely(a)) / sum(ways)
    assert fisher(Table(a, b, c, d)) == pytest.approx(expected, abs=1e-9)


def test_the_odds_ratio_of_a_printed_example():
    """Bland and Altman, "The odds ratio", BMJ 320 (2000), 1468: 141, 928, 420, 13525 give 4.89, 95 % 4.00 to 6.00.

    The figures are from memory; half a child added to each cell moves them in the third digit only.
    """
    assert odds_ratio(Table(141, 928, 420, 13525)) == pytest.approx((4.89, 4.00, 6.00), rel=5e-3)


@given(cells, cells, cells, cells)
def test_the_odds_ratio_agrees_with_a_reference_library(a, b, c, d):
    import numpy as np
    from statsmodels.stats.contingency_tables import Table2x2

    reference = Table2x2(np.array([[a + 0.5, b + 0.5], [c + 0.5, d + 0.5]]))
    value, low, high = odds_ratio(Table(a, b, c, d))
    assert value == pytest.approx(reference.oddsratio)
    assert (low, high) == pytest.approx(reference.oddsratio_confint(0.05))


@given(cells, cells, cells, cells)
def test_the_odds_ratio_turns_over_with_the_table(a, b, c, d):
    value, low, high = odds_ratio(Table(a, b, c, d))
    other, other_low, other_high = odds_ratio(Table(c, d, a, b))
    assert value * other == pytest.approx(1)
    assert (low * other_high, high * other_low) == pytest.approx((1, 1))


@given(st.lists(st.floats(0, 1), min_size=1, max_size=12))
def test_holm_agrees_with_a_reference_library(chances):
    from statsmodels.stats.multitest import multipletests

    found = holm(chances)
    assert found == pytest.approx(list(multipletests(chances, method="holm")[1]))
    assert all(own <= corrected + 1e-12 for own, corrected in zip(chances, found, strict=True))


@pytest.mark.parametrize(
    ("p", "text"), [(0.35, "0.35"), (0.0026, "0.0026"), (0.00041, "0.0004"), (0.0, "under 0.0001")]
)
def test_a_chance_is_shown_with_what_it_means(p, text):
    shown = chance_figure(p, "how", "welch")
    assert (shown.text, shown.value, shown.facts, shown.working) == (text, p, ("method:welch",), "how")
