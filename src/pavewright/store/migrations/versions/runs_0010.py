"""Long runs over many jobs with their answers, and plans that need not be made again."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "run",
        sa.Column("id", sa.String(32), primary_key=True),
        sa.Column("verb", sa.String(64), nullable=False),
        sa.Column("question", sa.Text, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("pieces", sa.Integer, nullable=False),
        sa.Column("made", sa.String(32), nullable=False),
        sa.Column("made_by", sa.Text, nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("ended", sa.String(32), nullable=True),
    )
    op.create_table(
        "run_result",
        sa.Column("run_id", sa.String(32), sa.ForeignKey("run.id"), primary_key=True),
        sa.Column("key", sa.String(64), primary_key=True),
        sa.Column("failed", sa.Boolean, nullable=False),
        sa.Column("answer", sa.LargeBinary, nullable=False),
    )
    op.create_table(
        "kept_plan",
        sa.Column("digest", sa.String(64), primary_key=True),
        sa.Column("used", sa.String(32), nullable=False),
        sa.Column("answer", sa.LargeBinary, nullable=False),
    )
    op.create_index("ix_kept_plan_used", "kept_plan", ["used"])


def downgrade() -> None:
    """Take the tables away."""
    for table in ("kept_plan", "run_result", "run"):
        op.drop_table(table)
