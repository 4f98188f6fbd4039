"""Asking the store: comments and entries, found by index and given page by page in order of arrival."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import ColumnElement, Connection, Engine, Select, Table, exists, func, select

from qa.errors import LevelspoonError, Place
from qa.outside.store.codec import read_back
from qa.outside.store.engine import reading
from qa.outside.store.records import DECIDED, SIGNED, Decision, Entry, Waiting
from qa.outside.store.tables import comments, decisions, draft_answers, drafts, standing, topic_comments, understood
from qa.records import Comment, Draft, Figure, Understood

PAGE = 1_000


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which entries are wanted; None means whatever.

    Attributes:
        status: of the draft, one or several.
        signed: a person's word is given (sent ones too), or not.
        decided: a person signed, laid aside, answered or sent it, or not; a mere change is no decision yet.
    """

    status: str | Collection[str] | None = None
    signed: bool | None = None
    decided: bool | None = None
    episode: str | None = None
    topic: str | None = None
    answer: str | None = None


def numbers(wanted: Wanted) -> tuple[Table, Select[Any]]:
    """The running numbers of wanted comments, driven by the index that narrows most; and the table that drives."""
    statuses = (wanted.status,) if isinstance(wanted.status, str) else wanted.status
    conditions: list[tuple[Table, str, Collection[str]]] = [
        (table, column, values)
        for table, column, values in (
            (topic_comments, "topic", wanted.topic is not None and (wanted.topic,)),
            (draft_answers, "answer", wanted.answer is not None and (wanted.answer,)),
            (standing, "kind", wanted.signed and SIGNED),
            (standing, "kind", wanted.decided and DECIDED),
            (drafts, "status", statuses is not None and tuple(statuses)),
            (comments, "episode", wanted.episode is not None and (wanted.episode,)),
        )
        if values or values == ()
    ]
    driver = conditions[0][0] if conditions else comments
    query = select(driver.c.seq)
    if conditions:
        query = query.where(driver.c[conditions[0][1]].in_(conditions[0][2]))
    for table, column, values in conditions[1:]:
        query = query.where(_has(driver, table, column, values))
    if wanted.signed is False:
        query = query.where(~_has(driver, standing, "kind", SIGNED))
    if wanted.decided is False:
        query = query.where(~_has(driver, standing, "kind", DECIDED))
    return driver, query


def _has(driver: Table, table: Table, column: str, values: Collection[str]) -> ColumnElement[bool]:
    other = table.alias()
    return exists().where(other.c.seq == driver.c.seq, other.c[column].in_(values))


def entries(engine: Engine, wanted: Wanted, limit: int | None, after: str | None) -> Iterator[Entry]:
    """Wanted entries in order of arrival, at most `limit`, going on after a comment."""
    driver, query = numbers(wanted)
    query = query.order_by(driver.c.seq)
    last, left = _number_of(engine, after) if after else 0, limit
    while left is None or left > 0:
        size = PAGE if left is None else min(PAGE, left)
        with reading(engine) as connection:
            found = connection.execute(query.where(driver.c.seq > last).limit(size)).scalars().all()
            page = entries_of(connection, found)
        yield from page
        if len(found) < size:
            return
        last, left = found[-1], None if left is None else left - size


def _number_of(engine: Engine, comment_id: str) -> int:
    with reading(engine) as connection:
        return number_of(connection, comment_id)


def number_of(connection: Connection, comment_id: str) -> int:
    """The running number of a comment; LevelspoonError if it is not stored."""
    found = connection.execute(select(comments.c.seq).where(comments.c.id == comment_id)).scalar()
    if found is None:
        raise LevelspoonError(f"no comment {comment_id!r} in the store", "check the id")
    return int(found)


_everything = (
    select(
        *comments.c,
        understood.c.body.label("understood"),
        understood.c.topic,
        drafts.c.body.label("draft"),
        *(
            decisions.c[name].label(f"decision_{name}")
            for name in ("number", "kind", "text", "who", "at", "draft", "own")
        ),
    )
    .select_from(comments)
    .outerjoin(understood, understood.c.seq == comments.c.seq)
    .outerjoin(drafts, drafts.c.seq == comments.c.seq)
    .outerjoin(standing, standing.c.seq == comments.c.seq)
    .outerjoin(decisions, decisions.c.number == standing.c.decision)
)


def entries_of(connection: Connection, found: Sequence[int]) -> list[Entry]:
    """The entries with these running numbers, in their order."""
    if not found:
        return []
    rows = connection.execute(_everything.where(comments.c.seq.in_(found))).all()
    by_number = {row.seq: _entry(row) for row in rows}
    return [by_number[seq] for seq in found]


def _entry(row: Any) -> Entry:
    return Entry(
        comment_of(row),
        understood_of(row.understood, row.topic) if row.understood else None,
        read_back(Draft, row.draft) if row.draft else None,
        _decision(row) if row.decision_number else None,
    )


def comment_of(row: Any) -> Comment:
    """A comment from its row."""
    place = Place(row.file, row.line)
    return Comment(row.id, row.text, row.author, row.time, row.likes, row.parent, row.episode, place)


def understood_of(body: str, topic: str) -> Understood:
    """What was understood, with the topic it has now."""
    record = read_back(Understood, body)
    return record if record.topic == topic else replace(record, topic=topic)


def figures_of(own: str) -> tuple[Figure, ...]:
    """The numbers a person vouched for, from their column."""
    return read_back(tuple[Figure, ...], own) if own else ()


def _decision(row: Any) -> Decision:
    return Decision(
        row.decision_number,
        row.id,
        row.decision_kind,
        row.decision_text,
        row.decision_who,
        row.decision_at,
        row.decision_draft,
        figures_of(row.decision_own),
    )


def stored_comments(
    engine: Engine, *, undrafted: bool, undecided: bool, episode: str | None, ids: Sequence[str] | None
) -> Iterator[Comment]:
    """Comments in order of arrival; by ids, those that are stored, in the order of the ids."""
    if ids is not None:
        yield from _comments_by_id(engine, ids)
        return
    query = select(comments).order_by(comments.c.seq).limit(PAGE)
    if undrafted:
        fresh = exists().where(drafts.c.seq == comments.c.seq, drafts.c.comment_revision == comments.c.revision)
        query = query.where(~fresh)
    if undecided:
        query = query.where(~_has(comments, standing, "kind", DECIDED))
    if episode is not None:
        query = query.where(comments.c.episode == episode)
    last = 0
    while True:
        with reading(engine) as connection:
            rows = connection.execute(query.where(comments.c.seq > last)).all()
        yield from map(comment_of, rows)
        if len(rows) < PAGE:
            return
        last = rows[-1].seq


def _comments_by_id(engine: Engine, ids: Sequence[str]) -> Iterator[Comment]:
    for start in range(0, len(ids), PAGE):
        part = ids[start : start + PAGE]
        with reading(engine) as connection:
            found = connection.execute(select(comments).where(comments.c.id.in_(part))).all()
        by_id = {row.id: comment_of(row) for row in found}
        yield from (by_id[one] for one in part if one in by_id)


def parents_texts(engine: Engine) -> dict[str, str]:
    """The text of every comment that somebody replied to, by id."""
    asked = select(comments.c.parent).where(comments.c.parent != "")
    with reading(engine) as connection:
        rows = connection.execute(select(comments.c.id, comments.c.text).where(comments.c.id.in_(asked))).all()
    return {row.id: row.text for row in rows}


def all_understood(engine: Engine) -> Iterator[Understood]:
    """Everything understood, in order of the comments' arrival."""
    last = 0
    while True:
        query = select(understood).where(understood.c.seq > last).order_by(understood.c.seq).limit(PAGE)
        with reading(engine) as connection:
            rows = connection.execute(query).all()
        yield from (understood_of(row.body, row.topic) for row in rows)
        if len(rows) < PAGE:
            return
        last = rows[-1].seq


def counts(engine: Engine) -> tuple[int, dict[str, int], dict[str, int]]:
    """How many comments there are, how many drafts of each status, and how many for each reason."""
    by_status: Counter[str] = Counter()
    by_reason: Counter[str] = Counter()
    with reading(engine) as connection:
        total = connection.execute(select(func.count()).select_from(comments)).scalar_one()
        grouped = select(drafts.c.status, drafts.c.reasons, func.count()).group_by(drafts.c.status, drafts.c.reasons)
        for status, reasons, number in connection.execute(grouped.order_by(drafts.c.status, drafts.c.reasons)):
            by_status[status] += number
            by_reason.update(dict.fromkeys(reasons.split(), number))
    return total, dict(by_status), dict(by_reason)


def waiting(engine: Engine) -> list[Waiting]:
    """Comments whose draft asks something of a person and that nobody decided on; bodies are not read."""
    query = (
        select(comments.c.id, drafts.c.status, drafts.c.reasons, understood.c.topic)
        .select_from(drafts)
        .join(comments, comments.c.seq == drafts.c.seq)
        .outerjoin(understood, understood.c.seq == drafts.c.seq)
        .outerjoin(standing, standing.c.seq == drafts.c.seq)
        .where(drafts.c.status.in_(("drafted", "ask_back", "needs_you")))
        .where(standing.c.kind.is_(None) | standing.c.kind.not_in(DECIDED))
        .order_by(drafts.c.seq)
    )
    with reading(engine) as connection:
        rows = connection.execute(query).all()
    return [Waiting(row.id, row.status, tuple(row.reasons.split()), row.topic or "") for row in rows]


def standing_counts(engine: Engine) -> dict[str, int]:
    """How many comments stand in each way a person can leave them."""
    query = select(standing.c.kind, func.count()).group_by(standing.c.kind).order_by(standing.c.kind)
    with reading(engine) as connection:
        return {kind: int(number) for kind, number in connection.execute(query)}


def undecided(engine: Engine, ids: Sequence[str]) -> list[str]:
    """Those of these comments that nobody has decided on, in their order."""
    query = (
        select(comments.c.id)
        .outerjoin(standing, standing.c.seq == comments.c.seq)
        .where(comments.c.id.in_(ids))
        .where(standing.c.kind.is_(None) | standing.c.kind.not_in(DECIDED))
    )
    with reading(engine) as connection:
        left = set(connection.execute(query).scalars())
    return [one for one in ids if one in left]
