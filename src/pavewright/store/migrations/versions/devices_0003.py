"""Devices that were paired to reach the jobs over the network."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table of devices."""
    op.create_table(
        "device",
        sa.Column("id", sa.String(16), primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("paired", sa.String(32), nullable=False),
        sa.Column("seen", sa.String(32), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
    )
    op.create_index("ix_device_digest", "device", ["digest"], unique=True)


def downgrade() -> None:
    """Take the table away."""
    op.drop_table("device")
