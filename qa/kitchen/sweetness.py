"""Equal sweetness: how much of a sweetener, what bulk is lost, what energy is saved.

Sweetness arrives as a published range relative to sucrose; tables differ, so the result is a range too.

>>> erythritol = Sweetness.of(0.6, 0.7, 0.8, fact="erythritol.sweetness")
>>> [round(end) for end in equal_sweetness(Measure.exact(100.0, "g"), erythritol).ends]
[125, 167]
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from qa.errors import InvalidMeasure
from qa.kitchen.energy import energy
from qa.kitchen.sums import Sum, line, said
from qa.measures.measure import Measure
from qa.measures.resolve import rectangular
from qa.measures.show import plain, show
from qa.measures.units import dimension

# Sweeter than this it is an extract: milligrams do the work of spoons and nothing is left of the bulk. The gap in
# published tables between sugars (below 2) and extracts (above 30) is wide; the line in it is ours.
EXTRACT = 10.0
_SUGAR_KCAL = "carbohydrate"
_KINDS = {
    "polyol": "does not brown by itself and can recrystallise; large amounts can be laxative",
    "rare sugar": "browns faster than sugar and keeps a cake moist",
    "sugar": "browns and keeps moist much like sugar",
    "high intensity": "gives no bulk, no browning and no moisture",
    "bulking agent": "gives bulk and some moisture, hardly any sweetness",
}  # Common practice, no source.


@dataclass(frozen=True, slots=True)
class Sweetness:
    """Sweetness of equal mass relative to sucrose: the usual value as a measure, and the published range."""

    measure: Measure
    low: float
    high: float

    @classmethod
    def of(cls, low: float, usual: float | None, high: float, fact: str | None = None) -> Sweetness:
        """From a published range; without a usual value the geometric middle, which treats both ends alike."""
        if not 0 < low <= high or not math.isfinite(high):
            raise InvalidMeasure(f"{low} to {high} is no sweetness", "give a range above zero, relative to sugar as 1")
        middle = math.sqrt(low * high) if usual is None else usual
        if not low <= middle <= high:
            raise InvalidMeasure(f"the usual sweetness {middle} lies outside {low} to {high}", "check the table")
        return cls(Measure.of(middle, "dimensionless", spread=rectangular(low, high), fact=fact), low, high)

    @classmethod
    def from_measure(cls, measure: Measure) -> Sweetness:
        """From a fact: the range is its value ± 2 standard spreads."""
        share = measure.to("dimensionless")
        if dimension(measure.unit) != "share" or share.value <= 0:
            raise InvalidMeasure(f"{said(measure)} is no sweetness", "give a share above zero, relative to sugar as 1")
        return cls(share, max(share.low, share.value / 100), share.high)

    @property
    def is_extract(self) -> bool:
        """Whether it is so sweet that only milligrams are wanted."""
        return self.measure.value >= EXTRACT


SUCROSE = Sweetness.of(1.0, 1.0, 1.0)


def equal_sweetness(amount: Measure, use: Sweetness, instead_of: Sweetness = SUCROSE) -> Sum:
    """Mass of a sweetener as sweet as a mass of sugar (or of another sweetener); hard ends from the published range."""
    if dimension(amount.unit) != "mass":
        raise InvalidMeasure(f"{said(amount)} is a {dimension(amount.unit)}; sweetness goes by weight", "give grams")
    if amount.value < 0:
        raise InvalidMeasure(f"{said(amount)} is less than nothing", "give grams of zero or more")
    grams = amount.to("g")
    mass = grams * instead_of.measure / use.measure
    low = grams.value * instead_of.low / use.high
    high = grams.value * instead_of.high / use.low
    times = "" if instead_of is SUCROSE else f" × {plain(instead_of.measure.value)}"
    text = f"{said(amount)}{times} ÷ {plain(use.measure.value)}"
    spread = f"tables give {plain(use.low)} to {plain(use.high)}, so {plain(low)} to {plain(high)} g"
    return Sum(mass, (f"{line(text, mass)}; {spread}",), min(low, mass.value), max(high, mass.value))


def lost_bulk(amount: Measure, used: Sum) -> Sum:
    """Mass of sugar that the sweetener does not replace; zero where it weighs as much or more."""
    lost = amount.to("g") - used.measure.to("g")
    low, high = (max(0.0, amount.to("g").value - end) for end in (used.ends[1], used.ends[0]))
    if lost.value < 0:
        lost = lost - Measure.exact(lost.value, "g")
    working = f"{said(amount)} − {plain(used.measure.value)} g = {plain(lost.value)} g of bulk to make up"
    return Sum(lost, (working,), min(low, lost.value), max(high, lost.value))


@dataclass(frozen=True, slots=True)
class Sweetened:
    """Everything that changes when a sweetener takes the place of sugar."""

    amount: Sum
    bulk: Sum
    energy: Sum | None
    is_extract: bool
    words: str


def sweeten(amount: Measure, use: Sweetness, kind: str, *, region: str = "", component: str = "") -> Sweetened:
    """Equal sweetness, bulk lost, energy saved (region and component as `energy` names them), what changes."""
    mass = equal_sweetness(amount, use)
    bulk = lost_bulk(amount, mass)
    saved = None
    if region and component:
        before = energy({_SUGAR_KCAL: amount}, region)
        after = energy({component: mass.measure}, region)
        difference = before.measure - after.measure
        left = f"{plain(before.measure.value)} − {plain(after.measure.value)} kcal"
        saved = Sum(difference, (*before.working, *after.working, line(left, difference)))
    words = _KINDS.get(kind, "")
    return Sweetened(mass, bulk, saved, use.is_extract, words)


def blend_sweetness(parts: dict[str, tuple[float, Sweetness]]) -> Sweetness:
    """Sweetness of a bulked blend from the mass shares of its parts; synergy is not counted.

    >>> extract = Sweetness.of(200.0, 250.0, 300.0)
    >>> round(blend_sweetness({"bulk": (0.997, Sweetness.of(0.6, 0.7, 0.8)), "extract": (0.003, extract)}).high, 2)
    1.7
    """
    total = sum(share for share, _ in parts.values())
    if not parts or not math.isclose(total, 1.0, abs_tol=0.02):
        raise InvalidMeasure(f"the parts of the blend add up to {plain(total)}, not to 1", "give shares of its mass")
    measure = Measure.exact(0.0, "dimensionless")
    for share, sweetness in parts.values():
        measure = measure + sweetness.measure * share
    low = sum(share * sweetness.low for share, sweetness in parts.values())
    high = sum(share * sweetness.high for share, sweetness in parts.values())
    return Sweetness(measure, low, high)


def shown_sweetness(sweetness: Sweetness) -> str:
    """For a sentence: 'about 0.7 times as sweet as sugar, 0.6 to 0.8'."""
    value = sweetness.measure.value
    return f"{show(value, sweetness.low, sweetness.high, '')} times as sweet as sugar"
