"""Which of the trade's sums a text shows, so that an answer that works one out is given only where there is one.

>>> sorted(shows("500 g flour and 350 g water is 70 %?"))
['amount', 'dough']
>>> sorted(shows("what is this?"))
[]
"""

from __future__ import annotations

import re
from functools import lru_cache

from qa.errors import LevelspoonError, NoKnowledge
from qa.kitchen.check_sum import check_text
from qa.kitchen.read_labels import find_labels
from qa.kitchen.read_pans import find_eggs, find_oven, find_pans
from qa.measures.parse import find_amounts

SHOWN = ("sum", "label", "labels", "dough", "pans", "eggs", "oven", "soda and tartar", "powder", "amount")
_AFTER = r"^\s?(?:g\s|grams?\s)?(?:of\s)?(?:the\s)?(?:[a-z-]{1,14}\s){0,2}?(?:"
_FLOUR = re.compile(_AFTER + r"flour)\b", re.IGNORECASE)
_WATER = re.compile(_AFTER + r"(?:water|milk|liquid|buttermilk|yogh?urt))\b", re.IGNORECASE)
SODA = re.compile(_AFTER + r"soda|bicarb(?:onate)?)\b", re.IGNORECASE)
TARTAR = re.compile(_AFTER + r"cream of tartar|tartar|weinstein)\b", re.IGNORECASE)
POWDER = re.compile(_AFTER + r"baking powder|b\.?p\.?)(?!\w)", re.IGNORECASE)


@lru_cache(maxsize=4096)
def shows(text: str) -> frozenset[str]:
    """Names of the sums a text shows, of SHOWN; nothing for a text without numbers."""
    amounts = find_amounts(text)
    if not amounts:
        return frozenset()
    after = [text[amount.end :] for amount in amounts]
    labels = [label for label in find_labels(text) if label.serving is not None or len(label.lines) > 1]

    def said(*patterns: re.Pattern[str]) -> bool:
        return all(any(pattern.match(rest) for rest in after) for pattern in patterns)

    dough, mix = said(_FLOUR, _WATER), said(SODA, TARTAR)
    found = {
        "sum": not dough and not mix and _checkable(text),
        "label": len(labels) == 1,
        "labels": len(labels) > 1,
        "dough": dough,
        "pans": len(find_pans(text)) > 1,
        "eggs": find_eggs(text) is not None,
        "oven": find_oven(text) is not None,
        "soda and tartar": mix,
        "powder": said(POWDER),
        "amount": any(amount.unit for amount in amounts),
    }
    return frozenset(name for name, shown in found.items() if shown)


def _checkable(text: str) -> bool:
    try:
        return check_text(text) is not None
    except NoKnowledge:
        return True  # the weight of a spoonful: a density settles it
    except LevelspoonError:
        return False
