"""Several ways to say each of several things, looked for in one pass."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Generic, NamedTuple, TypeVar

K = TypeVar("K")


class Said(NamedTuple, Generic[K]):
    """What was said, and the characters it stands at."""

    what: K
    start: int
    end: int


class Wordings(Generic[K]):
    r"""Patterns by what they say; where two fit at a place, the first counts. Case does not matter.

    >>> drinks = Wordings({"tea": r"tea|chai", "coffee": r"coffee|espresso"})
    >>> [said.what for said in drinks.find("Chai, then an espresso")]
    ['tea', 'coffee']
    """

    def __init__(self, patterns: Mapping[K, str], before: str = r"\b", after: str = r"\b") -> None:
        """Each pattern counts only between `before` and `after`; groups in it bear no names."""
        self._told = {f"w{place}": what for place, what in enumerate(patterns)}
        named = "|".join(f"(?P<w{place}>{written})" for place, written in enumerate(patterns.values()))
        self._pattern = re.compile(f"{before}(?:{named}){after}", re.IGNORECASE)

    def find(self, text: str) -> Iterator[Said[K]]:
        """Everything said, in order."""
        for found in self._pattern.finditer(text):
            yield Said(self._told[found.lastgroup or ""], found.start(), found.end())
