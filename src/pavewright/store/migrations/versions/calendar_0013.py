"""The calendar of the firm with its revisions, and the feeds by which people read their own days."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make both tables; they are empty until somebody writes in them."""
    op.create_table(
        "calendar",
        sa.Column("rev", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("document", sa.Text, nullable=False),
        sa.Column("key", sa.String(64), nullable=True),
        sa.Column("who", sa.String(32), nullable=True),
        sa.UniqueConstraint("key", name="uq_calendar_key"),
    )
    op.create_table(
        "calendar_feed",
        sa.Column("id", sa.String(16), primary_key=True),
        sa.Column("person", sa.String(12), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("made", sa.String(32), nullable=False),
        sa.Column("who", sa.String(32), nullable=True),
        sa.UniqueConstraint("digest", name="uq_calendar_feed_digest"),
    )


def downgrade() -> None:
    """Drop both tables."""
    op.drop_table("calendar_feed")
    op.drop_table("calendar")
