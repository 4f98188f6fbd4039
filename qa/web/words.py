"""How things are said on the pages: tiers, sureness, kinds of ask, dates and lengths, in words.

>>> sureness_words(0.93), tier_words("viewers' reports"), date_words("2026-03-05T17:55:01Z")
('sure', 'viewers say', '5 March 2026')
"""

from __future__ import annotations

import re
from datetime import datetime

from qa.measures.measure import Measure
from qa.measures.show import plain, show_range, unit_name
from qa.records import AskType

_TIERS = {
    "measured": "weighed here",
    "published": "published",
    "common practice": "common practice",
    "viewers' reports": "viewers say",
}
ASKS: dict[AskType, str] = {
    "same_thing": "whether it is the same thing",
    "swap": "what to use instead",
    "weight": "what it weighs",
    "convert": "for a conversion",
    "check": "to have a sum checked",
    "tried": "whether anyone tried it",
    "went_wrong": "why it went wrong",
    "colour": "about a colour",
    "carbs": "about carbohydrate",
    "nutrition": "about nutrition",
    "storage": "how it keeps",
    "safety": "whether it is safe",
    "health": "about health",
    "allergy": "about an allergy",
    "where_to_buy": "where to buy it",
    "equipment": "about equipment",
    "method": "how it is done",
    "scaling": "for another size",
    "purpose": "what it is there for",
    "episode": "what the episode showed",
    "other": "something else",
}
STATUSES = {
    "drafted": "has a draft",
    "ask_back": "has a draft that asks back",
    "needs_you": "needs you",
    "no_reply": "needs no reply",
}
_DONE = {
    "signed": "Signed",
    "sent": "Sent",
    "laid_aside": "Laid aside",
    "answered_myself": "Answered by hand",
    "changed": "Wording kept",
}
# Characters that reorder text (Unicode UAX 9): shown by their number, so that a comment reads as it was typed.
_REORDERING = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")


def tier_words(tier: str) -> str:
    """A tier as pages name it."""
    return _TIERS.get(tier, tier)


def sureness_words(sureness: float) -> str:
    """A sureness of 0 to 1 in words."""
    return "sure" if sureness >= 0.9 else "fairly sure" if sureness >= 0.75 else "unsure"


def date_words(time: str) -> str:
    """A day in words; what is no ISO 8601 time is shown as it is.

    >>> date_words("2026-03-05 17:55"), date_words("last week"), date_words("")
    ('5 March 2026', 'last week', '')
    """
    try:
        day = datetime.fromisoformat(time)
    except ValueError:
        return time
    return f"{day.day} {day:%B %Y}"


def decision_words(kind: str, who: str, at: str) -> str:
    """What stands, by whom and since when.

    >>> decision_words("signed", "Ana", "2026-03-09T08:00:00+00:00")
    'Signed by Ana, 9 March 2026'
    """
    by = f" by {who}" if who else ""
    when = date_words(at)
    return f"{_DONE[kind]}{by}{', ' if when else ''}{when}"


def counted(number: int, one: str, several: str = "") -> str:
    """A count with its word.

    >>> counted(1, "comment"), counted(1200, "comment"), counted(2, "reply", "replies")
    ('1 comment', '1,200 comments', '2 replies')
    """
    return f"{number:,} {one if number == 1 else several or one + 's'}"


def length_words(text: str, limit: int) -> str:
    """The length against the limit, only when it nears it.

    >>> length_words("yes " * 85, 90), length_words("yes", 90), length_words("yes " * 100, 90)
    ('85 of 90 words', '', '100 words, 10 over the limit of 90')
    """
    words = len(text.split())
    if words > limit:
        return f"{words} words, {words - limit} over the limit of {limit}"
    return f"{words} of {limit} words" if words > 0.8 * limit else ""


def measure_words(measure: Measure) -> tuple[str, str]:
    """A value as it is written down, and the range within which it is held to lie.

    >>> measure_words(Measure.of(7, "g/us_tbsp", spread=0.29))
    ('7 g per tbsp', '6.4 to 7.6 g per tbsp')
    """
    value = f"{plain(measure.value)} {unit_name(measure.unit, measure.value)}".strip()
    if not measure.spread:
        return value, "exact"
    return value, show_range(measure.low, measure.high, measure.unit)


def untangled(text: str) -> str:
    r"""A viewer's text with the characters that reorder it made visible.

    >>> untangled("gram\u202eflip")
    'gram[U+202E]flip'
    """
    return _REORDERING.sub(lambda found: f"[U+{ord(found.group()):04X}]", text)
