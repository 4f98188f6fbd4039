"""English texts stripped of how something was said: short forms opened, endings cut, words of one meaning joined."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache

from qa.similarity.everyday import FORMS
from qa.similarity.meanings import GROUPS

_TOKEN = re.compile(r"'?[^\W\d_]+|\d+|[^\w\s]")
# Short forms are opened in this order, so that "can't" is not read as "ca n't".
_OPENED = tuple(
    (re.compile(pattern), opened)
    for pattern, opened in (
        ("[’`]", "'"),
        (r"\bcan(?:'t|t|not)\b", "can not"),
        (r"\bwon'?t\b", "will not"),
        (r"n't\b", " not"),
        (r"\b(do|does|did|is|was|could|would|should|have|has|had|are|were)nt\b", r"\1 not"),
        (r"'(s|re|m|ve|ll|d)\b", r" '\1"),
        (r"\b(i)(m|ve)\b", r"\1 '\2"),
        (r"\b(what|that)s\b", r"\1 's"),
    )
)
_ENDINGS = (
    *(("ies", "y"), ("ied", "y"), ("sses", "ss"), ("ches", "ch"), ("shes", "sh"), ("xes", "x")),
    *(("ing", ""), ("ed", ""), ("ly", "")),
)
_SHORTEST_STEM = 3
# What a word says for itself beside what its meanings say, 0 to 1: the best of 0.3, 0.6 and 1 on 54 intents.
_OWN_SHARE = 0.3
# Words this far apart still make a pair; farther, they seldom belong together. Of a word's many senses, as many pair.
_APART, _MOST_SENSES = 8, 3
_RUNS_ACROSS = (3, 4, 5, 6)


def plain_words(text: str) -> list[str]:
    """Words without short forms and endings, numbers as '#', and marks.

    >>> plain_words("Why wasn't I paid 20 dollars?")
    ['whi', 'be', 'not', 'i', 'pai', '#', 'dollar', '?']
    """
    return list(_plain(text))


def senses(text: str) -> dict[str, float]:
    """What the words may mean: the groups of meaning that words and phrases are in, and the words themselves.

    The more groups a word is in, the less it says for each; a word that is in any says less for itself.

    >>> sorted(set(senses("a purchase")) & set(senses("buying"))) != []
    True
    >>> senses("banjo")
    {'banjo': 1.0}
    """
    found: dict[str, float] = {}
    for unit in _units(plain_words(text)):
        groups = _groups().get(unit, ())
        found.setdefault(unit, _OWN_SHARE if groups else 1.0)
        for group in groups:
            found[group] = max(found.get(group, 0.0), len(groups) ** -0.5)
    return found


def sense_pairs(text: str) -> list[str]:
    """Groups of meaning, or words that are in none, two by two, whatever their order, if they are not far apart."""
    places = [_groups().get(word, (word,))[:_MOST_SENSES] for word in plain_words(text)]
    pairs = {
        (one, other) if one < other else (other, one)
        for place, ones in enumerate(places)
        for others in places[place + 1 : place + _APART]
        for one in ones
        for other in others
        if one != other
    }
    return [f"{one} {other}" for one, other in sorted(pairs)]


def runs_across(text: str) -> list[str]:
    """Runs of three to six letters of the plain words, across their bounds."""
    joined = f" {' '.join(plain_words(text))} "
    return [joined[i : i + n] for n in _RUNS_ACROSS for i in range(len(joined) - n + 1)]


def _units(words: Sequence[str]) -> Iterator[str]:
    """The words, and the phrases among them that are in a group."""
    for place, word in enumerate(words):
        yield word
        for length in _phrase_lengths().get(word, ()):
            phrase = " ".join(words[place : place + length])
            if phrase in _groups():
                yield phrase


@cache
def _groups() -> dict[str, tuple[str, ...]]:
    """The groups that each plain word or phrase is in."""
    found: dict[str, list[str]] = {}
    for number, members in enumerate(GROUPS):
        for unit in dict.fromkeys(" ".join(plain_words(member)) for member in members):
            found.setdefault(unit, []).append(f"={number}")
    return {unit: tuple(groups) for unit, groups in found.items()}


@cache
def _phrase_lengths() -> dict[str, tuple[int, ...]]:
    """How many words the phrases have that begin with a word."""
    found: dict[str, set[int]] = {}
    for words in (unit.split(" ") for unit in _groups()):
        if len(words) > 1:
            found.setdefault(words[0], set()).add(len(words))
    return {word: tuple(sorted(lengths)) for word, lengths in found.items()}


@lru_cache(maxsize=20_000)
def _plain(text: str) -> tuple[str, ...]:
    """Kept for a while, since several views look at the same texts one after the other."""
    text = text.lower()
    for pattern, opened in _OPENED:
        text = pattern.sub(opened, text)
    return tuple("#" if token.isdigit() else _stem(FORMS.get(token, token)) for token in _TOKEN.findall(text))


@lru_cache(maxsize=200_000)
def _stem(word: str) -> str:
    """A word without its ending; not always a word, but the same for all its forms."""
    for ending, instead in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST_STEM:
            word = word[: -len(ending)] + instead
            if not instead and len(word) > _SHORTEST_STEM and word[-1] == word[-2] and word[-1] not in "lsz":
                word = word[:-1]
            break
    else:
        if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > _SHORTEST_STEM:
            word = word[:-1]
    if len(word) > _SHORTEST_STEM and word.endswith("e"):
        word = word[:-1]
    return f"{word[:-1]}i" if len(word) >= _SHORTEST_STEM and word.endswith("y") else word
