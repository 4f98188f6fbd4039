"""Whether a question can be answered with yes or no, and whether a text begins with such a verdict."""

from __future__ import annotations

import re

_HELPER = (
    r"(?:can|could|should|shall|may|might|would|will|do|does|did|is|are|was|were|has|have|am|isn't|aren't|doesn't|don't"
    r"|can't|won't)"
)
_BEFORE = r"(?:^|[.,;:!?()\n-]\s*|\b(?:and|or|so|but|then|also|ok|okay|hi|hello|hey|please|pls|question|just|now)\s+)"
# A helping verb at the head of a clause, or before "I" and "you" anywhere.
_YES_OR_NO = re.compile(
    rf"{_BEFORE}{_HELPER}\b|\b(?:can|could|should|may|would)\s+(?:i|we|u|you|it|this|that)\b"
    r"|\b(?:if|whether)\s+(?:i|it|you|we)\b",
    re.IGNORECASE,
)
_OPEN = re.compile(r"\b(?:what|what's|whats|which|why|how|when|where|who|difference)\b", re.IGNORECASE)
# A choice between two things, as opposed to "or not".
_CHOICE = re.compile(r"\bor\s+(?!not\b|no\b|nah\b|naw\b|what\b)", re.IGNORECASE)
_VERDICT = re.compile(
    r"\s*(?:yes|no|yep|nope|partly|in part|certainly|of course|sure|right|correct|go ahead|happily|by all means"
    r"|no problem|it (?:works|does|will|can|is fine|may)|that (?:works|will do|is fine)"
    r"|they (?:do|will|are|can)|you (?:can|may)"
    r"|not (?:quite|really|freely|safely|exactly|at all|straight|always|as it is|one for one))\b",
    re.IGNORECASE,
)
_ASSENT = re.compile(r"\s*(?:yes|sure|certainly|of course)\b(?! and\b)[,.:;]?\s*(?:(?:but|and)\b\s*)?", re.IGNORECASE)


def asks_yes_or_no(question: str) -> bool:
    """Whether yes or no would answer it; what comes first decides, a helping verb or a question word.

    >>> asks_yes_or_no("can I use oil instead"), asks_yes_or_no("what can I use instead of oil")
    (True, False)
    >>> asks_yes_or_no("Is it better hot or cold?"), asks_yes_or_no("butter substitute")
    (False, False)
    """
    found, opened = _YES_OR_NO.search(question), _OPEN.search(question)
    if not found or (opened and opened.start() < found.end()):
        return False
    return not _CHOICE.search(question)


def asks_openly(question: str) -> bool:
    """Whether it asks how, why, what or which, so that no yes or no belongs before the answer.

    >>> asks_openly("how do I bake them"), asks_openly("can I bake them"), asks_openly("honey for sugar?")
    (True, False, False)
    """
    return bool(_OPEN.search(question)) and not asks_yes_or_no(question)


def begins_with_verdict(text: str) -> bool:
    """Whether a text begins as an answer to a yes-or-no question does.

    >>> begins_with_verdict("Yes, weight for weight."), begins_with_verdict("By weight, with less liquid.")
    (True, False)
    """
    return bool(_VERDICT.match(text))


def without_assent(text: str) -> str:
    """A text without the "yes" that it opens with, for a question that yes does not answer.

    >>> without_assent("Yes, about as much by weight."), without_assent("Not straight: it binds more.")
    ('About as much by weight.', 'Not straight: it binds more.')
    """
    rest = text[found.end() :] if (found := _ASSENT.match(text)) else text
    return rest[:1].upper() + rest[1:]
