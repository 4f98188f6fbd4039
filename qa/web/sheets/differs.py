"""Two wordings of one text, and where they differ, by words.

>>> [(d.kind, d.text) for d in differences("about 21 g of it", "about 22 g of it")]
[('same', 'about '), ('gone', '21 '), ('new', '22 '), ('same', 'g of it')]
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

_WORDS = re.compile(r"\S+\s*|\s+")
_MOST_WORDS = 3_000
_LAST_FEW = 4  # a standing answer has two or three variants, so one of the last few is of the same


@dataclass(frozen=True, slots=True)
class Stretch:
    """Words that are the same in both texts, gone from the first, or new in the second."""

    kind: str
    text: str


def words_of(text: str) -> list[str]:
    """The words of a text, each with the space after it."""
    return _WORDS.findall(text)


def differences(before: str, after: str) -> tuple[Stretch, ...]:
    """What became of a text, word by word; texts beyond reason are shown whole, one gone and one new."""
    old, new = words_of(before), words_of(after)
    if max(len(old), len(new)) > _MOST_WORDS:
        return (Stretch("gone", before), Stretch("new", after))
    out: list[Stretch] = []
    for tag, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            out.append(Stretch("same", "".join(new[c:d])))
            continue
        out += [Stretch("gone", "".join(old[a:b]))] * (b > a) + [Stretch("new", "".join(new[c:d]))] * (d > c)
    return tuple(out)


def only_new(text: str, earlier: Sequence[str]) -> tuple[Stretch, ...]:
    """A text with the words it shares with the most alike of the last few told from those of its own.

    >>> [(d.kind, d.text) for d in only_new("That is 21 g.", ["That is 14 g."])]
    [('same', 'That is '), ('new', '21 '), ('same', 'g.')]
    """
    new = words_of(text)
    alike, best = max(((_alike(new, words_of(other)), other) for other in earlier[-_LAST_FEW:]), default=(0.0, ""))
    if alike < 0.5:
        return (Stretch("new", text),)
    return tuple(stretch for stretch in differences(best, text) if stretch.kind != "gone")


def _alike(new: Sequence[str], old: Sequence[str]) -> float:
    return SequenceMatcher(None, old, new, autojunk=False).ratio()
