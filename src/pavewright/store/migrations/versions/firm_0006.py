"""The book of the firm, with every revision."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of the book; it is empty until somebody writes in it."""
    op.create_table(
        "firm",
        sa.Column("rev", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("document", sa.Text, nullable=False),
        sa.Column("key", sa.String(64), nullable=True),
        sa.UniqueConstraint("key", name="uq_firm_key"),
    )


def downgrade() -> None:
    """Take the table away."""
    op.drop_table("firm")
