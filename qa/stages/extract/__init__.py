"""Extract: ingredients with form and amount, asks with what they are about, region, cautions and recipe conflicts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from qa.knowledge.library import Library
from qa.knowledge.limits import MEDICAL, alarming, motive_only
from qa.measures.parse import Amount, find_amounts
from qa.records import Ask, Cleaned, Comment, Mention, Piece, Understood, kinds_of
from qa.settings import Settings
from qa.stages.extract import dangers
from qa.stages.extract.asks import TAKE_TWO, Asked, amounts_of, asked, asking, items_of
from qa.stages.extract.dishes import dish_of, symptom_of
from qa.stages.extract.frames import marked
from qa.stages.extract.index import NameIndex, index_of
from qa.stages.extract.learn import AskModel, Question, Typed, learn_asks, typed
from qa.stages.extract.names import find_mentions
from qa.stages.extract.region import region_of
from qa.stages.extract.shown import Shown, replaced_by, shown_in, under
from qa.text.pairs import names_only_used

__all__ = ["AskModel", "extract", "learn_asks"]

# An amount belongs to a name that follows it, or that it follows, within this many characters.
_REACH_BEFORE, _REACH_AFTER = 24, 12
# How sure a question is that only its grammar and its gravity tell.
_SURE_OF_WORRY = 0.6


def extract(
    cleaned: Sequence[Cleaned],
    pieces: Sequence[tuple[Piece, ...]],
    comments: Sequence[Comment],
    library: Library,
    settings: Settings,
    model: AskModel,
    parents: Mapping[str, str] = MappingProxyType({}),
) -> list[Understood]:
    """What each comment says and asks.

    Args:
        cleaned: repaired texts.
        pieces: their sentences with kinds.
        comments: as received, for episode and parent.
        library: names, episodes and cautions.
        settings: how alike a misspelt name must be.
        model: the learned types of asks.
        parents: texts that others reply to, by id; those of the batch need not be given.
    """
    index = index_of(library.knowledge.ingredients, settings.similar_spelling)
    texts = {one.comment: one.text for one in cleaned}
    shown = {one.id: shown_in(one, index) for one in library.knowledge.episodes}
    found = [
        _said(one, own, texts.get(c.parent) or parents.get(c.parent, ""), shown.get(c.episode, Shown()), index)
        for one, own, c in zip(cleaned, pieces, comments, strict=True)
    ]
    types = iter(typed([question for said in found for question in said.marked], model))
    return [_understood(said, [next(types) for _ in said.marked], library) for said in found]


@dataclass(frozen=True, slots=True)
class _Said:
    """What stands in a comment, before its questions are typed.

    Attributes:
        questions: the sentences that ask, with their sureness.
        marked: the same with ingredients and amounts as signs.
        above: what the comment it replies to mentions.
        shown: what the upload it stands under shows.
    """

    one: Cleaned
    pieces: tuple[Piece, ...]
    region: str
    amounts: list[Amount]
    mentions: list[Mention]
    questions: list[tuple[Piece, float]]
    marked: list[Question]
    above: list[Mention]
    shown: Shown


def _said(one: Cleaned, pieces: tuple[Piece, ...], parent: str, shown: Shown, index: NameIndex) -> _Said:
    text = one.text
    questions = sorted(
        [*_without_motives(asking(pieces)), *((piece, _SURE_OF_WORRY) for piece in dangers.worries(pieces, text))],
        key=lambda q: q[0].start,
    )
    mentions, amounts = find_mentions(text, one.language, "", index), find_amounts(text)
    region = ""
    if questions or any(mention.others for mention in mentions):  # else nobody needs to know
        region = region_of(text)
        mentions = find_mentions(text, one.language, region, index) if region else mentions
    mentions = _with_amounts(text, mentions, amounts)
    whole = marked(text, 0, len(text), mentions, amounts) if questions else ""
    sentences = [
        Question(marked(text, piece.start, piece.end, mentions, amounts), whole, text) for piece, _ in questions
    ]
    above = find_mentions(parent, one.language, region, index) if parent and questions else []
    return _Said(one, pieces, region, amounts, mentions, questions, sentences, above, shown)


def _without_motives(questions: list[tuple[Piece, float]]) -> list[tuple[Piece, float]]:
    """Questions without what only tells why they are asked ("coeliac here"), as far as a plain question is left."""
    asked_for = [question for question in questions if not motive_only(question[0].text)]
    return asked_for or questions


def _understood(said: _Said, types: Sequence[Typed], library: Library) -> Understood:
    one, text, kinds = said.one, said.one.text, kinds_of(said.pieces)
    medical = bool(said.questions) and bool(MEDICAL.search(text))
    held = {kind for kind, _ in kinds}
    unsafe = () if "spam" in held else dangers.unsafe_tips(text, said.pieces, library.knowledge.cautions)
    parts = asked(text, said.questions, [question.sentence for question in said.marked], types)
    if unsafe and not any(dangers.asks_anywhere(piece) or alarming(piece.text) for piece in said.pieces):
        parts = []  # a tip that sounds like a question to the sorter
    asks = [_ask(part, said, medical, library) for part in parts]
    return Understood(
        comment=one.comment,
        text=text,
        language=one.language,
        kinds=kinds,
        pieces=said.pieces,
        mentions=tuple(said.mentions),
        asks=tuple(under(_from_parent(asks, said.above), said.shown)),
        region=said.region,
        unsafe=unsafe,
        conflict=dangers.recipe_conflict(text) if held & {"question", "complaint"} else "",
    )


def _ask(part: Asked, said: _Said, medical: bool, library: Library) -> Ask:
    text = said.one.text
    sentence = text[part.start : part.end]
    return Ask(
        type=part.type,
        start=part.start,
        end=part.end,
        text=sentence,
        items=_items(part, said, library),
        amounts=amounts_of(part, text, said.amounts),
        dish=dish_of(sentence, text),
        symptom=symptom_of(part.type, text),
        region=said.region,
        medical=medical,
        sureness=part.sureness,
        context=text if text != sentence else "",
        others=part.others,
    )


def _items(part: Asked, said: _Said, library: Library) -> tuple[str, ...]:
    """What is asked about; where only what to use is named, what the episode's recipe has in its place comes first."""
    items = items_of(part, said.one.text, said.mentions, said.amounts)
    if part.type != "swap" or len(items) != 1 or not said.shown.items:
        return items
    sentence = marked(said.one.text, part.start, part.end, said.mentions, said.amounts)
    replaced = replaced_by(items[0], said.shown.items, library) if names_only_used(sentence) else ""
    return (replaced, *items) if replaced else items


def _from_parent(asks: list[Ask], mentions: Sequence[Mention]) -> list[Ask]:
    """An ask without an ingredient is about that of the comment it replies to, or about two where it takes two."""
    items = tuple(dict.fromkeys(m.item for m in mentions))
    return [
        replace(ask, items=items) if not ask.items and 0 < len(items) <= 1 + (ask.type in TAKE_TWO) else ask
        for ask in asks
    ]


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
