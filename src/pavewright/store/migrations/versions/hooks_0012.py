"""Addresses of other programs, and what is still to be told to each."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "hook",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("address", sa.Text, nullable=False),
        sa.Column("events", sa.Text, nullable=False),
        sa.Column("secret", sa.Text, nullable=False),
        sa.Column("secret_before", sa.Text, nullable=True),
        sa.Column("made", sa.String(32), nullable=False),
        sa.Column("who", sa.String(32), nullable=True),
    )
    op.create_table(
        "hook_message",
        sa.Column("id", sa.String(40), primary_key=True),
        sa.Column("hook_id", sa.String(32), sa.ForeignKey("hook.id"), nullable=False),
        sa.Column("event", sa.String(32), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("made", sa.String(32), nullable=False),
        sa.Column("due", sa.String(32), nullable=True),
        sa.Column("tries", sa.Integer, nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("told", sa.Text, nullable=False),
    )
    op.create_index("ix_hook_message_hook_id", "hook_message", ["hook_id"])
    op.create_index("ix_hook_message_due", "hook_message", ["due"])


def downgrade() -> None:
    """Take the tables away."""
    for table in ("hook_message", "hook"):
        op.drop_table(table)
