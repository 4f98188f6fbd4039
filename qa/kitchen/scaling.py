"""A whole recipe times a factor: from a number, from two pans, or from the eggs on hand.

>>> old, new = Pan("round", (20.0,), "cm"), Pan("round", (23.0,), "cm")
>>> scale({"flour": 200.0, "butter": 100.0}, pans=(old, new)).lines["flour"].text
'265 g'
"""

from __future__ import annotations

from dataclasses import dataclass

from qa.errors import InvalidMeasure
from qa.kitchen.eggs import egg_factor
from qa.kitchen.formulas import Grams, scaled
from qa.kitchen.pans import Pan, pan_factor
from qa.kitchen.sums import Sum
from qa.measures.measure import Measure
from qa.measures.show import plain


@dataclass(frozen=True, slots=True)
class Scaled:
    """The factor, every line times it, and what to watch."""

    factor: Sum
    lines: dict[str, Sum]
    watch: tuple[str, ...]


# Common practice, no source.
_WATCH = (
    "weigh a beaten egg where the sum asks for part of one",
    "times do not scale: go by the look and the core of the bake",
)


def scale(
    grams: Grams,
    *,
    times: float | None = None,
    pans: tuple[Pan, Pan] | None = None,
    eggs: tuple[float, float] | None = None,
) -> Scaled:
    """Scale a recipe by one of: a number, (old pan, new pan), (eggs in the recipe, eggs on hand)."""
    if sum(way is not None for way in (times, pans, eggs)) != 1:
        raise InvalidMeasure(
            "a recipe is scaled in one way at a time", "give a number, two pans, or two counts of eggs"
        )
    if times is not None:
        factor = Sum(Measure.exact(times, "dimensionless"), (f"times {plain(times)}",))
    elif pans is not None:
        factor = pan_factor(*pans)
    else:
        factor = egg_factor(*(eggs or (0.0, 0.0)))
    return Scaled(factor, scaled(grams, factor.measure), _WATCH)
