"""The mean of repeated readings and its spread; the trials' floor builds on this."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence


def mean_and_spread(values: Sequence[float], resolution: float) -> tuple[float, float]:
    """Mean and one standard spread, in the unit of the readings.

    Repeatability is the standard deviation of the mean (GUM, JCGM 100:2008, 4.2.3); the resolution adds a
    rectangular part, its width over √12 (GUM F.2.2.1). A single reading has only the resolution.

    >>> mean, spread = mean_and_spread([41, 43], 1)
    >>> mean, round(spread, 4)
    (42.0, 1.0408)
    """
    repeat = statistics.stdev(values) / math.sqrt(len(values)) if len(values) > 1 else 0.0
    return statistics.fmean(values), math.hypot(repeat, resolution / math.sqrt(12))
