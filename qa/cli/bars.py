"""Small ranges in plain characters, one source a line, for the terminal."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from qa.measures.show import plain

_LABEL, _BAR = 40, 30


def forest(rows: Sequence[Mapping[str, Any]]) -> list[str]:
    r"""Lines of a forest: each row's label, its range with the value in it, and the value; all on one scale.

    >>> table, test = {"label": "a table", "low": 6, "value": 7, "high": 8}, {"label": "a test", "value": 9}
    >>> print("\n".join(line.rstrip() for line in forest([table, test | {"low": 9, "high": 9}])))
    a table                                  |---------o--------|           7 (6 to 8)
    a test                                                                o 9
                                             6                            9
    """
    low, high = (float(end) for end in (min(row["low"] for row in rows), max(row["high"] for row in rows)))
    width = high - low or 1.0

    def at(value: float) -> int:
        """The column a value stands in."""
        return round((value - low) / width * (_BAR - 1))

    lines = [f"{_short(row['label']):<{_LABEL}} {_bar(at, row)} {_told(row)}" for row in rows]
    ends = f"{plain(low)}{plain(high):>{_BAR - len(plain(low))}}"
    return [*lines, f"{'':<{_LABEL}} {ends}"]


def _bar(at: Callable[[float], int], row: Mapping[str, Any]) -> str:
    first, middle, last = at(row["low"]), at(row["value"]), at(row["high"])
    drawn = [" "] * _BAR
    drawn[first : last + 1] = "-" * (last + 1 - first)
    drawn[first] = drawn[last] = "|"
    drawn[middle] = "o"
    return "".join(drawn)


def _told(row: Mapping[str, Any]) -> str:
    value = plain(row["value"])
    return value if row["low"] == row["high"] else f"{value} ({row['low']:.3g} to {row['high']:.3g})"


def _short(label: str) -> str:
    return label if len(label) <= _LABEL else f"{label[: _LABEL - 1]}…"
