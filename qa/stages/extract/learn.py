"""Learn the types of asks from labelled comments, on sentences in which ingredients and amounts are only signs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from qa.measures.parse import find_amounts
from qa.records import AskType, Example, Mention
from qa.similarity import Matcher
from qa.stages.extract.frames import marked, votes
from qa.text.phrases import phrases
from qa.text.sentences import pieces_of

# Fewer sentences than this teach less than the frames know.
_FEWEST = 40
_LOOKS_ASKED = phrases(
    """can | could | should | would | will | may | do | does | did | is | are | was | has | have | what* | how* |
        why | where | when | which | who | any | anyone | please | wonder* | curious | right | tell | give"""
)


@dataclass(frozen=True, slots=True)
class AskModel:
    """What was learned of ask types; without a matcher the frames decide alone."""

    matcher: Matcher | None


def learn_asks(examples: Sequence[Example]) -> AskModel:
    """Fit the types on labelled comments; the same examples give the same model."""
    sentences, types = [], []
    for example in examples:
        for sentence, kind in _taught(example):
            sentences.append(_shown(sentence))
            types.append(kind)
    enough = len(sentences) >= _FEWEST and len(set(types)) > 1
    return AskModel(Matcher().fit(sentences, types) if enough else None)


def typed(sentences: Sequence[str], model: AskModel) -> list[tuple[AskType, float]]:
    """The type of each marked sentence, and how sure it is."""
    if model.matcher is None:
        return [_by_frames(sentence) for sentence in sentences]
    matches = model.matcher.match([_shown(sentence) for sentence in sentences])
    return [(match.target, match.probability) for match in matches]


def _by_frames(sentence: str) -> tuple[AskType, float]:
    found = votes(sentence)
    return (found[0].type, 0.6) if found else ("other", 0.3)


def _shown(sentence: str) -> str:
    """A marked sentence with the frames it fills written after it as words."""
    return " ".join([sentence, *(f"frame{frame.name.title().replace(' ', '')}" for frame in votes(sentence))])


def _taught(example: Example) -> list[tuple[str, AskType]]:
    """Which sentence of a labelled comment teaches which type: in order if there are as many, else all of one type."""
    if not example.asks:
        return []
    mentions = [Mention(start, end, example.text[start:end], item) for start, end, item in example.mentions]
    amounts = find_amounts(example.text)
    spans = pieces_of(example.text)
    asking = [span for span in spans if "?" in example.text[slice(*span)]]
    asking = asking or [span for span in spans if _LOOKS_ASKED.search(example.text[slice(*span)])] or spans
    sentences = [marked(example.text, start, end, mentions, amounts) for start, end in asking]
    types = [kind for kind, _ in example.asks]
    if len(set(types)) == 1:
        return [(sentence, types[0]) for sentence in sentences]
    if len(types) == len(sentences):
        return list(zip(sentences, types, strict=True))
    return [(" ".join(sentences), types[0])] if len(types) == 1 else []
