"""Alembic runs this; the store hands over its own open connection, inside its own transaction."""

from __future__ import annotations

from alembic import context


def run() -> None:
    """Run the steps that are missing."""
    attributes = context.config.attributes
    context.configure(connection=attributes["connection"], version_table=attributes["version_table"])
    context.run_migrations()


if hasattr(context, "config"):  # only while Alembic runs it; a mere import does nothing
    run()
