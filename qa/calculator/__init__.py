"""The sums as people type them: words and the library in, figures out. Pure; commands and pages call these."""

from __future__ import annotations

from qa.calculator.carbs import carbs, compare
from qa.calculator.check import check_sum
from qa.calculator.heat import altitude, core, oven
from qa.calculator.leaven import leaven
from qa.calculator.scale import scale
from qa.calculator.sweeten import sweeten
from qa.calculator.weights import swap, weigh, weighed
from qa.calculator.words import amount_of, item_of

__all__ = [
    "altitude", "amount_of", "carbs", "check_sum", "compare", "core", "item_of", "leaven", "oven", "scale", "swap",
    "sweeten", "weigh", "weighed",
]  # fmt: skip
