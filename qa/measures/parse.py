"""Amounts as people write them: ½, 1-1/2, "one and a half", "2 to 3", T and t, tbs, c."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount as the writer gave it, before any conversion.

    Attributes:
        value, low, high: low = high = value unless a range or a vague word ("a heaped tbs") was given.
        unit: a registry unit ('g', 'us_cup'), a bare measure ('tbsp', 'cup'), 'each', or '' for a plain number.
        manner: 'level', 'heaped', 'scant', 'packed', 'sifted', 'spooned', 'dipped', or ''.
        start, end: characters in the cleaned text; -1 if it was not read from one.
    """

    value: float
    low: float
    high: float
    unit: str
    manner: str = ""
    start: int = -1
    end: int = -1
