"""How much of an ask the bodies of a standing answer speak of."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from qa.similarity.plain import senses

# Where a body shows a figure or a name.
_SHOWN = re.compile(r"\{\{.*?\}\}|\{%.*?%\}", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Spoken:
    """How much each word or meaning tells.

    Attributes:
        rarity: the logarithm of how few bodies hold it.
        rarest: that of one which no body holds.
    """

    rarity: Mapping[str, float]
    rarest: float

    @classmethod
    def of(cls, bodies: Sequence[str]) -> Spoken:
        """Count words and meanings in all bodies.

        >>> spoken = Spoken.of(["Chill the dough well.", "It sinks if the dough is too wet.", "Bake the dough longer."])
        >>> spoken.shares("why did it sink", ["It sinks if the dough is too wet.", "Chill the dough well."])[1]
        0.0
        """
        holding = Counter(sense for body in bodies for sense in _senses(body))
        return cls(
            {sense: math.log((1 + len(bodies)) / count) for sense, count in holding.items()}, math.log(1 + len(bodies))
        )

    def shares(self, ask: str, bodies: Sequence[str]) -> tuple[float, ...]:
        """For each body how much of what the ask says, 0 to 1, by words or by others that mean the same."""
        told = {sense: weight * self.rarity.get(sense, self.rarest) for sense, weight in _senses(ask).items()}
        whole = sum(told.values()) or 1.0
        return tuple(
            sum(told[sense] * weight for sense, weight in _senses(body).items() if sense in told) / whole
            for body in bodies
        )


@lru_cache(maxsize=4_000)
def _senses(text: str) -> dict[str, float]:
    """What a text may mean, without figures and marks."""
    return {sense: weight for sense, weight in senses(_SHOWN.sub(" ", text)).items() if sense[-1].isalnum()}
