"""Numbers a person vouched for in a text, kept with the decision about it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Add the column; it is empty where every number in a text came with the draft."""
    op.add_column("decisions", sa.Column("own", sa.Text, nullable=False, server_default=""))
