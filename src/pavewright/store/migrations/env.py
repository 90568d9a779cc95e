"""Run the changes over the connection that the store has open."""

from __future__ import annotations

from alembic import context

from pavewright.store._all_tables import METADATA


def run() -> None:
    """Run them."""
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=METADATA,
        render_as_batch=True,
    )
    context.run_migrations()


if getattr(context, "config", None) is not None:
    run()
