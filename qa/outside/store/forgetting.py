"""Forgetting a viewer: everything of theirs goes. A hash of each id stays, so that re-reading brings nothing back."""

from __future__ import annotations

import re

from sqlalchemy import Connection, Engine, delete, func, insert, or_, select, update

from qa.outside.store.engine import writing
from qa.outside.store.tables import comments, forgotten, set_aside, taught
from qa.outside.store.taking import BATCH, batches, id_hash


def forget(engine: Engine, author: str, now: str) -> int:
    """Remove a viewer from the whole store; how many comments went.

    Their comments go with all that hangs on them: earlier texts, what was understood, drafts, decisions, places in
    topics, taught examples. Set-aside rows that name them lose their content. What other viewers wrote stays as it is.
    """
    names = _spellings(author)
    if not names:
        return 0
    gone = 0
    with writing(engine) as connection:
        found = select(comments.c.seq, comments.c.id).where(func.lower(comments.c.author).in_(names))
        for batch in batches(connection.execute(found).all()):
            ids = [row.id for row in batch]
            _remember(connection, ids, now)
            connection.execute(delete(taught).where(taught.c.id.in_(ids)))
            connection.execute(delete(comments).where(comments.c.seq.in_([row.seq for row in batch])))
            gone += len(batch)
        connection.execute(delete(taught).where(func.lower(taught.c.voice).in_(names)))
        _blank_asides(connection, names)
    if engine.dialect.name == "sqlite":
        _clear_log(engine)
    return gone


def _spellings(author: str) -> list[str]:
    """A handle with and without its @, in lower case.

    >>> _spellings("@Oat_Fan")
    ['oat_fan', '@oat_fan']
    """
    bare = author.strip().lower().removeprefix("@")
    return [bare, f"@{bare}"] if bare else []


def _remember(connection: Connection, ids: list[str], now: str) -> None:
    hashes = {id_hash(one) for one in ids}
    known = set(connection.execute(select(forgotten.c.id_hash).where(forgotten.c.id_hash.in_(hashes))).scalars())
    if fresh := [{"id_hash": one, "at": now} for one in hashes - known]:
        connection.execute(insert(forgotten), fresh)


def _blank_asides(connection: Connection, names: list[str]) -> None:
    """Empty set-aside rows that name the viewer; their key stays, so that reading the file again adds nothing."""
    whole = re.compile(rf"(?<!\w){re.escape(names[0])}(?!\w)", re.IGNORECASE)
    about = or_(
        *(func.lower(set_aside.c[column]).contains(names[0], autoescape=True) for column in ("content", "reason"))
    )
    rows = connection.execute(select(set_aside.c.number, set_aside.c.content, set_aside.c.reason).where(about)).all()
    hits = [row.number for row in rows if whole.search(row.content) or whole.search(row.reason)]
    for start in range(0, len(hits), BATCH):
        part = set_aside.c.number.in_(hits[start : start + BATCH])
        connection.execute(update(set_aside).where(part).values(content="", reason="forgotten"))


def _clear_log(engine: Engine) -> None:
    """Empty SQLite's write-ahead log, which still holds pages from before."""
    raw = engine.raw_connection()
    try:
        raw.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")
    finally:
        raw.close()
