"""Asks that no standing answer may serve, whatever the likeness: bodies, laws, makers, this very item's safety."""

from __future__ import annotations

from qa.knowledge.limits import MEDICAL, hazard_asked, health_asked, legal_asked, maker_asked
from qa.records import Ask
from qa.text.phrases import phrases

# An allergy question with a person in it; without one it may be about what a thing is made of.
_PERSON = phrases(
    """(my|our|his|her|the)
        (son|daughter|kids?|child|children|husband|wife|mother|mum|mom|dad|father|guests?|friend|sister|brother
        |niece|nephew|grand*|boy|girl|lad|mate|cousin|class|school) | i | he | she | someone | treat | serve |
        ok | okay | safe | can .. (eat|have)"""
)


def forbidden(ask: Ask, comment: str) -> str:
    """Why an ask must go to a person, one of REASONS, or '' where a standing answer may serve it.

    >>> forbidden(Ask("other", 0, 40, "am I allowed to write egg free on the card"), "")
    'legal'
    """
    if ask.type == "health" or health_asked(ask.text, comment):
        return "health"
    if legal_asked(ask.text):
        return "legal"
    if ask.type == "allergy" and (MEDICAL.search(comment) or _PERSON.search(ask.text)):
        return "health"
    if hazard_asked(ask.text, comment):
        return "unsafe"
    return "maker" if maker_asked(ask.text) else ""
