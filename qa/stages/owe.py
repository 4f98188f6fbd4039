"""What is owed to viewers: answers now possible, corrections now needed, contradictions to put right."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from qa.errors import NoKnowledge
from qa.knowledge.library import Library
from qa.records import Draft, Said

# Reasons that new knowledge can lift; a health question stays with a person whatever we learn.
LIFTED_BY_KNOWLEDGE = frozenset({"no_knowledge", "unknown_ingredient", "unsure", "conflict"})


@dataclass(frozen=True, slots=True)
class Debt:
    """Something owed: what it is, in words, and the comments it is owed to."""

    what: str
    comments: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Owed:
    """Everything owed, each list longest first."""

    answerable: tuple[Debt, ...]
    corrections: tuple[Debt, ...]
    conflicts: tuple[Debt, ...]


def owe(said: Sequence[Said], fresh: Mapping[str, Draft], library: Library) -> Owed:
    """Work out what is owed.

    Args:
        said: every comment with its stored draft and the text a person signed.
        fresh: drafts made just now, by comment id, for comments that had to be handed over before.
        library: the knowledge as it is now.
    """
    return Owed(_answerable(said, fresh), _corrections(said, library), _conflicts(said))


def _answerable(said: Sequence[Said], fresh: Mapping[str, Draft]) -> tuple[Debt, ...]:
    by_answer: dict[str, list[str]] = defaultdict(list)
    for one in said:
        new = fresh.get(one.comment.id)
        if one.signed or new is None or new.status != "drafted" or one.draft.status == "drafted":
            continue
        for match in new.matched:
            if match.answer:
                by_answer[match.answer].append(one.comment.id)
    return _debts({f"now answered by {answer}": ids for answer, ids in by_answer.items()})


def _corrections(said: Sequence[Said], library: Library) -> tuple[Debt, ...]:
    """Signed replies that lean on a fact which has changed or gone since."""
    by_fact: dict[str, list[str]] = defaultdict(list)
    for one in said:
        if not one.signed:
            continue
        for use in one.draft.facts:
            if use.version and (state := _changed(use.id, use.version, library)):
                by_fact[f"{use.id} {state} since the reply was signed"].append(one.comment.id)
    return _debts(by_fact)


def _changed(fact: str, version: str, library: Library) -> str:
    try:
        return "has changed" if library.use(fact).version != version else ""
    except NoKnowledge:
        return "is no longer in the knowledge"


def _conflicts(said: Sequence[Said]) -> tuple[Debt, ...]:
    by_episode: dict[str, list[Said]] = defaultdict(list)
    for one in said:
        if one.understood.conflict:
            by_episode[one.comment.episode].append(one)
    return _debts(
        {
            f"{episode or 'no episode'}: “{ones[0].understood.conflict}”": [one.comment.id for one in ones]
            for episode, ones in by_episode.items()
        }
    )


def _debts(by_what: Mapping[str, Sequence[str]]) -> tuple[Debt, ...]:
    ranked = sorted(by_what.items(), key=lambda pair: (-len(pair[1]), pair[0]))
    return tuple(Debt(what, tuple(dict.fromkeys(ids))) for what, ids in ranked)
