"""Which ask that was understood goes with which ask that was labelled.

>>> aligned([("swap", ("egg",)), ("storage", ())], [("storage", ()), ("swap", ("egg", "flax"))])
[1, 0]
"""

from __future__ import annotations

from collections.abc import Sequence

# An ask as both sides know it: its type and the ingredients it is about.
Asked = tuple[str, tuple[str, ...]]
# What agreement counts for: the type first, then the ingredients, then the order of asking.
_TYPE, _ITEMS, _ORDER = 1.0, 0.8, 0.3


def aligned(found: Sequence[Asked], wanted: Sequence[Asked]) -> list[int | None]:
    """For each ask found the place of the labelled ask it goes with, the best agreement first; None if none is left."""
    pairs = sorted(
        ((_agreement(one, other, i == j), -i, -j) for i, one in enumerate(found) for j, other in enumerate(wanted)),
        reverse=True,
    )
    places: list[int | None] = [None] * len(found)
    taken: set[int] = set()
    for _, i, j in pairs:
        if places[-i] is None and -j not in taken:
            places[-i] = -j
            taken.add(-j)
    return places


def _agreement(found: Asked, wanted: Asked, same_place: bool) -> float:
    (one, own), (other, theirs) = found, wanted
    shared = len(set(own) & set(theirs)) / max(len(set(own) | set(theirs)), 1) if own or theirs else 1.0
    return _TYPE * (one == other) + _ITEMS * shared + _ORDER * same_place
