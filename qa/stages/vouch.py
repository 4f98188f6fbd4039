"""The number gate's second half: scan a finished text for any number that no figure vouches for.

>>> figure = Figure("21 g", 21, 20, 22, "g", ("flax.ground.bulk-density.usda-sr26",))
>>> vouch("About 21 g, or two spoons.", [Placed(figure, 6, 10)])
(Unvouched(start=15, end=18, text='two'),)
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from qa.records import Figure, Placed
from qa.text import number_spans


class Unvouched(NamedTuple):
    """A number in a text that no figure vouches for (characters, end exclusive)."""

    start: int
    end: int
    text: str


def vouch(text: str, placed: Sequence[Placed], names: Iterable[tuple[int, int]] = ()) -> tuple[Unvouched, ...]:
    """Every number in the text outside the figures and outside ingredient names, in order of appearance.

    A figure vouches for its place only if exactly its own text stands there and no digit touches it.

    Args:
        text: the finished reply, tip sheet or plan.
        placed: figures where the gate put them.
        names: spans of ingredient names that contain a number ("type 00 flour").

    """
    safe = [(p.start, p.end) for p in placed if text[p.start : p.end] == p.figure.text and _stands_alone(text, p)]
    safe += list(names)
    found = [span for span in number_spans(text) if not _inside(span, safe)]
    return tuple(Unvouched(start, end, text[start:end]) for start, end in found)


def place(text: str, figures: Iterable[Figure]) -> tuple[Placed, ...]:
    """Find figures again in a text that a person has edited; longer figures first, never overlapping.

    >>> place("Take 21 g, not 121 g.", [Figure("21 g", 21, 20, 22, "g", ("f",))])[0].start
    5
    """
    taken: list[Placed] = []
    for figure in sorted(set(figures), key=lambda f: -len(f.text)):
        for match in re.finditer(re.escape(figure.text), text):
            here = Placed(figure, *match.span())
            clear = all(here.end <= t.start or here.start >= t.end for t in taken)
            if clear and _stands_alone(text, here):
                taken.append(here)
    return tuple(sorted(taken, key=lambda p: p.start))


def _stands_alone(text: str, placed: Placed) -> bool:
    """Whether nothing that would change the number's value touches it on either side."""
    before, after = text[: placed.start][-2:], text[placed.end :][:2]
    if before[-1:].isnumeric() or (before[-1:] in {".", ",", "/", "-", "⁄"} and before[:1].isnumeric()):
        return False
    if after[:1].isnumeric() or (after[:1] in {"/", "⁄"} and after[1:].isnumeric()):
        return False
    ends_in_letter = placed.figure.text[-1:].isalpha()
    starts_in_letter = placed.figure.text[:1].isalpha()
    return not ((ends_in_letter and after[:1].isalnum()) or (starts_in_letter and before[-1:].isalnum()))


def _inside(span: tuple[int, int], safe: Sequence[tuple[int, int]]) -> bool:
    return any(start <= span[0] and span[1] <= end for start, end in safe)
