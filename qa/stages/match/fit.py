"""How well a standing answer's subject and conditions fit an ask, apart from wording."""

from __future__ import annotations

from collections.abc import Sequence

from qa.knowledge.facts import Answer
from qa.knowledge.library import Library
from qa.records import Ask

# From "about exactly this form" down to "about anything"; the order matters more than the distances.
_SAME_FORM, _SAME_INGREDIENT, _USUAL_FORM, _FAMILY, _ANY, _NONE = 1.0, 0.85, 0.95, 0.55, 0.4, 0.35


def fit(ask: Ask, answer: Answer, library: Library) -> float:
    """0 where the answer cannot serve the ask, else how closely it is about its ingredients, to 1."""
    if not _applies(ask, answer):
        return 0.0
    if answer.fits == "swap":
        if len(answer.about) < 2 or len(ask.items) < 2:
            return 0.0
        parts = [_covers(subject, item, library) for subject, item in zip(answer.about, ask.items, strict=False)]
        return min(parts)
    if answer.fits == "all":
        parts = [max((_covers(subject, item, library) for item in ask.items), default=0.0) for subject in answer.about]
        return min(parts, default=0.0)
    return max((_subject(subject, ask.items, library) for subject in answer.about), default=0.0)


def _subject(subject: str, items: Sequence[str], library: Library) -> float:
    if subject == "none":
        return 0.6 if not items else 0.2
    return max((_covers(subject, item, library) for item in items), default=0.0)


def _covers(subject: str, item: str, library: Library) -> float:
    """How closely a subject ('flax.ground', 'flax', 'family:starch', 'any') covers an item."""
    if not library.has(item):
        return 0.0
    if subject == "any":
        return _ANY
    if subject.startswith("family:"):
        return _FAMILY if library.ingredient(item).family == subject.removeprefix("family:") else 0.0
    if subject == item:
        return _SAME_FORM
    if "." not in item and library.usual(item) == subject:
        return _USUAL_FORM
    if subject.partition(".")[0] != item.partition(".")[0]:
        return 0.0
    return _SAME_INGREDIENT if "." not in subject or "." not in item else 0.0


def _applies(ask: Ask, answer: Answer) -> bool:
    """Whether everything the answer wants understood was understood."""
    known = {"dish": ask.dish, "symptom": ask.symptom, "region": ask.region}
    return all(_same(known.get(name, ""), value, ask.text) for name, value in answer.when)


def _same(understood: str, wanted: str, text: str) -> bool:
    options = [option.strip().lower() for option in wanted.replace("|", ",").split(",")]
    return understood.lower() in options or any(
        option and option in text.lower() for option in options if len(option) > 3
    )
