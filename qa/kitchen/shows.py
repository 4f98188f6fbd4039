"""Which of the trade's sums a text shows, so that an answer that works one out is given only where there is one.

>>> sorted(shows("500 g flour and 350 g water is 70 %?"))
['amount', 'sum']
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

SHOWN = (
    "sum", "label", "labels", "dough", "pans", "eggs", "oven", "gas mark", "degrees", "soda and tartar", "powder",
    "amount",
)  # fmt: skip
_LONGEST = 2_000  # characters; who writes more than a page shows no single sum
_FLOUR = re.compile(r"\bflour\b", re.IGNORECASE)
# What holds water besides water itself.
_WET = re.compile(r"\b(?:milk|buttermilk|yogh?urt|eggs?|cream|curd|quark|puree|kefir)\b(?! of tartar)", re.IGNORECASE)
_SODA = re.compile(r"\b(?:soda|bicarb(?:onate)?)\b", re.IGNORECASE)
_TARTAR = re.compile(r"\b(?:tartar|weinstein)\b", re.IGNORECASE)
_POWDER = re.compile(r"^\s?(?:of\s)?(?:baking powder|b\.?p\.?)(?!\w)", re.IGNORECASE)


@lru_cache(maxsize=4096)
def shows(text: str) -> frozenset[str]:
    """Names of the sums a text shows, of SHOWN; nothing for one without numbers or too long to be a question."""
    if len(text) > _LONGEST:
        return frozenset()
    amounts = find_amounts(text)
    if not amounts:
        return frozenset()
    labels, oven = find_labels(text), find_oven(text)
    measured = [amount for amount in amounts if amount.unit or amount.value > 12]
    several = len(measured) > 1
    dough = several and bool(_FLOUR.search(text) and _WET.search(text))
    mix = several and bool(_SODA.search(text) and _TARTAR.search(text))
    found = {
        "sum": not dough and not mix and _checkable(text),
        "label": len(labels) == 1 and "fibre" in labels[0].lines,
        "labels": len(labels) > 1 and all(label.serving is not None for label in labels[:2]),
        "dough": dough,
        "pans": len(find_pans(text)) > 1,
        "eggs": find_eggs(text) is not None,
        "oven": oven is not None,
        "gas mark": oven is not None and oven.unit == "gas_mark",
        "degrees": oven is not None and oven.unit != "gas_mark",
        "soda and tartar": mix,
        "powder": any(_POWDER.match(text[amount.end :]) for amount in amounts),
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
