"""Teaching: what was understood of a comment as a form, and the labelled example that the corrected form makes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from qa.errors import LevelspoonError
from qa.knowledge.library import Library
from qa.outside.store import Entry
from qa.records import ASK_TYPES, KINDS, AskType, Example, Kind
from qa.text import nearest
from qa.web.sheets.comment import LONGEST_SHOWN
from qa.web.words import untangled

MORE_ROWS = 2
"""Empty rows offered for what was missed."""


@dataclass(frozen=True, slots=True)
class TeachSheet:
    """What was understood, row by row.

    Attributes:
        kinds: every kind with whether it was seen.
        mentions: words in the text and the item they were taken for.
        asks: what is asked and the items it is about, as text.
    """

    id: str
    text: str
    kinds: tuple[tuple[str, bool], ...]
    mentions: tuple[tuple[str, str], ...]
    asks: tuple[tuple[str, str], ...]


def teach_sheet(entry: Entry) -> TeachSheet:
    """The form of one comment; LevelspoonError if it was not read yet."""
    known = entry.understood
    if known is None:
        raise LevelspoonError("this comment was not read yet", "run `levelspoon draft` first")
    seen = {kind for kind, _ in known.kinds}
    mentions = [(mention.text, mention.item) for mention in known.mentions] + [("", "")] * MORE_ROWS
    asks = [(ask.type, ", ".join(ask.items)) for ask in known.asks] + [("", "")] * MORE_ROWS
    return TeachSheet(
        entry.comment.id,
        untangled(known.text[:LONGEST_SHOWN]),
        tuple((kind, kind in seen) for kind in KINDS),
        tuple(mentions),
        tuple(asks),
    )


def taught_example(entry: Entry, form: Mapping[str, Sequence[str]], library: Library) -> Example:
    """The example that a corrected form makes.

    Args:
        entry: the comment as it was understood.
        form: the lists `kind`, `words`, `item`, `ask` and `about`, row by row.
        library: the items there are.

    Raises:
        LevelspoonError: words that do not stand in the comment, or an item that is not in the larder.
    """
    known = entry.understood
    assert known is not None  # noqa: S101 - the form was made from it
    kinds = tuple(kind for kind in KINDS if kind in form.get("kind", ()))
    mentions, since = [], 0
    for words, item in zip(form.get("words", ()), form.get("item", ()), strict=False):
        if not words.strip() or not item.strip():
            continue
        start = known.text.casefold().find(words.strip().casefold(), since)
        start = start if start >= 0 else known.text.casefold().find(words.strip().casefold())
        if start < 0:
            raise LevelspoonError(f"“{words.strip()}” does not stand in the comment", "copy the words as they stand")
        mentions.append((start, start + len(words.strip()), _item(item, library)))
        since = start + len(words.strip())
    asks = []
    for ask, about in zip(form.get("ask", ()), form.get("about", ()), strict=False):
        if ask in ASK_TYPES:
            items = tuple(_item(item, library) for item in about.split(",") if item.strip())
            asks.append((ask, items))
    return _example(entry, kinds, tuple(asks), tuple(sorted(mentions)))


def not_a_question(entry: Entry) -> Example:
    """The example that says: nothing is asked here."""
    known = entry.understood
    kinds = tuple(kind for kind, _ in known.kinds if kind != "question") if known else ()
    mentions = tuple((m.start, m.end, m.item) for m in known.mentions) if known else ()
    return _example(entry, kinds or ("chatter",), (), mentions)


def _example(
    entry: Entry,
    kinds: tuple[Kind, ...],
    asks: tuple[tuple[AskType, tuple[str, ...]], ...],
    mentions: tuple[tuple[int, int, str], ...],
) -> Example:
    known, draft = entry.understood, entry.draft
    return Example(
        id=f"taught:{entry.comment.id}",
        text=known.text if known else entry.comment.text,
        voice=entry.comment.author or "taught",
        language=known.language if known else "und",
        kinds=kinds,
        asks=asks,
        mentions=mentions,
        status="no_reply" if not asks else draft.status if draft else "needs_you",
        reasons=("nothing_asked",) if not asks else draft.reasons if draft else (),
        episode=entry.comment.episode,
    )


def _item(words: str, library: Library) -> str:
    """An item by its id or its name."""
    wanted = words.strip()
    if library.has(wanted):
        return wanted
    found = library.meanings(wanted)
    if found:
        return found[0]
    near = nearest(wanted, (name.text for name, _ in library.names()))
    hint = f"did you mean {near!r}?" if near else "add it to the larder first"
    raise LevelspoonError(f"nothing in the larder is called “{wanted}”", hint)
