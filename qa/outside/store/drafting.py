"""Saving what was understood and drafted. A draft that a person has decided on is kept beside the newer one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from sqlalchemy import Connection, Engine, bindparam, delete, insert, select, update

from qa.outside.store.asking import PAGE
from qa.outside.store.codec import read_back, written
from qa.outside.store.engine import reading, writing
from qa.outside.store.records import Correction
from qa.outside.store.tables import (
    comments,
    decisions,
    draft_answers,
    draft_facts,
    drafts,
    earlier_drafts,
    topic_comments,
    topics,
    understood,
)
from qa.outside.store.taking import batches
from qa.records import Draft, Topic, Understood


def save(engine: Engine, records: Iterable[Understood], made: Iterable[Draft]) -> None:
    """Save both, each batch in one transaction; what belongs to a comment that is gone is dropped."""
    for batch in batches(records):
        with writing(engine) as connection:
            _save_understood(connection, batch)
    for batch in batches(made):
        with writing(engine) as connection:
            _save_drafts(connection, batch)


def _numbers(connection: Connection, ids: Sequence[str]) -> dict[str, tuple[int, int]]:
    """Running number and revision of stored comments, by id."""
    query = select(comments.c.id, comments.c.seq, comments.c.revision).where(comments.c.id.in_(ids))
    return {row.id: (row.seq, row.revision) for row in connection.execute(query)}


def _save_understood(connection: Connection, batch: Sequence[Understood]) -> None:
    numbers = _numbers(connection, [one.comment for one in batch])
    fresh = {numbers[one.comment][0]: one for one in batch if one.comment in numbers}
    query = select(understood.c.seq, understood.c.topic, understood.c.body).where(understood.c.seq.in_(list(fresh)))
    before = {row.seq: row for row in connection.execute(query)}
    rows = []
    for seq, one in fresh.items():
        old, body = before.get(seq), written(one)
        topic = one.topic or (old.topic if old else "")  # a comment keeps its topic until it is grouped again
        if old is None or (old.body, old.topic) != (body, topic):
            rows.append({"seq": seq, "topic": topic, "conflict": one.conflict, "body": body})
    if rows:
        connection.execute(delete(understood).where(understood.c.seq.in_([row["seq"] for row in rows])))
        connection.execute(insert(understood), rows)
    moved = [r for r in rows if r["topic"] and (r["seq"] not in before or before[r["seq"]].topic != r["topic"])]
    if moved:
        connection.execute(delete(topic_comments).where(topic_comments.c.seq.in_([row["seq"] for row in moved])))
        places = [{"seq": row["seq"], "topic": row["topic"], "place": row["seq"]} for row in moved]
        connection.execute(insert(topic_comments), places)


def _save_drafts(connection: Connection, batch: Sequence[Draft]) -> None:
    numbers = _numbers(connection, [one.comment for one in batch])
    made = {numbers[one.comment][0]: (one, written(one)) for one in batch if one.comment in numbers}
    revisions = dict(numbers.values())
    query = select(drafts).where(drafts.c.seq.in_(list(made)))
    before = {row.seq: row for row in connection.execute(query)}
    same = {seq for seq, row in before.items() if row.body == made[seq][1]}
    late = [{"s": seq, "r": revisions[seq]} for seq in same if before[seq].comment_revision != revisions[seq]]
    if late:
        connection.execute(_is_up_to_date, late)
    changed = {seq: one for seq, one in made.items() if seq not in same}
    if not changed:
        return
    replaced = {seq: row for seq, row in before.items() if seq not in same}
    _keep_decided(connection, replaced)
    rows = [
        _row(seq, one, body, replaced[seq].revision + 1 if seq in replaced else 1, revisions[seq])
        for seq, (one, body) in changed.items()
    ]
    if replaced:
        connection.execute(delete(drafts).where(drafts.c.seq.in_(list(replaced))))
        connection.execute(delete(draft_answers).where(draft_answers.c.seq.in_(list(replaced))))
    connection.execute(insert(drafts), rows)
    _index(connection, {row["seq"]: (row["revision"], changed[row["seq"]][0]) for row in rows})


_is_up_to_date = update(drafts).where(drafts.c.seq == bindparam("s")).values(comment_revision=bindparam("r"))


def _row(seq: int, one: Draft, body: str, number: int, comment_revision: int) -> dict[str, Any]:
    return {
        "seq": seq,
        "revision": number,
        "comment_revision": comment_revision,
        "status": one.status,
        "reasons": " ".join(one.reasons),
        "sureness": one.sureness,
        "body": body,
    }


def _keep_decided(connection: Connection, replaced: Mapping[int, Any]) -> None:
    """Keep the drafts a person decided on, with the facts behind them; forget the facts of the others."""
    if not replaced:
        return
    query = select(decisions.c.seq, decisions.c.draft).where(decisions.c.seq.in_(list(replaced)))
    decided = {(row.seq, row.draft) for row in connection.execute(query)}
    kept = [row for seq, row in replaced.items() if (seq, row.revision) in decided]
    if kept:
        connection.execute(
            insert(earlier_drafts), [{"seq": r.seq, "revision": r.revision, "body": r.body} for r in kept]
        )
    gone = [{"s": seq, "r": row.revision} for seq, row in replaced.items() if (seq, row.revision) not in decided]
    if gone:
        connection.execute(_forget_facts, gone)


_forget_facts = delete(draft_facts).where(draft_facts.c.seq == bindparam("s"), draft_facts.c.revision == bindparam("r"))


def _index(connection: Connection, saved: Mapping[int, tuple[int, Draft]]) -> None:
    """Write the facts and standing answers of drafts into the tables that are searched by them."""
    facts = [
        {
            "seq": seq,
            "revision": revision,
            "fact": use.id,
            "version": use.version,
            "tier": use.tier,
            "source": use.source,
        }
        for seq, (revision, one) in saved.items()
        for use in {use.id: use for use in one.facts}.values()
    ]
    answers = [
        {"seq": seq, "answer": answer}
        for seq, (_, one) in saved.items()
        for answer in dict.fromkeys(match.answer for match in one.matched if match.answer)
    ]
    if facts:
        connection.execute(insert(draft_facts), facts)
    if answers:
        connection.execute(insert(draft_answers), answers)


def earlier_drafts_of(engine: Engine, comment_id: str) -> list[Draft]:
    """The drafts a person decided on before newer ones took their place, oldest first."""
    query = (
        select(earlier_drafts.c.body)
        .join(comments, comments.c.seq == earlier_drafts.c.seq)
        .where(comments.c.id == comment_id)
        .order_by(earlier_drafts.c.revision)
    )
    with reading(engine) as connection:
        return [read_back(Draft, body) for body in connection.execute(query).scalars()]


# Topics


def save_topics(engine: Engine, known: Iterable[Topic]) -> None:
    """Put these in the place of all topics; each comment's topic follows."""
    with writing(engine) as connection:
        listed = list(known)
        connection.execute(delete(topics))
        connection.execute(delete(topic_comments))
        connection.execute(update(understood).where(understood.c.topic != "").values(topic=""))
        if listed:
            bare = [{"id": one.id, "body": written(replace(one, comments=()))} for one in listed]
            connection.execute(insert(topics), bare)
        for batch in batches((one.id, place, c) for one in listed for place, c in enumerate(one.comments)):
            numbers = _numbers(connection, [comment for _, _, comment in batch])
            rows = [
                {"topic": topic, "seq": numbers[comment][0], "place": place}
                for topic, place, comment in dict.fromkeys(batch)
                if comment in numbers
            ]
            if rows:
                connection.execute(insert(topic_comments), rows)
                connection.execute(_name_topic, [{"s": row["seq"], "t": row["topic"]} for row in rows])


_name_topic = update(understood).where(understood.c.seq == bindparam("s")).values(topic=bindparam("t"))


def all_topics(engine: Engine) -> Iterator[Topic]:
    """All topics in order of their ids, each with its comments in order."""
    with reading(engine) as connection:
        members: dict[str, list[str]] = {}
        query = (
            select(topic_comments.c.topic, comments.c.id)
            .join(comments, comments.c.seq == topic_comments.c.seq)
            .order_by(topic_comments.c.topic, topic_comments.c.place)
        )
        for topic, comment in connection.execute(query):
            members.setdefault(topic, []).append(comment)
        bodies = connection.execute(select(topics.c.id, topics.c.body).order_by(topics.c.id)).all()
    for one in bodies:
        yield replace(read_back(Topic, one.body), comments=tuple(members.get(one.id, ())))


# The tester's own list


def corrections(engine: Engine, episode: str | None) -> Iterator[Correction]:
    """Where viewers say that video and written recipe disagree, in order of arrival."""
    query = (
        select(comments.c.seq, comments.c.episode, comments.c.id, comments.c.author, understood.c.conflict)
        .join(understood, understood.c.seq == comments.c.seq)
        .where(understood.c.conflict != "")
        .order_by(comments.c.seq)
        .limit(PAGE)
    )
    if episode is not None:
        query = query.where(comments.c.episode == episode)
    last = 0
    while True:
        with reading(engine) as connection:
            rows = connection.execute(query.where(comments.c.seq > last)).all()
        yield from (Correction(row.episode, row.id, row.author, row.conflict) for row in rows)
        if len(rows) < PAGE:
            return
        last = rows[-1].seq
