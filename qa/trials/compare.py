"""Was it a fair test? What else changed with the factor, and by how much.

Equal spoonfuls of powders that differ in density are unequal doses:

>>> whole = Measure.of(6, "g/us_tbsp", spread=0.3, fact="whole")
>>> powder = Measure.of(10, "g/us_tbsp", spread=0.3, fact="powder")
>>> ratio = dose_ratio(whole, powder)
>>> round(ratio.value, 2), ratio.facts
(1.67, ('powder', 'whole'))
"""

from __future__ import annotations

import math

from qa.measures.measure import Measure


def dose_ratio(first: Measure, second: Measure) -> Measure:
    """How many times the dose of the first an equal volume of the second is; both are bulk densities."""
    return (second / first.to(second.unit)).to("dimensionless")


def normalised_error(first: Measure, second: Measure) -> float:
    """The normalised error E_n of two values with expanded uncertainties (ISO 13528): beyond 1 they disagree.

    >>> round(normalised_error(Measure.of(10.2, "g", spread=0.1), Measure.of(10.0, "g", spread=0.1)), 3)
    0.707
    """
    other = second.to(first.unit)
    expanded = 2 * math.hypot(first.spread, other.spread)
    gap = abs(first.value - other.value)
    if expanded == 0:
        return 0.0 if gap == 0 else math.inf
    return gap / expanded
