"""From an amount as written to a measure: whose spoon, which ounce, how much a pinch.

>>> measure, assumed = resolve(Amount(2.0, 2.0, 2.0, "tbsp"), None)
>>> measure.value, measure.unit, assumed
(2.0, 'us_tbsp', 'taking a US tablespoon')
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from qa.errors import InvalidMeasure
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.measures.units import BARE, known, regional

_SPOKEN = {
    "tbsp": "a US tablespoon", "tsp": "a US teaspoon", "cup": "a US cup", "fl_oz": "a US fluid ounce",
    "pint": "a US pint", "quart": "a US quart", "gallon": "a US gallon",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Household:
    """What a household measure comes to: the ends of a range in a registry unit, the rule's id and where it is from."""

    low: float
    high: float
    unit: str
    rule: str
    source: str


# A stick: USDA SR26 prints 113 g, measures 01001 and 01145; the nominal quarter pound is exact.
# The other ranges are common practice, no source: sets of small spoons call 1/16 tsp a pinch and 1/8 tsp a dash,
# cooks' fingers vary twofold either way; a pharmacist's drop is a twentieth of a millilitre.
HOUSEHOLD: dict[str, Household] = {
    "stick": Household(113.3980925, 113.3980925, "g", "rule:US-BUTTER-STICK", "quarter pound, USDA SR26 01001"),
    "pinch": Household(1 / 32, 1 / 8, "us_tsp", "rule:PINCH", "common practice, no source"),
    "dash": Household(1 / 16, 1 / 4, "us_tsp", "rule:DASH", "common practice, no source"),
    "smidgen": Household(1 / 64, 1 / 16, "us_tsp", "rule:SMIDGEN", "common practice, no source"),
    "drop": Household(0.03, 0.07, "mL", "rule:DROP", "common practice, no source"),
    "dessertspoon": Household(10.0, 10.0, "mL", "rule:DESSERTSPOON", "common practice, no source"),
}
_ASK = {
    "packet": "say what the packet weighs; it is printed on it",
    "tin": "say what the tin holds; it is printed on it",
    "jar": "say what the jar holds; it is printed on it",
    "tub": "say what the tub holds; it is printed on it",
    "spoon": "say which spoon: teaspoon or tablespoon",
    "deg": "say whether degrees are Celsius or Fahrenheit",
    "pan": "say whether the pan is in inches or centimetres",
    "": "say what the number counts: grams, spoons, cups",
}
_MOST = 1e6  # grams or millilitres: a tonne; more is a slip of the keyboard


def resolve(amount: Amount, region: str | None, *, liquid: bool = False) -> tuple[Measure, str]:
    """The measure an amount means to a cook of a region, and what was assumed, in words ('' if nothing was).

    An unknown region takes the US measure and says so. A range gets the spread of a rectangle (GUM 4.3.7). Ounces of a
    liquid are taken as weight, and that is said. InvalidMeasure where only the writer can know (a packet, degrees, …).
    """
    if not math.isfinite(amount.value) or amount.low > amount.high:
        raise InvalidMeasure(f"{amount.value} {amount.unit} is no amount", "write it again, like 2 tbsp or 30 g")
    if amount.unit in HOUSEHOLD:
        return _household(amount), ""
    unit, assumed = _whose(amount.unit, region)
    if unit == "oz" and liquid:
        assumed = "taking ounces of weight, not fluid ounces"
    if not known(unit) or not unit:
        raise InvalidMeasure(
            f"{amount.unit or 'a plain number'} is no exact measure", _ASK.get(unit, "give it in grams")
        )
    if amount.low < 0 and not unit.startswith("deg"):
        raise InvalidMeasure("an amount cannot be less than nothing", "give an amount of zero or more")
    measure = Measure.of(amount.value, unit, spread=rectangular(amount.low, amount.high))
    _refuse_absurd(measure)
    return measure, assumed


def rectangular(low: float, high: float) -> float:
    """Standard spread of a value that may lie anywhere between two limits: half their distance / √3 (GUM 4.3.7).

    >>> round(rectangular(11.5, 12.5), 6)
    0.288675
    """
    return (high - low) / 2 / math.sqrt(3)


def _whose(unit: str, region: str | None) -> tuple[str, str]:
    if unit not in BARE:
        return unit, ""
    if found := regional(unit, region):
        return found, ""
    us = regional(unit, "US")
    if us is None:
        raise InvalidMeasure(f"a {unit} is measured in few countries", "give it in mL")
    return us, f"taking {_SPOKEN[unit]}"


def _household(amount: Amount) -> Measure:
    rule = HOUSEHOLD[amount.unit]
    one = Measure.of((rule.low + rule.high) / 2, rule.unit, spread=rectangular(rule.low, rule.high), fact=rule.rule)
    count = Measure.of(amount.value, "dimensionless", spread=rectangular(amount.low, amount.high))
    return one * count


def _refuse_absurd(measure: Measure) -> None:
    for base in ("g", "mL"):
        try:
            size = measure.to(base).value
        except InvalidMeasure:
            continue
        if size > _MOST:
            raise InvalidMeasure(f"{measure.value:g} {measure.unit} is more than a kitchen holds", "check the amount")
