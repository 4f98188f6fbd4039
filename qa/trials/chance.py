"""How far a difference is more than chance: Welch's and Fisher's tests, the odds ratio, Holm's correction."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from statistics import NormalDist
from typing import NamedTuple

from qa.measures.measure import COVERAGE
from qa.records import Figure

ALPHA = 0.05
# The share of a bell curve within the house's two spreads; JCGM 100:2008 (GUM), table G.2, gives t for it.
_SHARE = 1 - 2 * NormalDist().cdf(-COVERAGE)


class Sample(NamedTuple):
    """Repeated readings in short: their mean, the variance of single readings, how many there are."""

    mean: float
    variance: float
    size: int


class Table(NamedTuple):
    """A two-by-two table of batches: with the suspect and without it, where the outcome came and where not."""

    with_had: int
    with_not: int
    without_had: int
    without_not: int


class Welch(NamedTuple):
    """Welch's t, its degrees of freedom, and the two-sided chance of a difference as large."""

    t: float
    freedom: float
    p: float


def factor(freedom: float) -> float:
    """How many spreads reach as far as two do when the spread is known surely (GUM G.3 and table G.2).

    >>> round(factor(4), 2), factor(math.inf)
    (2.87, 2.0)
    """
    if math.isinf(freedom):
        return COVERAGE
    from scipy.special import stdtrit

    return float(stdtrit(freedom, (1 + _SHARE) / 2))


def freedom_of(parts: Iterable[tuple[float, float]]) -> float:
    """Degrees of freedom of a sum of independent parts, each (variance, its degrees): Welch-Satterthwaite, GUM G.4.1.

    >>> freedom_of([(1.0, 4), (1.0, 4)]), freedom_of([(1.0, math.inf)])
    (8.0, inf)
    """
    known = [part for part in parts if part[0] > 0]
    doubt = sum(variance**2 / degrees for variance, degrees in known)
    return sum(variance for variance, _ in known) ** 2 / doubt if doubt else math.inf


def welch(first: Sample, second: Sample) -> Welch | None:
    """Whether two means differ, their variances not being taken for equal; None where neither has a spread.

    Welch, Biometrika 34 (1947), 28-35. Both need at least two readings.

    >>> found = welch(Sample(20.0, 4.0, 10), Sample(22.0, 9.0, 12))
    >>> round(found.t, 3), round(found.freedom, 2)
    (-1.865, 19.19)
    """
    own, other = first.variance / first.size, second.variance / second.size
    if own + other == 0:
        return None
    from scipy.special import stdtr

    t = (first.mean - second.mean) / math.sqrt(own + other)
    freedom = freedom_of([(own, first.size - 1), (other, second.size - 1)])
    return Welch(t, freedom, float(2 * stdtr(freedom, -abs(t))))


def fisher(table: Table) -> float:
    """Fisher's exact test, two-sided: the chance of a table no likelier than this one with the same margins.

    >>> round(fisher(Table(3, 1, 1, 3)), 3)
    0.486
    """
    import numpy as np
    from scipy.stats import fisher_exact

    return float(fisher_exact(np.array([table[:2], table[2:]])).pvalue)


def odds_ratio(table: Table) -> tuple[float, float, float]:
    """How many times the odds of the outcome are with the suspect, and the 95 % range; finite for every table.

    Half a batch is added to each cell (Haldane, Annals of Human Genetics 20 (1956), 309; Anscombe, Biometrika 43
    (1956), 461); the range is Woolf's, on the logarithm (Annals of Human Genetics 19 (1955), 251).

    >>> [round(end, 2) for end in odds_ratio(Table(141, 928, 420, 13525))]
    [4.9, 4.01, 6.0]
    """
    a, b, c, d = (cell + 0.5 for cell in table)
    middle = math.log(a * d / (b * c))
    reach = NormalDist().inv_cdf(1 - ALPHA / 2) * math.sqrt(1 / a + 1 / b + 1 / c + 1 / d)
    return math.exp(middle), math.exp(middle - reach), math.exp(middle + reach)


def holm(chances: Sequence[float]) -> list[float]:
    """Chances corrected for their number, in the order given: Holm, Scandinavian Journal of Statistics 6 (1979), 65.

    >>> [round(p, 3) for p in holm([0.01, 0.04, 0.03, 0.005])]
    [0.03, 0.06, 0.06, 0.02]
    """
    corrected = [0.0] * len(chances)
    highest = 0.0
    for done, place in enumerate(sorted(range(len(chances)), key=lambda i: chances[i])):
        highest = max(highest, min(1.0, chances[place] * (len(chances) - done)))
        corrected[place] = highest
    return corrected


def chance_figure(p: float, working: str, method: str) -> Figure:
    """A chance as a figure, with two digits and never as nought.

    >>> chance_figure(0.0312, "", "welch").text, chance_figure(1e-9, "", "welch").text
    ('0.031', 'under 0.0001')
    """
    text = "under 0.0001" if p < 0.0001 else f"{p:.2g}" if p >= 0.001 else f"{p:.1g}"
    return Figure(text, p, p, p, "", (f"method:{method}",), working)


def chance_words(chance: Figure) -> str:
    """A chance as it stands in a sentence.

    >>> chance_words(chance_figure(0.35, "", "holm")), chance_words(chance_figure(0.0, "", "holm"))
    ('p = 0.35', 'p under 0.0001')
    """
    return f"p {chance.text}" if chance.text.startswith("under") else f"p = {chance.text}"
