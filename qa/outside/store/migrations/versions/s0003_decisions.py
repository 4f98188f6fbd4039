"""The log of a person's decisions, what stands of it, and taught examples."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"

Number = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def _words(name: str, *, key: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, primary_key=key, nullable=False, server_default=None if key else "")


def upgrade() -> None:
    """Make the tables that review needs."""
    op.create_table(
        "decisions",
        sa.Column("number", Number, primary_key=True),
        sa.Column("seq", Number, sa.ForeignKey("comments.seq", ondelete="CASCADE"), nullable=False),
        _words("kind"),
        _words("text"),
        _words("who"),
        _words("at"),
        sa.Column("draft", sa.Integer, nullable=False),
        sa.Column("undoes", Number, nullable=True),
        sqlite_autoincrement=True,
    )
    op.create_index("decisions_by_comment", "decisions", ["seq", "number"])
    op.create_table(
        "standing",
        sa.Column("seq", Number, sa.ForeignKey("comments.seq", ondelete="CASCADE"), primary_key=True, nullable=False),
        sa.Column("decision", Number, sa.ForeignKey("decisions.number", ondelete="CASCADE"), nullable=False),
        _words("kind"),
    )
    op.create_index("standing_by_kind", "standing", ["kind", "seq"])
    op.create_table("taught", _words("id", key=True), _words("voice"), _words("at"), _words("body"))
