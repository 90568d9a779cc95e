"""What was done in each revision, and what people did at once that no rule can merge."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of operations and clashes; of older revisions the operations are found when they are wanted."""
    op.create_table(
        "operation",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("rev", sa.Integer, primary_key=True),
        sa.Column("sender", sa.String(64), nullable=True),
        sa.Column("sent", sa.Text, nullable=True),
        sa.Column("landed", sa.Text, nullable=False),
    )
    op.create_table(
        "clash",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("rev", sa.Integer, nullable=False),
        sa.Column("base", sa.Integer, nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("settled", sa.String(32), nullable=True),
        sa.Column("pick", sa.String(8), nullable=True),
    )


def downgrade() -> None:
    """Take the tables away."""
    for table in ("clash", "operation"):
        op.drop_table(table)
