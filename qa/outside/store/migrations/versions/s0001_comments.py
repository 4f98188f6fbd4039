"""Comments as received, their earlier texts, reads, and rows set aside."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

Number = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def _words(name: str, *, key: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, primary_key=key, nullable=False, server_default=None if key else "")


def upgrade() -> None:
    """Make the tables that reading needs."""
    op.create_table(
        "imports",
        sa.Column("number", Number, primary_key=True),
        _words("source"),
        _words("at"),
        sa.Column("rows_read", sa.Integer, nullable=False),
        sa.Column("stored", sa.Integer, nullable=False),
        sa.Column("already_known", sa.Integer, nullable=False),
        sa.Column("set_aside", sa.Integer, nullable=False),
        sa.Column("finished", sa.Integer, nullable=False),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "comments",
        sa.Column("seq", Number, primary_key=True),
        sa.Column("id", sa.Text, nullable=False, unique=True),
        _words("text"),
        _words("author"),
        _words("time"),
        sa.Column("likes", sa.BigInteger, nullable=False, server_default="0"),
        _words("parent"),
        _words("episode"),
        _words("file"),
        sa.Column("line", sa.Integer, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False, server_default="1"),
        sqlite_autoincrement=True,
    )
    op.create_index("comments_by_episode", "comments", ["episode", "seq"])
    op.create_index("comments_by_author", "comments", ["author"])
    op.create_index("comments_by_parent", "comments", ["parent"])
    op.create_table(
        "earlier_texts",
        sa.Column("number", Number, primary_key=True),
        sa.Column("seq", Number, sa.ForeignKey("comments.seq", ondelete="CASCADE"), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        _words("text"),
        _words("replaced_at"),
        sqlite_autoincrement=True,
    )
    op.create_index("earlier_texts_by_comment", "earlier_texts", ["seq"])
    op.create_table(
        "set_aside",
        sa.Column("number", Number, primary_key=True),
        sa.Column("key", sa.Text, nullable=False, unique=True),
        _words("file"),
        sa.Column("line", sa.Integer, nullable=False),
        _words("reason"),
        _words("content"),
        sa.Column("read", Number, nullable=False),
        sqlite_autoincrement=True,
    )
    op.create_index("set_aside_by_read", "set_aside", ["read", "number"])
    op.create_table("forgotten", _words("id_hash", key=True), _words("at"))
