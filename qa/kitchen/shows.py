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
from qa.kitchen.read_content import find_content
from qa.kitchen.read_labels import find_labels
from qa.kitchen.read_pans import find_eggs, find_oven, find_pans, oven_wish, scale_of
from qa.kitchen.read_shares import find_batch, find_egg_share, find_height, find_percent, find_shared
from qa.kitchen.read_turns import find_turn, has_thing
from qa.kitchen.read_yeast import find_yeasts
from qa.measures.parse import Amount, find_amounts

SHOWN = (
    "sum", "label", "labels", "dough", "plain dough", "starter dough", "bakers percentages", "pans", "eggs",
    "egg share", "oven", "gas mark", "degrees", "to celsius", "to fahrenheit", "to gas", "fan", "soda and tartar",
    "powder", "yeasts", "amount", "weights", "weight list", "measures", "measure list", "in cups", "in tablespoons",
    "in teaspoons", "in grams", "in millilitres", "in other units", "bare measure", "nutrient", "energy", "carbs",
    "percent", "dough weight", "shares", "batch", "height",
)  # fmt: skip
# Of these, the ones where both what is given and what is wanted stand in the text, so that little else can be meant.
WHOLE = frozenset(
    (
        "weights", "weight list", "measures", "measure list", "in cups", "in tablespoons", "in teaspoons", "in grams",
        "in millilitres", "in other units", "bare measure", "percent", "dough weight", "shares", "batch", "egg share",
        "eggs", "pans", "yeasts", "starter dough", "to celsius", "to fahrenheit", "to gas", "gas mark", "labels",
        "soda and tartar",
    )
)  # fmt: skip
_LONGEST = 2_000  # characters; who writes more than a page shows no single sum
_FLOUR = re.compile(r"\bflour\b", re.IGNORECASE)
# What holds water besides water itself.
_STARTER = re.compile(r"\b(?:starter|levain|leaven|sourdough)\b", re.IGNORECASE)
_WATER = re.compile(r"\bwater\b", re.IGNORECASE)
_HYDRATION = re.compile(r"\bhydrat(?:ion|ed)\b|%|\bper ?cent", re.IGNORECASE)
_BAKERS = re.compile(r"\bbaker'?s'?\s(?:percent\w*|math\w*|%)|\bpercentages\b|\bin percent\b", re.IGNORECASE)
_WHAT = re.compile(r"\bwhat(?:'?s)?\b|\bconver|\bhow hot\b|\bcomes? to\b", re.IGNORECASE)
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
        return frozenset((*_turned(text), *_content(text), *(("egg share",) if find_egg_share(text) else ())))
    labels, oven = find_labels(text), find_oven(text)
    measured = [amount for amount in amounts if amount.unit or amount.value > 12]
    several = len(measured) > 1
    floury = several and bool(_FLOUR.search(text))
    starter = floury and bool(_STARTER.search(text) and _HYDRATION.search(text))
    percentages = floury and bool(_BAKERS.search(text))
    dough = floury and not starter and bool(_WET.search(text))
    plainly = floury and not (starter or dough) and bool(_WATER.search(text) and _HYDRATION.search(text))
    mix = several and bool(_SODA.search(text) and _TARTAR.search(text))
    checkable = not (dough or mix or starter or percentages) and _checkable(text)
    found = {
        "sum": checkable,
        "label": len(labels) == 1 and "fibre" in labels[0].lines,
        "labels": len(labels) > 1 and all(label.serving is not None for label in labels[:2]),
        "dough": dough,
        "plain dough": plainly and not (percentages or checkable),
        "starter dough": starter,
        "bakers percentages": percentages,
        "yeasts": find_yeasts(text) is not None,
        "pans": len(find_pans(text)) > 1,
        "eggs": find_eggs(text) is not None,
        "oven": oven is not None,
        "gas mark": oven is not None and oven.unit == "gas_mark",
        "degrees": oven is not None and oven.unit != "gas_mark",
        "soda and tartar": mix,
        "powder": any(_POWDER.match(text[amount.end :]) for amount in amounts),
        "amount": any(amount.unit for amount in amounts),
        "shares": find_shared(text) is not None,
        "batch": find_batch(text) is not None,
        "egg share": find_egg_share(text) is not None,
        "height": find_height(text) is not None,
    }
    sums = (name for name, shown in found.items() if shown)
    return frozenset((*sums, *_turned(text), *_content(text), *_percent(text), *_oven(text, oven)))


def _turned(text: str) -> tuple[str, ...]:
    """What is to be turned into what; a measure of nothing in particular is no weight yet."""
    turn = find_turn(text)
    if turn is None:
        return ()
    if turn.kind == "units":
        unit = turn.to if len(turn.parts) == 1 else ""
        return ({"g": "in grams", "mL": "in millilitres"}.get(unit, "in other units"),)
    if not any(has_thing(text, part) for part in turn.parts):
        return ("bare measure",)
    if len(turn.parts) > 1:
        return ("weight list" if turn.kind == "weights" else "measure list",)
    if turn.kind == "weights":
        return ("weights",)
    return ({"cup": "in cups", "tbsp": "in tablespoons", "tsp": "in teaspoons"}.get(turn.to, "measures"),)


def _content(text: str) -> tuple[str, ...]:
    content = find_content(text)
    if content is None:
        return ()
    if content.nutrient == "energy":
        return ("energy",)
    return ("carbs",) if "carbohydrate" in content.nutrient else ("nutrient",)


def _percent(text: str) -> tuple[str, ...]:
    found = find_percent(text)
    return () if found is None else ("percent",) if found.of == "flour" else ("dough weight",)


def _oven(text: str, said: Amount | None) -> tuple[str, ...]:
    """The scale that an oven setting is wanted on; a bare number counts as what ovens of that scale can be set to."""
    if said is None or said.unit == "gas_mark":
        return ()
    wish = oven_wish(text, said)
    if wish:
        return (wish,)
    if not _WHAT.search(text):
        return ()
    return {"to fahrenheit": ("to celsius",), "to celsius": ("to fahrenheit",)}.get(scale_of(said), ())


def _checkable(text: str) -> bool:
    try:
        return check_text(text) is not None
    except NoKnowledge:
        return True  # the weight of a spoonful: a density settles it
    except LevelspoonError:
        return False
