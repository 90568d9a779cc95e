"""Run the changes over the connection that the store has open."""

from __future__ import annotations

from alembic import context

from pavewright.store._tables import METADATA

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=METADATA,
    render_as_batch=True,
)
context.run_migrations()
