"""How well a standing answer's subject and conditions fit an ask, apart from wording."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import permutations

from qa.kitchen.shows import shows
from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.records import Ask
from qa.stages.match.bare import told

# From "about exactly this form" down to "about anything"; the order matters more than the distances.
_SAME_FORM, _USUAL_FORM, _SAME_INGREDIENT, _FAMILY, _ANY = 1.0, 0.95, 0.85, 0.5, 0.3

# How far an answer's conditions are met: said in the ask, only in the comment around it, not at all; or ruled out.
SAID, AROUND, UNSAID, BARRED = 1.0, 0.5, 0.0, -1.0

# Options of a condition up to so many letters are whole words.
_SHORT = 3
_NO_WORD = re.compile(r"[\W_]+")

# What an answer for any dish is worth beside one for the very dish, and one for the dish of two things asked about.
_BROAD, _PART_OF_THE_DISH = 0.75, 0.6

# Asks that set one ingredient against another.
_PAIRED = frozenset(("swap", "same_thing"))

# Asks that mean nothing without an ingredient.
_ABOUT_SOMETHING = frozenset(("swap", "weight", "where_to_buy", "tried"))


def fit(ask: Ask, answer: Answer, library: Library) -> float:
    """0 where the answer is about other ingredients, else how closely it is about those asked about, to 1.

    An answer about ingredients may still serve an ask that names none, since its wording can carry it.
    """
    narrow = any(name in {"dish", "says"} and not value.startswith(("none", "not ")) for name, value in answer.when)
    return _close(ask, answer, library, narrow=narrow) * (1.0 if narrow or answer.fits != "any" else _BROAD)


def met(ask: Ask, answer: Answer) -> float:
    """How far what the answer wants said was: `SAID`, `AROUND` it, `UNSAID`, or `BARRED` if something rules it out.

    People leave out what they think is plain, so what is not said rules nothing out; another dish does.
    """
    return min((_met(ask, name, value) for name, value in answer.when), default=SAID)


def _close(ask: Ask, answer: Answer, library: Library, *, narrow: bool) -> float:
    """How closely an answer that may apply is about the ingredients asked about."""
    if not ask.items:
        return _open(ask, answer)
    if answer.fits == "swap":
        return _swap(ask.items, answer.about, library)
    if answer.fits == "all":
        return _all(ask.items, answer.about, library)
    worth = [max((_covers(subject, item, library) for subject in answer.about), default=0.0) for item in ask.items[:3]]
    if not any(worth):
        asks_for_it = answer.asks_back and ask.type in _ABOUT_SOMETHING and all(map(library.has, ask.items))
        return 0.15 if "none" in answer.about and not asks_for_it else 0.0
    if ask.type in _PAIRED and len(worth) > 1 and not all(worth[:2]):
        # an answer about one of two things says nothing of how they compare, unless the second is part of its dish
        return _PART_OF_THE_DISH * worth[0] if narrow else 0.15
    return 0.5 * max(worth) + 0.5 * sum(worth) / len(worth)


def _all(items: Sequence[str], about: Sequence[str], library: Library) -> float:
    """Every subject is asked about by an ingredient of its own; a bare "oat" does not stand for two of its forms."""
    pairings = permutations(items[:4], len(about))
    return max(
        (min(_covers(*pair, library) for pair in zip(about, pairing, strict=True)) for pairing in pairings), default=0.0
    )


def _open(ask: Ask, answer: Answer) -> float:
    """How closely an answer is about an ask that names no ingredient; hardly where the ask means little without."""
    if "none" in answer.about:
        return 1.0
    if "any" in answer.about:
        return 0.5
    return 0.1 if ask.type in _ABOUT_SOMETHING else 0.35


def _swap(items: Sequence[str], about: Sequence[str], library: Library) -> float:
    """The first subject is what is replaced, all others may stand in for it."""
    if len(about) < 2:
        return 0.0
    replaced = _covers(about[0], items[0], library)
    if len(items) < 2:
        return 0.5 * replaced
    used = max(_covers(subject, item, library) for subject in about[1:] for item in items[1:])
    return min(replaced, used)


def _covers(subject: str, item: str, library: Library) -> float:
    """How closely a subject ('flax.ground', 'flax', 'family:starch', 'any') covers an item."""
    if subject == "none" or not library.has(item):
        return 0.0
    if subject == "any":
        return _ANY
    if subject.startswith("family:"):
        return _FAMILY if library.ingredient(item).family == subject.removeprefix("family:") else 0.0
    if subject == item:
        return _SAME_FORM
    if subject.partition(".")[0] != item.partition(".")[0]:
        return 0.0
    if "." not in item and library.usual(item) == subject:
        return _USUAL_FORM
    return _SAME_INGREDIENT if "." not in subject or "." not in item else 0.0


def _met(ask: Ask, name: str, wanted: str) -> float:
    """How far one condition is met."""
    if name == "shows":
        return SAID if _shown(wanted, ask) else BARRED
    around = f"{ask.text} {ask.context}"
    asked = around if name == "says" else told(ask)
    understood = {"dish": ask.dish, "symptom": ask.symptom, "region": ask.region}.get(name, "")
    options, barred = _options(wanted)
    if _among(understood, barred, asked):
        return BARRED
    if len(barred) == len(options) or (not understood and "none" in options) or _among(understood, options, asked):
        return SAID
    if name == "dish" and understood:
        return BARRED
    return AROUND if _among(understood, options, around) else UNSAID


def _shown(wanted: str, ask: Ask) -> bool:
    """Whether the ask, or the comment it stands in, shows one of the sums that the answer works out."""
    shown = shows(ask.text) | shows(ask.context)
    return not shown.isdisjoint(option.strip() for option in wanted.split(","))


@lru_cache(maxsize=4_096)
def _options(wanted: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """All words of a condition, and those that must not stand there."""
    options = tuple(option.strip().lower() for option in wanted.replace("|", ",").split(","))
    return options, tuple(option.removeprefix("not ") for option in options if option.startswith("not "))


def _among(understood: str, options: Sequence[str], text: str) -> bool:
    """Whether an option was understood, or begins a word: "cake" is meant by "cakes", not by "pancakes".

    Options of few letters must be a whole word: "tin", not "tingle".
    """
    words = _spaced(f"{understood} {text}")  # "grit" is meant by what was understood as "gritty" as well
    return understood.lower() in options or any(
        f" {option}" in words if len(option) > _SHORT else f" {option} " in words for option in options
    )


@lru_cache(maxsize=64)
def _spaced(text: str) -> str:
    return f" {_NO_WORD.sub(' ', text.lower())} "
