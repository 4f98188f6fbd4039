"""A person's decisions: a log that only grows, and what stands of it, so that undo has no end."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from typing import Any

from sqlalchemy import Connection, Engine, delete, exists, insert, select

from qa.errors import LevelspoonError, StaleDraft
from qa.outside.store.asking import PAGE, entries_of, figures_of, number_of
from qa.outside.store.codec import read_back, written
from qa.outside.store.engine import new_number, reading, writing
from qa.outside.store.records import SIGNED, Decision, DecisionKind, Entry
from qa.outside.store.tables import comments, decisions, draft_facts, drafts, earlier_drafts, standing
from qa.records import Draft, Figure
from qa.text import storable


def seen_hash(text: str) -> str:
    """The hash a page sends back of the text it showed: SHA-256, here of the example in FIPS 180-4.

    >>> seen_hash("abc")[:16]
    'ba7816bf8f01cfea'
    """
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def decide(  # noqa: PLR0913  (what a decision consists of)
    engine: Engine,
    comment_id: str,
    kind: DecisionKind,
    *,
    text: str | None = None,
    seen: str | None = None,
    standing: int | None = None,
    own: Sequence[Figure] | None = None,
    who: str = "",
    at: str = "",
) -> Decision:
    """Write one decision into the log; it is on the disk when this returns.

    With `seen`, StaleDraft if the text in hand is no longer the one that was shown; with `standing`, if another
    decision than that stands now (0 for none). With no text, the one in hand; with no `own` numbers, those that stood.
    """
    with writing(engine) as connection:
        seq = number_of(connection, comment_id)
        (entry,) = entries_of(connection, [seq])
        _check_standing(entry, standing)
        if seen is not None:
            _check_seen(connection, seq, entry, seen)
        if kind == "signed" and not (text or entry.text).strip():
            raise LevelspoonError(f"there is no text to sign for {comment_id!r}", "write one first")
        if kind == "sent" and not entry.signed:
            raise LevelspoonError(f"the reply to {comment_id!r} is not signed", "sign it first")
        words = entry.text if text is None and kind in {"signed", "sent"} else storable(text or "")
        revision = _revision(connection, seq, entry, kind)
        vouched = tuple(own) if own is not None else entry.decision.own if entry.decision is not None else ()
        row = {"seq": seq, "kind": kind, "text": words, "who": who, "at": at, "draft": revision}
        number = new_number(connection, insert(decisions).values(**row, own=written(vouched) if vouched else ""))
        _let_stand(connection, seq, number, kind)
        return Decision(number, comment_id, kind, words, who, at, revision, vouched)


def _check_standing(entry: Entry, standing: int | None) -> None:
    now = entry.decision
    if standing is None or standing == (now.number if now is not None else 0):
        return
    words = {"signed": "signed it", "sent": "sent it", "laid_aside": "laid it aside", "changed": "changed its wording"}
    done = words.get(now.kind, "answered it") if now is not None else "took a decision about it back"
    who = (now.who if now is not None else "") or "somebody"
    raise StaleDraft(f"{who} {done} since you opened it", "look at it again")


def _check_seen(connection: Connection, seq: int, entry: Entry, seen: str) -> None:
    shown = [entry.text]
    if entry.draft is not None and entry.draft.reply is None and entry.decision is None:
        shown.append(entry.draft.part or "")  # what a page offers where one ask could be answered and another not
    if seen not in map(seen_hash, shown):
        raise StaleDraft(f"the reply to {entry.comment.id!r} changed since it was shown", "look at it again, then sign")
    query = (
        select(drafts.c.seq)
        .join(comments, comments.c.seq == drafts.c.seq)
        .where(drafts.c.seq == seq, drafts.c.comment_revision != comments.c.revision)
    )
    if connection.execute(query).first():
        raise StaleDraft(f"comment {entry.comment.id!r} was changed by its writer since the draft", "draft it again")


def _revision(connection: Connection, seq: int, entry: Entry, kind: DecisionKind) -> int:
    """The draft a decision is about: the present one, but for sending the one that was signed."""
    if kind == "sent" and entry.decision is not None:
        return entry.decision.draft
    return int(connection.execute(select(drafts.c.revision).where(drafts.c.seq == seq)).scalar() or 0)


def _let_stand(connection: Connection, seq: int, number: int | None, kind: str) -> None:
    connection.execute(delete(standing).where(standing.c.seq == seq))
    if number is not None:
        connection.execute(insert(standing).values(seq=seq, decision=number, kind=kind))


def undo(engine: Engine, comment_id: str, who: str, at: str, standing: int | None = None) -> Decision | None:
    """Take the standing decision back; the one that stands then. LevelspoonError if nothing is left to undo."""
    with writing(engine) as connection:
        seq = number_of(connection, comment_id)
        _check_standing(entries_of(connection, [seq])[0], standing)
        stack = _stack(log_of(connection, seq))
        if not stack:
            raise LevelspoonError(f"nothing to undo for {comment_id!r}", "")
        undone = stack.pop()
        row = {"seq": seq, "kind": "undone", "text": "", "who": who, "at": at, "draft": undone.draft}
        connection.execute(insert(decisions).values(**row, undoes=undone.number))
        left = stack[-1] if stack else None
        _let_stand(connection, seq, left.number if left else None, left.kind if left else "")
        return decision_of(comment_id, left) if left else None


def log_of(connection: Connection, seq: int) -> list[Any]:
    """All rows of the log about one comment, oldest first."""
    return list(connection.execute(select(decisions).where(decisions.c.seq == seq).order_by(decisions.c.number)).all())


def _stack(log: list[Any]) -> list[Any]:
    """The decisions that were not undone, oldest first."""
    undone = {row.undoes for row in log if row.undoes is not None}
    return [row for row in log if row.undoes is None and row.number not in undone]


def decision_of(comment_id: str, row: Any) -> Decision:
    """A decision from its row in the log."""
    return Decision(row.number, comment_id, row.kind, row.text, row.who, row.at, row.draft, figures_of(row.own))


def history(engine: Engine, comment_id: str) -> list[Decision]:
    """Every decision about a comment that was not undone, oldest first."""
    with reading(engine) as connection:
        return [decision_of(comment_id, row) for row in _stack(log_of(connection, number_of(connection, comment_id)))]


def recent(engine: Engine, who: str, most: int) -> list[Decision]:
    """The last decisions of a person that were not undone, newest first."""
    undoing = decisions.alias()
    query = (
        select(decisions, comments.c.id)
        .join(comments, comments.c.seq == decisions.c.seq)
        .where(decisions.c.who == who, decisions.c.undoes.is_(None))
        .where(~exists().where(undoing.c.seq == decisions.c.seq, undoing.c.undoes == decisions.c.number))
        .order_by(decisions.c.number.desc())
        .limit(most)
    )
    with reading(engine) as connection:
        return [decision_of(row.id, row) for row in connection.execute(query)]


def leaning_on(engine: Engine, fact: str, version: str | None, but_not: str | None) -> Iterator[Entry]:
    """Signed and sent replies that lean on a fact, each with the draft that was signed."""
    query = (
        select(standing.c.seq, decisions.c.draft)
        .join(decisions, decisions.c.number == standing.c.decision)
        .join(draft_facts, (draft_facts.c.seq == standing.c.seq) & (draft_facts.c.revision == decisions.c.draft))
        .where(draft_facts.c.fact == fact, standing.c.kind.in_(SIGNED))
        .order_by(standing.c.seq)
        .limit(PAGE)
    )
    if version is not None:
        query = query.where(draft_facts.c.version == version)
    if but_not is not None:
        query = query.where(draft_facts.c.version != but_not)
    last = 0
    while True:
        with reading(engine) as connection:
            found = connection.execute(query.where(standing.c.seq > last)).all()
            page = [_as_signed(connection, row.seq, row.draft) for row in found]
        yield from page
        if len(found) < PAGE:
            return
        last = found[-1].seq


def _as_signed(connection: Connection, seq: int, revision: int) -> Entry:
    (entry,) = entries_of(connection, [seq])
    query = select(earlier_drafts.c.body).where(earlier_drafts.c.seq == seq, earlier_drafts.c.revision == revision)
    earlier = connection.execute(query).scalar()
    draft = read_back(Draft, earlier) if earlier else entry.draft
    return Entry(entry.comment, entry.understood, draft, entry.decision)
