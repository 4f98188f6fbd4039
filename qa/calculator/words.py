"""From words as people type them to amounts and items."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount, find_amounts
from qa.records import Ask
from qa.stages.compute import Asked
from qa.stages.compute.leavens import mass_of

Found = TypeVar("Found")
_LINKING = re.compile(r"^(?:of|the|a|an)\s+", re.IGNORECASE)


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


def asked_of(words: str, amounts: tuple[Amount, ...], items: tuple[str, ...], library: Library, region: str) -> Asked:
    """What the verbs of an answer's figures work from, made from words typed as a command."""
    return Asked(Ask("check", 0, len(words), words, items, amounts, region=region), library, region)


def grams_of(words: str, library: Library, region: str) -> tuple[Measure, str, Asked]:
    """Grams of "1 cup sugar" with the item and what was assumed on the way."""
    amount, item = amount_of(words, library, region)
    asked = asked_of(words, (amount,), (item,), library, region)
    return plainly(lambda: mass_of(asked, "asked", asked.item("first"))), asked.item("first"), asked


def plainly(work: Callable[[], Found]) -> Found:
    """Run a sum; what an ask lacks is a wrong amount where somebody typed a command."""
    try:
        return work()
    except Missing as lack:
        raise InvalidMeasure(lack.message, lack.remedy or 'write it like "2 tbsp potato starch"') from lack
