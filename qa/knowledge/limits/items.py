"""Questions about this very item: is it still safe; and about keeping food in a way that nobody has validated."""

from __future__ import annotations

import re

from qa.knowledge.limits.keeping import JARRED, NEVER, PRESERVING, RAW, SET_IN_WATER, WATER_BATH
from qa.knowledge.limits.states import (
    ABANDONED,
    BLOOM,
    EATEN_RAW,
    FERMENTED,
    FERMENTS,
    GRAVE,
    GRIM,
    HABIT,
    HARM,
    IT,
    LEAVENED,
    LEAVES_OUT,
    LEFT_AWAY,
    LONG_ENOUGH,
    NAMED_SO,
    OMITTED,
    ON_PURPOSE,
    OUTDATED,
    OVERPROVED,
    PERISHABLE,
    REACTION,
    SHADE,
    SOAPY,
    SPOILT,
    SPOILT_AS_WELL,
    STANDING,
    STANDS_OUT,
    STATE,
    STRENGTH,
    TO_BE_EATEN,
    TO_KEEP_COLD,
    TO_USE,
    TOXIC,
    TURNED,
    UNDERDONE,
    USE_IT,
)
from qa.knowledge.limits.words import in_full, plain

# How far from a question what happened may be told, in characters before and after.
_BEFORE, _AFTER = 320, 160
# A piece of fewer words is read with its whole sentence.
_SHORT = 6
# With so few, as in "pavlova?", it is the whole story that asks.
_CRUMB = 2


_BARE = re.compile(
    r"^\W*(?:so\s|still\s|is it\s|are they\s)*"
    r"(?:good|ok(?:ay)?|safe|fine|alright|off|bad|edible|bin|toss|keep|use)\b(?:\sor\s\w+(?:\sit)?)?\W*$",
    re.IGNORECASE,
)


def _around(sentence: str, comment: str) -> str:
    at = comment.find(sentence)
    return comment if at < 0 else comment[max(0, at - _BEFORE) : at + len(sentence) + _AFTER]


def _spoils(said: str, told: str) -> bool:
    """Whether what is asked about, or what a pronoun stands for, is what the food authorities keep cold."""
    return bool(PERISHABLE.search(said) or (IT.search(said) and PERISHABLE.search(told)))


def _kept_in(said: str, told: str) -> bool:
    """Whether a thing is brought to the warmth of the room to be used, or left away."""
    if TO_USE.search(said) or LEFT_AWAY.search(said):
        return True
    about = told if IT.search(said) else said
    return bool(LEAVES_OUT.search(said)) and not (STANDING.search(said) or TO_KEEP_COLD.search(about))


def _spoken_for(whole: str) -> bool:
    """Whether what happened needs no verdict to be asked for."""
    return bool(
        OUTDATED.search(whole)
        or GRIM.search(NAMED_SO.sub("", whole))
        or (ABANDONED.search(whole) and not ON_PURPOSE.search(whole))
    )


def _harmless(said: str, told: str) -> bool:
    """Whether strength, a smell of ferment, soap or bloom is all that is told of, nothing of spoiling or of harm."""
    if HARM.search(said) or SPOILT_AS_WELL.search(told):
        return False
    if STRENGTH.search(told) or (BLOOM.search(told) and "chocolate" in told.lower()):
        return True
    if SOAPY.search(told) and LEAVENED.search(told):
        return True
    return bool(FERMENTS.search(told) and FERMENTED.search(told)) and not ABANDONED.search(told)


def _unproven(said: str, whole: str, told: str, *, judged: bool) -> bool:
    """Whether a way of keeping or eating is asked about that no authority calls safe."""
    if _preserved(whole, told) or NEVER.search(whole) or RAW.search(whole) or EATEN_RAW.search(said):
        return True
    return (judged and bool(NEVER.search(told))) or (
        (judged or bool(LONG_ENOUGH.search(said))) and _preserved(told, told)
    )


def _preserved(said: str, told: str) -> bool:
    """Whether food is put up to keep; a cheesecake in a water bath is not, unless jars are spoken of."""
    if SET_IN_WATER.search(told) and not JARRED.search(told):
        said = WATER_BATH.sub("", said)
    return bool(PRESERVING.search(said))


def hazard_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks if this very item may still be used, or about a practice that nobody has validated.

    >>> hazard_asked("still safe to bake?", "dough left on the counter since last night, still safe to bake?")
    True
    >>> hazard_asked("do I leave the butter out to soften?", "do I leave the butter out to soften?")
    False
    """
    said, told = plain(sentence), plain(_around(sentence, comment))
    whole = told if len(said.split()) <= _CRUMB else plain(in_full(sentence, comment, _SHORT))
    judged = bool(USE_IT.search(said) or _BARE.search(said))
    if _unproven(said, whole, told, judged=judged):
        return True
    natural = bool(REACTION.search(told)) and not SPOILT.search(told)
    if SHADE.search(told) and (natural or HARM.search(said)):
        return not natural
    if TOXIC.search(said) or (STANDS_OUT.search(said) and _spoils(said, told) and not _kept_in(said, told)):
        return True
    if _harmless(said, told) or HABIT.search(said) or (OMITTED.search(said) and not GRAVE.search(said)):
        return False
    if _spoken_for(whole):
        return True
    if OVERPROVED.search(whole) and not (GRAVE.search(said) or TURNED.search(told) or PERISHABLE.search(told)):
        return False
    if UNDERDONE.search(told) and TO_BE_EATEN.search(said):
        return True
    return judged and bool(STATE.search(NAMED_SO.sub("", told)))
