"""Extract: ingredients with form and amount, asks with what they are about, region, cautions and recipe conflicts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from qa.knowledge.library import Library
from qa.measures.parse import Amount, find_amounts
from qa.records import Ask, Cleaned, Comment, Mention, Piece, Understood, kinds_of
from qa.settings import Settings
from qa.stages.extract import dangers
from qa.stages.extract.asks import Asked, asked, dish_of, items_of, symptom_of
from qa.stages.extract.learn import AskModel, learn_asks
from qa.stages.extract.names import NameIndex, find_mentions, index_of
from qa.stages.extract.region import region_of

__all__ = ["AskModel", "extract", "learn_asks"]

# An amount belongs to a name that follows it, or that it follows, within this many characters.
_REACH_BEFORE, _REACH_AFTER = 24, 12


def extract(
    cleaned: Sequence[Cleaned],
    pieces: Sequence[tuple[Piece, ...]],
    comments: Sequence[Comment],
    library: Library,
    settings: Settings,
    model: AskModel,
) -> list[Understood]:
    """What each comment says and asks; parents are looked up among the comments of the batch.

    Args:
        cleaned: repaired texts.
        pieces: their sentences with kinds.
        comments: as received, for episode and parent.
        library: names, episodes and cautions.
        settings: how alike a misspelt name must be.
        model: the learned types of asks.
    """
    index = index_of(library.knowledge.ingredients, settings.similar_spelling)
    texts = {one.comment: one.text for one in cleaned}
    return [
        _understood(one, own, texts.get(comment.parent, ""), index, library, model)
        for one, own, comment in zip(cleaned, pieces, comments, strict=True)
    ]


def _understood(
    one: Cleaned, pieces: tuple[Piece, ...], parent: str, index: NameIndex, library: Library, model: AskModel
) -> Understood:
    text, kinds = one.text, kinds_of(pieces)
    region = region_of(text)
    amounts = find_amounts(text)
    mentions = _with_amounts(text, find_mentions(text, one.language, region, index), amounts)
    medical = bool(dangers.MEDICAL.search(text))
    found = [
        _ask(part, text, mentions, amounts, region, medical) for part in asked(text, pieces, mentions, amounts, model)
    ]
    if parent:
        found = _from_parent(found, find_mentions(parent, one.language, region_of(parent), index))
    held = {kind for kind, _ in kinds}
    advises = held & {"tip", "result"} or not held & {"question", "thanks", "complaint", "spam"}
    unsafe = dangers.unsafe_tips(text, library.knowledge.cautions) if advises else ()
    conflict = dangers.recipe_conflict(text) if held & {"question", "complaint"} else ""
    return Understood(one.comment, text, one.language, kinds, pieces, tuple(mentions), tuple(found), region, "", unsafe,
                      conflict)  # fmt: skip


def _ask(
    part: Asked, text: str, mentions: Sequence[Mention], amounts: Sequence[Amount], region: str, medical: bool
) -> Ask:
    said = text[part.start : part.end]
    return Ask(
        type=part.type,
        start=part.start,
        end=part.end,
        text=said,
        items=items_of(part, text, mentions, amounts),
        amounts=tuple(a for a in amounts if part.start <= a.start and a.end <= part.end),
        dish=dish_of(said, text),
        symptom=symptom_of(part.type, text),
        region=region,
        medical=medical,
        sureness=part.sureness,
    )


def _from_parent(asks: list[Ask], mentions: Sequence[Mention]) -> list[Ask]:
    """An ask without an ingredient is about those of the comment it replies to."""
    items = tuple(dict.fromkeys(m.item for m in mentions))[:2]
    return [ask if ask.items or not items else replace(ask, items=items) for ask in asks]


def _with_amounts(text: str, mentions: list[Mention], amounts: Sequence[Amount]) -> list[Mention]:
    """Give each amount to the ingredient it is said about: "2 tbsp of chia", "chia (2 tbsp)"."""
    found = list(mentions)
    for amount in amounts:
        place = _owner(text, found, amount)
        if place is not None and found[place].amount is None:
            found[place] = replace(found[place], amount=amount)
    return found


def _owner(text: str, mentions: Sequence[Mention], amount: Amount) -> int | None:
    after = next((i for i, m in enumerate(mentions) if m.start >= amount.end), None)
    if after is not None and mentions[after].start - amount.end <= _REACH_BEFORE:
        between = text[amount.end : mentions[after].start]
        if not any(mark in between for mark in ".,;?!\n"):
            return after
    before = next((i for i in reversed(range(len(mentions))) if mentions[i].end <= amount.start), None)
    if before is not None and 0 <= amount.start - mentions[before].end <= _REACH_AFTER:
        return before
    return None
