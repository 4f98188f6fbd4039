"""A number that came with an edit: taken on as the tester's own, or led back to a fact.

>>> stretch("Bake for 25 minutes or so.", 9, 11)
(9, 19)
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from qa.knowledge.library import Library
from qa.records import Figure, Understood
from qa.web.sheets.slips import Slip, slips

_MOST = 12


def stretch(text: str, start: int, end: int) -> tuple[int, int]:
    """The number together with the word after it, so that the same digits elsewhere are not vouched for as well."""
    after = re.match(r"[ \u00a0]?(?:%|°[CF]?|[^\W\d_]+)", text[end : end + 40])
    return start, end + after.end() if after else end


def value_of(text: str) -> float:
    """The number a text begins with; 0 where it is written in words.

    >>> value_of("2½ cups"), value_of("1,250 g"), value_of("two eggs")
    (2.5, 1250.0, 0.0)
    """
    found = re.match(r"(\d[\d,]*(?:\.\d+)?)?([¼-¾⅐-⅞])?", text)
    whole = float((found.group(1) or "0").replace(",", "")) if found else 0.0
    return whole + (unicodedata.numeric(found.group(2)) if found and found.group(2) else 0.0)


def mine(text: str, start: int, end: int, who: str) -> Figure:
    """A number as the tester's own word."""
    start, end = stretch(text, start, end)
    shown = text[start:end]
    number = value_of(shown)
    return Figure(shown, number, number, number, "", (), f"the tester's own number{f', {who}' if who else ''}")


def cited(text: str, start: int, end: int, fact: str, library: Library) -> Figure:
    """A number led back to a fact by the tester; NoKnowledge for a fact nobody knows."""
    start, end = stretch(text, start, end)
    shown, said = text[start:end], library.use(fact)
    (slip,) = slips([fact], library)
    number = value_of(shown)
    return Figure(shown, number, number, number, "", (said.id,), f"led back by hand to {slip.title}: {slip.value}")


def without(text: str, start: int, end: int) -> str:
    """The text without a number, and without the space it leaves.

    >>> without("Bake for 25 minutes.", 9, 11)
    'Bake for minutes.'
    """
    before, after = text[:start], text[end:]
    if before.endswith(" ") and after.startswith((" ", ".", ",", ";", "")):
        before = before.rstrip(" ") + (" " if after[:1].strip() and after[:1] not in ".,;:!?" else "")
    return before + after


@dataclass(frozen=True, slots=True)
class CiteSheet:
    """Facts a number could be led back to: those of what the comment names first, or what was searched for."""

    comment: str
    number: str
    at: str
    text: str
    asked: str
    slips: tuple[Slip, ...]


def cite_sheet(
    comment: str, text: str, start: int, end: int, asked: str, understood: Understood | None, library: Library
) -> CiteSheet:
    """What can be cited for one number."""
    items = _items(asked, understood, library)
    keys = [fact.id for item in items for fact in library.facts(library.usual(item)) if fact.measure is not None]
    keys += [swap.id for item in items for swap in library.swaps_for(item)]
    shown = text[slice(*stretch(text, start, end))]
    return CiteSheet(comment, shown, f"{start}-{end}", text, asked, slips(keys[:_MOST], library))


def _items(asked: str, understood: Understood | None, library: Library) -> Sequence[str]:
    if asked.strip():
        return library.meanings(asked.strip()) or library.nearest_items(asked.strip())
    mentioned = [mention.item for mention in understood.mentions] if understood else []
    return [item for item in dict.fromkeys(mentioned) if library.has(item)]
