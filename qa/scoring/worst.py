"""The mistakes to read first: what must not be answered and was, then what was wrong with the most confidence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from qa.scoring.answers import judged
from qa.scoring.measures import Row

_MOST = 30
_LONGEST = 400


class Mistake(NamedTuple):
    """One mistake, as text.

    Attributes:
        grave: 2 for a reply that must not be, 1 for a wrong answer in a reply, 0 for a wrong reading.
        sureness: how sure the program was.
        what: what kind of mistake it is.
        comment: the comment's id.
        text: its text, shortened.
        found, wanted: what was said and what the label says.
    """

    grave: int
    sureness: float
    what: str
    comment: str
    text: str
    found: str
    wanted: str


def worst(rows: Sequence[Row], most: int = _MOST) -> list[Mistake]:
    """The worst mistakes, gravest and surest first."""
    found = [*_replies(rows), *_answers(rows), *_types(rows), *_kinds(rows)]
    return sorted(found, key=lambda one: (-one.grave, -one.sureness, one.comment, one.what))[:most]


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…"


def _replies(rows: Sequence[Row]) -> Iterator[Mistake]:
    for example, _, draft in rows:
        if draft.status == "drafted" and example.status in {"needs_you", "no_reply"}:
            reply = _short(draft.reply or "")
            wanted = f"{example.status}: {', '.join(example.reasons)}"
            yield Mistake(2, draft.sureness, "must not be drafted", example.id, _short(example.text), reply, wanted)


def _answers(rows: Sequence[Row]) -> Iterator[Mistake]:
    for one in judged(rows):
        if one.match.answer and not one.right and one.row.example.status != "needs_you":
            wanted = ", ".join(one.signable) or "no standing answer would do"
            text = _short(one.row.example.text)
            yield Mistake(1, one.sureness, "wrong answer", one.row.example.id, text, one.best, wanted)


def _types(rows: Sequence[Row]) -> Iterator[Mistake]:
    for example, said, _ in rows:
        wanted = [kind for kind, _ in example.asks]
        if said.asks and wanted and said.asks[0].type not in wanted:
            first = said.asks[0]
            text = _short(example.text)
            yield Mistake(0, first.sureness, "wrong type of ask", example.id, text, first.type, ", ".join(wanted))


def _kinds(rows: Sequence[Row]) -> Iterator[Mistake]:
    for example, said, _ in rows:
        for kind, sure in said.kinds:
            if kind not in example.kinds:
                wanted = ", ".join(example.kinds)
                yield Mistake(0, sure, "wrong kind", example.id, _short(example.text), kind, wanted)
