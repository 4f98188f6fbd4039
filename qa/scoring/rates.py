"""Precision, recall and F1 of labels, possibly weighted.

>>> counts = Tallied()
>>> counts.add(found={"question"}, wanted={"question", "thanks"}, weight=1.0)
>>> counts.of("question").recall, counts.of("thanks").recall
(1.0, 0.0)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field


@dataclass(slots=True)
class Rate:
    """Hits, false finds and misses of one label, possibly weighted."""

    hits: float = 0.0
    false: float = 0.0
    missed: float = 0.0

    def add(self, hit: bool, weight: float) -> None:
        """Count one case that is wanted."""
        self.hits += weight * hit
        self.missed += weight * (not hit)

    @property
    def precision(self) -> float:
        """Share of what was found that is right; 1 if nothing was found."""
        found = self.hits + self.false
        return self.hits / found if found else 1.0

    @property
    def recall(self) -> float:
        """Share of what should be found that was; 1 if there was nothing to find."""
        wanted = self.hits + self.missed
        return self.hits / wanted if wanted else 1.0

    @property
    def f1(self) -> float:
        """The harmonic mean of precision and recall."""
        total = 2 * self.hits + self.false + self.missed
        return 2 * self.hits / total if total else 1.0

    @property
    def support(self) -> float:
        """How often the label is wanted."""
        return self.hits + self.missed


@dataclass(slots=True)
class Tallied:
    """Rates by label."""

    rates: dict[str, Rate] = field(default_factory=lambda: defaultdict(Rate))

    def add(self, found: Iterable[str], wanted: Iterable[str], weight: float) -> None:
        """Count one comment's labels."""
        found, wanted = set(found), set(wanted)
        for label in found & wanted:
            self.rates[label].hits += weight
        for label in found - wanted:
            self.rates[label].false += weight
        for label in wanted - found:
            self.rates[label].missed += weight

    def of(self, label: str) -> Rate:
        """The rate of one label."""
        return self.rates[label]

    def macro_f1(self, labels: Sequence[str]) -> float:
        """The mean F1 of the labels that occur."""
        seen = [self.rates[label].f1 for label in labels if label in self.rates and self.rates[label].support]
        return sum(seen) / len(seen) if seen else 0.0

    def rows(self, labels: Sequence[str]) -> dict[str, dict[str, float]]:
        """Precision, recall, F1 and support by label, for those that occur."""
        return {
            label: {
                "precision": round(rate.precision, 3),
                "recall": round(rate.recall, 3),
                "f1": round(rate.f1, 3),
                "support": round(rate.support, 1),
            }
            for label in labels
            if (rate := self.rates.get(label)) and (rate.support or rate.false)
        }
