"""What a spread leaves out when only printed digits speak, and how far two facts lie apart."""

from __future__ import annotations

from functools import cache
from math import hypot, inf
from typing import Any

from qa.knowledge.facts import PROPERTIES, Fact
from qa.measures.measure import Measure
from qa.measures.units import factor

# Where a spread is only that of the printed digits, what it leaves out: one filling or one harvest beside another, as a
# share of the value, and for parts of a food half a gram in 100 g besides. Our own choice, no source.
FILLING, HARVEST, OTHER = 0.05, 0.10, 0.03
HALF_A_GRAM = 0.005
COMPOSITION = frozenset((
    "water", "fat", "protein", "ash", "polyols", "carbohydrate with fibre", "carbohydrate without fibre",
    "fibre", "sugars",
))  # fmt: skip


@cache
def factor_of(units: Any, other: str) -> float:
    """How many of the other unit one unit of a measure is; cached, for the facts are many and the units few."""
    return factor(str(units), other)


def spread_with_kin(fact: Fact, measure: Measure) -> float:
    """The fact's spread in the measure's own unit, with what the printed digits leave out."""
    if not fact.by_digits or PROPERTIES[fact.property].measures == "temperature":
        return measure.spread
    if fact.property not in COMPOSITION:
        share = {"bulk density": FILLING, "energy": HARVEST}.get(fact.property, OTHER)
        return hypot(measure.spread, measure.value * share)
    return hypot(measure.spread, measure.value * HARVEST, HALF_A_GRAM / factor_of(measure.quantity.units, ""))


def spreads_apart(first: Fact, second: Fact) -> float:
    """How many combined standard spreads lie between two facts of one property; 0 for facts in words."""
    if first.measure is None or second.measure is None:
        return 0.0
    units = first.measure.quantity.units
    other = second.measure if second.measure.quantity.units == units else second.measure.to(str(units))
    gap = abs(first.measure.value - other.value)
    spread = hypot(spread_with_kin(first, first.measure), spread_with_kin(second, other))
    return gap / spread if spread else (inf if gap else 0.0)
