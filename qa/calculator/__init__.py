"""The sums as people type them: words and the library in, figures out. Pure; commands and pages call these."""

from __future__ import annotations

from qa.calculator.sums import Sums
from qa.calculator.weights import swap, weigh, weighed
from qa.calculator.words import amount_of, item_of

__all__ = ["Sums", "amount_of", "item_of", "swap", "weigh", "weighed"]
