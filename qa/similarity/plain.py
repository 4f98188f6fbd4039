"""English texts stripped of how something was said: short forms opened, endings cut, words of one meaning joined."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from qa.similarity.everyday import FORMS, MEANINGS
from qa.similarity.views import Views, letter_runs

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
# Words this far apart still make a pair; farther, they seldom belong together, and pairs grow with the square.
_APART = 12
# Weights of the views: words, pairs, meanings, pairs of meanings, letter runs. Chosen by three-fold cross-validation on
# phrasings of 286 targets and on question titles of 30 tags.
_WEIGHTS = (0.25, 0.15, 0.2, 0.1, 0.3)


def plain_words(text: str) -> list[str]:
    """Words without short forms and endings, numbers as '#', and marks.

    >>> plain_words("Why wasn't I paid 20 dollars?")
    ['whi', 'be', 'not', 'i', 'pai', '#', 'dollar', '?']
    """
    return list(_plain(text))


def meanings(text: str) -> list[str]:
    """Plain words, with one word for all that mean the same.

    >>> meanings("purchased abroad") == meanings("bought overseas")
    True
    """
    return [_MEANING.get(word, word) for word in plain_words(text)]


def word_pairs(text: str) -> list[str]:
    """Plain words two by two, whatever their order, if they are not far apart."""
    return _pairs(plain_words(text))


def meaning_pairs(text: str) -> list[str]:
    """Meanings two by two, whatever their order, if they are not far apart."""
    return _pairs(meanings(text))


def plain_views() -> Views:
    """The views for telling apart what English texts want; the product of two rows is 0 to 1."""
    views = (plain_words, word_pairs, meanings, meaning_pairs, letter_runs)
    return Views(*((view, weight**0.5) for view, weight in zip(views, _WEIGHTS, strict=True)))


def _pairs(words: Sequence[str]) -> list[str]:
    near = {
        tuple(sorted((word, other))) for place, word in enumerate(words) for other in words[place + 1 : place + _APART]
    }
    return [f"{one} {other}" for one, other in sorted(near) if one != other]


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


_MEANING = {_stem(FORMS.get(word, word)): f"={leader}" for word, leader in MEANINGS.items()}
