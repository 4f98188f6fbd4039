"""Taking rows in: batch by batch, each batch one transaction with its own count, so a kill loses nothing reported."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

from sqlalchemy import Connection, Engine, bindparam, insert, select, update

from qa.errors import Place
from qa.outside.store.engine import new_number, reading, writing
from qa.outside.store.records import ReadCount
from qa.outside.store.tables import comments, earlier_texts, forgotten, imports, set_aside
from qa.records import Comment, SetAside

BATCH = 2_000
"""Rows to a transaction."""
_KEPT_UP = ("author", "time", "likes", "parent", "episode")
"""Columns that follow the newest export while the text stays the same."""


def batches(rows: Iterable[Any], size: int = BATCH) -> Iterator[list[Any]]:
    """Rows in lists of a size, the last one shorter."""
    source = iter(rows)
    while batch := list(islice(source, size)):
        yield batch


def take_in(
    engine: Engine,
    rows: Iterable[Comment | SetAside],
    source: str,
    now: str,
    progress: Callable[[int], None] | None,
) -> ReadCount:
    """Store rows; `progress` hears of a number only once that many rows are safe on the disk."""
    with writing(engine) as connection:
        start = {"source": source, "at": now, "rows_read": 0, "stored": 0, "already_known": 0, "set_aside": 0}
        number = new_number(connection, insert(imports).values(**start, finished=0))
    count = ReadCount(0, 0, 0, 0, number)
    for batch in batches(rows):
        with writing(engine) as connection:
            count = _added(count, *_take_batch(connection, batch, now, number))
            _note(connection, count, finished=False)
        if progress:
            progress(count.rows_read)
    with writing(engine) as connection:
        _note(connection, count, finished=True)
    return count


def _added(count: ReadCount, stored: int, known: int, aside: int) -> ReadCount:
    return ReadCount(
        count.rows_read + stored + known + aside,
        count.stored + stored,
        count.already_known + known,
        count.set_aside + aside,
        count.number,
    )


def _note(connection: Connection, count: ReadCount, *, finished: bool) -> None:
    connection.execute(
        update(imports)
        .where(imports.c.number == count.number)
        .values(
            rows_read=count.rows_read,
            stored=count.stored,
            already_known=count.already_known,
            set_aside=count.set_aside,
            finished=int(finished),
        )
    )


def _take_batch(
    connection: Connection, batch: Sequence[Comment | SetAside], now: str, read: int
) -> tuple[int, int, int]:
    """Store one batch; how many were stored, already known, set aside."""
    asides = [row for row in batch if isinstance(row, SetAside)]
    _keep_asides(connection, asides, read)
    arrived = [row for row in batch if isinstance(row, Comment)]
    gone = _gone(connection, arrived)
    welcome = [row for row in arrived if row.id not in gone]
    stored = _keep_comments(connection, welcome, now)
    return stored, len(arrived) - stored, len(asides)


def _keep_comments(connection: Connection, arrived: Sequence[Comment], now: str) -> int:
    found = connection.execute(_known, {"ids": [comment.id for comment in arrived]}).mappings()
    known: dict[str, Mapping[str, Any]] = {row["id"]: dict(row) for row in found}
    new: dict[str, dict[str, Any]] = {}
    again: list[Comment] = []
    for comment in arrived:
        if comment.id in known or comment.id in new:
            again.append(comment)
        else:
            new[comment.id] = _row(comment)
    if new:
        connection.execute(insert(comments), list(new.values()))
    return len(new) + _keep_changes(connection, again, known, new, now)


_known = select(
    comments.c.seq, comments.c.id, comments.c.text, comments.c.revision, *(comments.c[name] for name in _KEPT_UP)
).where(comments.c.id.in_(bindparam("ids", expanding=True)))


def _row(comment: Comment) -> dict[str, Any]:
    return {
        "id": comment.id,
        "text": comment.text,
        "author": comment.author,
        "time": comment.time,
        "likes": comment.likes,
        "parent": comment.parent,
        "episode": comment.episode,
        "file": comment.place.file,
        "line": comment.place.line,
    }


def _keep_changes(
    connection: Connection,
    again: Sequence[Comment],
    known: Mapping[str, Mapping[str, Any]],
    new: Mapping[str, Mapping[str, Any]],
    now: str,
) -> int:
    """Bring known comments up to date; the text that was is kept. How many got a new text."""
    changed = 0
    for comment in again:
        before = known.get(comment.id) or new[comment.id]
        differs = comment.text != before["text"]
        if differs or comment.id not in known:
            changed += _revise(connection, comment, now)
            continue
        fresh = {name: value for name in _KEPT_UP if (value := getattr(comment, name)) and value != before[name]}
        if fresh:
            connection.execute(update(comments).where(comments.c.seq == before["seq"]).values(**fresh))
    return changed


def _revise(connection: Connection, comment: Comment, now: str) -> int:
    """Put a comment's new text in the place of the old, which is kept; 0 if it is the same after all."""
    row = connection.execute(
        select(comments.c.seq, comments.c.text, comments.c.revision).where(comments.c.id == comment.id)
    ).one()
    if row.text == comment.text:
        return 0
    connection.execute(insert(earlier_texts).values(seq=row.seq, revision=row.revision, text=row.text, replaced_at=now))
    fresh = {name: value for name in _KEPT_UP if (value := getattr(comment, name))}
    connection.execute(
        update(comments)
        .where(comments.c.seq == row.seq)
        .values(
            text=comment.text,
            revision=row.revision + 1,
            file=comment.place.file,
            line=comment.place.line,
            **fresh,
        )
    )
    return 1


def id_hash(comment_id: str) -> str:
    """What is kept of a forgotten comment: enough to know it again, nothing to read."""
    return hashlib.sha256(comment_id.encode("utf-8", "surrogatepass")).hexdigest()


def _gone(connection: Connection, arrived: Sequence[Comment]) -> frozenset[str]:
    """Ids of comments whose viewer asked to be forgotten; they count as already known and do not come back."""
    if connection.execute(select(forgotten.c.id_hash).limit(1)).first() is None:
        return frozenset()
    hashes = {id_hash(comment.id): comment.id for comment in arrived}
    found = connection.execute(select(forgotten.c.id_hash).where(forgotten.c.id_hash.in_(list(hashes)))).scalars()
    return frozenset(hashes[one] for one in found)


def _aside_key(row: SetAside) -> str:
    parts = "\x1f".join((row.place.file, str(row.place.line), row.reason, row.content))
    return hashlib.sha256(parts.encode("utf-8", "surrogatepass")).hexdigest()


def _keep_asides(connection: Connection, rows: Sequence[SetAside], read: int) -> None:
    """Keep set-aside rows once each; one that was there before is noted as seen in this read."""
    if not rows:
        return
    keyed = {_aside_key(row): row for row in rows}
    seen = set(connection.execute(select(set_aside.c.key).where(set_aside.c.key.in_(list(keyed)))).scalars())
    if seen:
        connection.execute(update(set_aside).where(set_aside.c.key.in_(list(seen))).values(read=read))
    fresh = [
        {
            "key": key,
            "file": row.place.file,
            "line": row.place.line,
            "reason": row.reason,
            "content": row.content,
            "read": read,
        }
        for key, row in keyed.items()
        if key not in seen
    ]
    if fresh:
        connection.execute(insert(set_aside), fresh)


def asides(engine: Engine, read: int | None, after: int) -> Iterator[SetAside]:
    """Rows set aside, in order of arrival: of one read if it is named, without the first `after`."""
    last = 0
    skip = after
    while True:
        query = (
            select(set_aside).where(set_aside.c.number > last).order_by(set_aside.c.number).limit(BATCH).offset(skip)
        )
        if read is not None:
            query = query.where(set_aside.c.read == read)
        with reading(engine) as connection:
            rows = connection.execute(query).all()
        if not rows:
            return
        yield from (SetAside(Place(row.file, row.line), row.reason, row.content) for row in rows)
        last, skip = rows[-1].number, 0
