"""What was understood, topics, and drafts with every fact they lean on."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

Number = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def _words(name: str, *, key: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, primary_key=key, nullable=False, server_default=None if key else "")


def _of_comment() -> sa.Column[int]:
    return sa.Column("seq", Number, sa.ForeignKey("comments.seq", ondelete="CASCADE"), primary_key=True, nullable=False)


def upgrade() -> None:
    """Make the tables that drafting needs."""
    op.create_table("understood", _of_comment(), _words("topic"), _words("conflict"), _words("body"))
    op.create_index("understood_by_conflict", "understood", ["conflict"])
    op.create_table("topics", _words("id", key=True), _words("body"))
    op.create_table(
        "topic_comments", _words("topic", key=True), _of_comment(), sa.Column("place", sa.Integer, nullable=False)
    )
    op.create_index("topic_comments_by_comment", "topic_comments", ["seq"])
    op.create_table(
        "drafts",
        _of_comment(),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("comment_revision", sa.Integer, nullable=False),
        _words("status"),
        _words("reasons"),
        sa.Column("sureness", sa.Float, nullable=False),
        _words("body"),
    )
    op.create_index("drafts_by_status", "drafts", ["status", "seq"])
    op.create_index("drafts_by_reasons", "drafts", ["status", "reasons"])
    op.create_table(
        "earlier_drafts",
        _of_comment(),
        sa.Column("revision", sa.Integer, primary_key=True, nullable=False),
        _words("body"),
    )
    op.create_table(
        "draft_facts",
        _of_comment(),
        sa.Column("revision", sa.Integer, primary_key=True, nullable=False),
        _words("fact", key=True),
        _words("version"),
        _words("tier"),
        _words("source"),
    )
    op.create_index("draft_facts_by_fact", "draft_facts", ["fact", "version"])
    op.create_table("draft_answers", _of_comment(), _words("answer", key=True))
    op.create_index("draft_answers_by_answer", "draft_answers", ["answer", "seq"])
