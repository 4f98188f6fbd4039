"""The tables as they are now. `migrations/` brings any older database to this; a test holds the two together.

Every comment has a running number `seq`; everything about a comment hangs on it and goes when the comment goes.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, Float, ForeignKey, Index, Integer, MetaData, Table, Text

metadata = MetaData()
# SQLite counts up only in a column declared INTEGER.
Number = BigInteger().with_variant(Integer, "sqlite")


def _words(name: str, *, key: bool = False) -> Column[str]:
    return Column(name, Text, primary_key=key, nullable=False, server_default=None if key else "")


def _of_comment(*, key: bool = True) -> Column[int]:
    return Column("seq", Number, ForeignKey("comments.seq", ondelete="CASCADE"), primary_key=key, nullable=False)


imports = Table(
    "imports",
    metadata,
    Column("number", Number, primary_key=True),
    _words("source"),
    _words("at"),
    Column("rows_read", Integer, nullable=False),
    Column("stored", Integer, nullable=False),
    Column("already_known", Integer, nullable=False),
    Column("set_aside", Integer, nullable=False),
    Column("finished", Integer, nullable=False),
    sqlite_autoincrement=True,
)

comments = Table(
    "comments",
    metadata,
    Column("seq", Number, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    _words("text"),
    _words("author"),
    _words("time"),
    Column("likes", BigInteger, nullable=False, server_default="0"),
    _words("parent"),
    _words("episode"),
    _words("file"),
    Column("line", Integer, nullable=False),
    Column("revision", Integer, nullable=False, server_default="1"),
    Index("comments_by_episode", "episode", "seq"),
    Index("comments_by_author", "author"),
    Index("comments_by_parent", "parent"),
    sqlite_autoincrement=True,
)

earlier_texts = Table(
    "earlier_texts",
    metadata,
    Column("number", Number, primary_key=True),
    _of_comment(key=False),
    Column("revision", Integer, nullable=False),
    _words("text"),
    _words("replaced_at"),
    Index("earlier_texts_by_comment", "seq"),
    sqlite_autoincrement=True,
)

set_aside = Table(
    "set_aside",
    metadata,
    Column("number", Number, primary_key=True),
    Column("key", Text, nullable=False, unique=True),
    _words("file"),
    Column("line", Integer, nullable=False),
    _words("reason"),
    _words("content"),
    Column("read", Number, nullable=False),
    Index("set_aside_by_read", "read", "number"),
    sqlite_autoincrement=True,
)

forgotten = Table("forgotten", metadata, _words("id_hash", key=True), _words("at"))

understood = Table(
    "understood",
    metadata,
    _of_comment(),
    _words("topic"),
    _words("conflict"),
    _words("body"),
    Index("understood_by_conflict", "conflict"),
)

topics = Table("topics", metadata, _words("id", key=True), _words("body"))

topic_comments = Table(
    "topic_comments",
    metadata,
    _words("topic", key=True),
    _of_comment(),
    Column("place", Integer, nullable=False),
    Index("topic_comments_by_comment", "seq"),
)

drafts = Table(
    "drafts",
    metadata,
    _of_comment(),
    Column("revision", Integer, nullable=False),
    Column("comment_revision", Integer, nullable=False),
    _words("status"),
    _words("reasons"),
    Column("sureness", Float, nullable=False),
    _words("body"),
    Index("drafts_by_status", "status", "seq"),
    Index("drafts_by_reasons", "status", "reasons"),
)

earlier_drafts = Table(
    "earlier_drafts",
    metadata,
    _of_comment(),
    Column("revision", Integer, primary_key=True, nullable=False),
    _words("body"),
)

draft_facts = Table(
    "draft_facts",
    metadata,
    _of_comment(),
    Column("revision", Integer, primary_key=True, nullable=False),
    _words("fact", key=True),
    _words("version"),
    _words("tier"),
    _words("source"),
    Index("draft_facts_by_fact", "fact", "version"),
)

draft_answers = Table(
    "draft_answers",
    metadata,
    _of_comment(),
    _words("answer", key=True),
    Index("draft_answers_by_answer", "answer", "seq"),
)

decisions = Table(
    "decisions",
    metadata,
    Column("number", Number, primary_key=True),
    _of_comment(key=False),
    _words("kind"),
    _words("text"),
    _words("who"),
    _words("at"),
    Column("draft", Integer, nullable=False),
    Column("undoes", Number, nullable=True),
    _words("own"),
    Index("decisions_by_comment", "seq", "number"),
    sqlite_autoincrement=True,
)

standing = Table(
    "standing",
    metadata,
    _of_comment(),
    Column("decision", Number, ForeignKey("decisions.number", ondelete="CASCADE"), nullable=False),
    _words("kind"),
    Index("standing_by_kind", "kind", "seq"),
)

taught = Table("taught", metadata, _words("id", key=True), _words("voice"), _words("at"), _words("body"))
