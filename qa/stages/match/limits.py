"""Asks that no standing answer may serve, whatever the likeness: bodies, laws, makers, this very item's safety."""

from __future__ import annotations

from qa.knowledge.limits import (
    MEDICAL,
    allergy_asked,
    baking_asked,
    cause_asked,
    hazard_asked,
    health_asked,
    legal_asked,
    maker_asked,
)
from qa.records import Ask, AskType

# Why a person must judge what was understood to be asked about, where no standing answer is sure to serve.
_A_PERSON_S: dict[AskType, str] = {"safety": "unsafe", "health": "health", "allergy": "health"}
# How likely that must be to be given as the reason: to miss it costs more than to name it for nothing. Chosen on
# comments in voices of their own, where it tells nine in ten of them and few of the others. Beside a type that is
# all but sure it must be likelier still, since general answers serve such asks.
_LIKELY_ENOUGH, _SHARE_ENOUGH = 0.15, 0.25


def forbidden(ask: Ask, comment: str) -> str:
    """Why an ask must go to a person, one of REASONS, or '' where a standing answer may serve it.

    >>> forbidden(Ask("other", 0, 40, "am I allowed to write egg free on the card"), "")
    'legal'
    """
    if legal_asked(ask.text):
        return "legal"
    if health_asked(ask.text, comment) or allergy_asked(ask.text, comment):
        return "health"
    baking = baking_asked(ask.text) or cause_asked(ask.text, comment)
    if ask.type in {"health", "allergy"} and not (MEDICAL.search(comment) and baking):
        return "health"
    if hazard_asked(ask.text, comment):
        return "unsafe"
    return "maker" if maker_asked(ask.text) else ""


def unsettled(ask: Ask) -> str:
    """The reason to give where no answer is sure enough.

    >>> unsettled(Ask("safety", 0, 9, "keep it?")), unsettled(Ask("swap", 0, 9, "oil?"))
    ('unsafe', 'unsure')
    """
    likely: dict[str, float] = {}
    for type_, probability in {**dict(ask.others), ask.type: ask.sureness}.items():
        if type_ in _A_PERSON_S:
            likely[_A_PERSON_S[type_]] = likely.get(_A_PERSON_S[type_], 0.0) + probability
    reason = max(likely, key=lambda one: likely[one], default="unsure")
    enough = max(_LIKELY_ENOUGH, _SHARE_ENOUGH * ask.sureness)
    return reason if ask.type in _A_PERSON_S or likely.get(reason, 0.0) >= enough else "unsure"
