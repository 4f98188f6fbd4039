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


class Unvouched(NamedTuple):
    """A number in a text that no figure vouches for (characters, end exclusive)."""

    start: int
    end: int
    text: str


_UNITS = "zero|nought|naught|nil|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
_TEENS = "thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_LARGE = "hundreds?|thousands?|millions?|billions?|dozens?"
_PARTS = (
    "half|halves|halved|halve|halving|quarters?|quartered|thirds|fourths|fifths|sixths|sevenths|eighths|ninths|tenths|"
    "sixteenths|hundredths"
)
_TIMES = "twice|thrice|doubl(?:e|es|ed|ing)|tripl(?:e|es|ed|ing)|quadrupl(?:e|es|ed|ing)|couple"
_FOLD = f"(?:{_UNITS}|{_TEENS}|{_TENS}|ten|hundred)[- ]?fold"
_A_PART = "(?<=a )(?:third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)"
_COMPOUND = f"(?:{_TENS})[- ]?(?:one|two|three|four|five|six|seven|eight|nine)"
_NUMBER_WORD = re.compile(
    rf"\b(?:{_FOLD}|{_COMPOUND}|{_UNITS}|{_TEENS}|{_TENS}|{_LARGE}|{_PARTS}|{_TIMES}|{_A_PART})\b", re.IGNORECASE
)
# "one" as a pronoun is no number: "the one you want", "no one", "one another", "which one?"
_POINTS_AT = frozenset("the this that which each another either other wrong right same".split())
_GOES_ON = frozenset("you i we they he she it that to who which with is was has can will for".split())
_BEFORE = re.compile(r"([^\W\d_]+) $")
_AFTER = re.compile(r"(?: ([^\W\d_]+)|[.,;:!?)]|$)")


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
    found = [span for span in (*_numerals(text), *_number_words(text)) if not _inside(span, safe)]
    return tuple(Unvouched(start, end, text[start:end]) for start, end in sorted(found))


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


def _numerals(text: str) -> Iterable[tuple[int, int]]:
    """Runs of digits, fractions and numerals of any script."""
    start = None
    for i, character in enumerate(text):
        if character.isnumeric():
            start = i if start is None else start
        elif start is not None:
            yield start, i
            start = None
    if start is not None:
        yield start, len(text)


def _number_words(text: str) -> Iterable[tuple[int, int]]:
    for match in _NUMBER_WORD.finditer(text):
        if match.group().casefold() == "one" and _is_pronoun(text, *match.span()):
            continue
        yield match.span()


def _is_pronoun(text: str, start: int, end: int) -> bool:
    before, after = _BEFORE.search(text[max(0, start - 20) : start]), _AFTER.match(text[end : end + 20])
    previous = before.group(1).casefold() if before else ""
    following = (after.group(1) or "").casefold() if after else "?"
    if previous in {"no", "any", "every"} or following == "another":
        return True
    return previous in _POINTS_AT and (following in _GOES_ON or (after is not None and not following))
