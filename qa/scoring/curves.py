"""Reliability: of what was said to be so likely, how much was right.

>>> curve = reliability([(0.95, True), (0.95, True), (0.55, True), (0.55, False)])
>>> [(point.said, point.right, point.cases) for point in curve]
[(0.55, 0.5, 2), (0.95, 1.0, 2)]
>>> round(calibration_error(curve), 3)
0.05
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from qa.scoring.answers import judged
from qa.scoring.measures import Row

_BINS = 10


class Point(NamedTuple):
    """One tenth of the scale: the mean probability said, the share that was right, and how many cases."""

    said: float
    right: float
    cases: int


def reliability(cases: Iterable[tuple[float, bool]]) -> list[Point]:
    """The points of the curve, from unsure to sure; tenths without cases are left out."""
    bins: dict[int, list[tuple[float, bool]]] = defaultdict(list)
    for sureness, right in cases:
        bins[min(int(sureness * _BINS), _BINS - 1)].append((sureness, right))
    return [
        Point(round(sum(s for s, _ in own) / len(own), 3), round(sum(r for _, r in own) / len(own), 3), len(own))
        for _, own in sorted(bins.items())
    ]


def calibration_error(curve: Sequence[Point]) -> float:
    """The mean distance between said and right, each case counting once (expected calibration error)."""
    cases = sum(point.cases for point in curve)
    return sum(abs(point.said - point.right) * point.cases for point in curve) / cases if cases else 0.0


def curves(rows: Sequence[Row]) -> dict[str, list[Point]]:
    """One curve each for the kinds found, for the type of the first ask and for the standing answers."""
    kinds = ((sure, kind in row.example.kinds) for row in rows for kind, sure in row.said.kinds)
    types = (
        (row.said.asks[0].sureness, row.said.asks[0].type in {kind for kind, _ in row.example.asks})
        for row in rows
        if row.said.asks and row.example.asks
    )
    answers = ((one.sureness, one.right) for one in judged(rows) if one.best)
    return {"kinds": reliability(kinds), "asks": reliability(types), "answers": reliability(answers)}
