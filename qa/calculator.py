"""The sums as people type them: words and the library in, figures out. Pure; commands and pages call these.

>>> from qa.knowledge.load import load_knowledge
>>> from qa.settings import shipped
>>> library, _ = load_knowledge(shipped("knowledge"))
>>> weigh("3 us tbsp ground flax", library, "")["value"]
21.0
"""

from __future__ import annotations

import re

from qa.contract import SumShape, SwapShape, sum_shape
from qa.errors import InvalidMeasure, NoKnowledge
from qa.knowledge.library import Library
from qa.measures.parse import Amount, find_amounts
from qa.measures.units import BARE, dimension, known
from qa.records import Ask, Figure
from qa.stages.compute import Asked, figure_of

_LINKING = re.compile(r"^(?:of|the|a|an)\s+", re.IGNORECASE)


def weigh(words: str, library: Library, region: str) -> SumShape:
    """Grams of "2 tbsp potato starch"; spoons and cups of "100 g potato starch in tbsp" or of a weight alone.

    Raises:
        InvalidMeasure: the words hold no amount.
        NoKnowledge: the ingredient is not known, or nobody has weighed it.
    """
    wanted, unit = _unit_wanted(words)
    amount, item = amount_of(wanted, library, region)
    asked = _asked(amount, (item,), wanted, library, region)
    if unit or (known(amount.unit) and dimension(amount.unit) == "mass"):
        found = figure_of(f"measure asked of first in {unit or 'us_tbsp'}", asked)
    else:
        found = figure_of("weigh asked of first", asked)
    return sum_shape(words.strip(), library.usual(item), found, asked.assumption)


def swap(words: str, use: str, library: Library, region: str) -> SwapShape:
    """How much of another ingredient stands in for "1 tbsp ground flax"."""
    amount, item = amount_of(words, library, region)
    other = item_of(use, library, region)
    asked = _asked(amount, (item, other), words, library, region)
    found = figure_of("swap asked of first for second", asked)
    rule = library.swap(item, other)
    assert rule is not None  # noqa: S101 - figure_of() has just used it
    ingredient, _, form = rule.use.partition(".")
    return {
        **sum_shape(words.strip(), rule.replace, found, asked.assumption),
        "for_ingredient": ingredient,
        "for_form": form,
        "changes": rule.changes,
        "holds": rule.holds,
        "not_when": rule.not_when,
        "extra": rule.extra,
    }


def weighed(amount: str, item: str, library: Library) -> Figure:
    """Grams of an amount that names its region ("1 us_tbsp") of an item, as a figure."""
    return figure_of(f"weigh {amount} of {item}", _asked(Amount(1, 1, 1, ""), (item,), "", library, ""))


def amount_of(words: str, library: Library, region: str) -> tuple[Amount, str]:
    """The amount and the item that words such as "2 tbsp potato starch" name."""
    found = find_amounts(words)
    if not found:
        raise InvalidMeasure(f"no amount in {words!r}", 'write it like "2 tbsp potato starch"')
    amount = next((a for a in found if a.unit), found[0])
    if words[: amount.start].rstrip().endswith(("-", "−")):
        raise InvalidMeasure(f"{words.strip()!r} is less than nothing", "give an amount above zero")
    rest = f"{words[: amount.start]} {words[amount.end :]}"
    if not rest.strip():
        raise NoKnowledge(f"no ingredient in {words!r}", 'write it like "2 tbsp potato starch"')
    return amount, item_of(rest, library, region)


def item_of(words: str, library: Library, region: str) -> str:
    """The item that words name, or an item's id as it is; NoKnowledge with the nearest names if there is none."""
    name = " ".join(words.split()).strip(" .,;:!?")
    while _LINKING.match(name):
        name = _LINKING.sub("", name)
    if library.has(name):
        return name
    found = library.meanings(name, region or None) or library.meanings(name.removesuffix("s"), region or None)
    if found:
        return found[0]
    near = [library.name(item, region or None) for item in library.nearest_items(name)]
    hint = f"did you mean {', '.join(dict.fromkeys(near))}?" if near else "see knowledge/ingredients"
    raise NoKnowledge(f"no ingredient is called {name!r}", hint)


def _asked(amount: Amount, items: tuple[str, ...], words: str, library: Library, region: str) -> Asked:
    ask = Ask("weight", 0, len(words), words, items, (amount,), region=region)
    return Asked(ask, library, region)


def _unit_wanted(words: str) -> tuple[str, str | None]:
    """Split "100 g honey in tbsp" into the amount and the unit asked for, if any."""
    head, joined, tail = words.rpartition(" in ")
    unit = tail.strip().replace(" ", "_")
    if joined and unit in BARE:
        return head, f"us_{unit}"
    return (head, unit) if joined and known(unit) else (words, None)
