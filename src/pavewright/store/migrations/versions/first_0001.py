"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of jobs, revisions, deliveries and photos."""
    op.create_table(
        "job",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("rev", sa.Integer, nullable=False),
        sa.Column("title", sa.Text, nullable=False),
        sa.Column("words", sa.Text, nullable=False),
        sa.Column("archived", sa.Boolean, nullable=False),
        sa.Column("changed", sa.String(32), nullable=False),
        sa.Column("document", sa.Text, nullable=False),
        sa.Column("summary", sa.Text, nullable=True),
        sa.Column("summary_rev", sa.Integer, nullable=True),
    )
    op.create_table(
        "revision",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("rev", sa.Integer, primary_key=True),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("document", sa.Text, nullable=False),
    )
    op.create_table(
        "delivery",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("rev", sa.Integer, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
    )
    op.create_table(
        "photo",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("x_mm", sa.Float, nullable=True),
        sa.Column("y_mm", sa.Float, nullable=True),
        sa.Column("image", sa.LargeBinary, nullable=False),
    )


def downgrade() -> None:
    """Take the tables away."""
    for table in ("photo", "delivery", "revision", "job"):
        op.drop_table(table)
