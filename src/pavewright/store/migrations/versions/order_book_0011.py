"""The order book: how far each job is, what falls due, money by weeks; saved views and templates."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables; what is worked out of each job is worked out anew, so that they fill."""
    _order_line()
    _by_day()
    for name, kept in (("saved_view", "body"), ("job_template", "document")):
        op.create_table(
            name,
            sa.Column("id", sa.String(16), primary_key=True),
            sa.Column("name", sa.Text, nullable=False),
            sa.Column("made", sa.String(32), nullable=False),
            sa.Column(kept, sa.Text, nullable=False),
        )
    # lists are counted from this index alone: documents are not read past
    op.create_index("ix_job_listed", "job", ["deleted", "archived", "changed", "id", "rev", "summary_rev"])
    op.execute("UPDATE job SET summary_rev = NULL")


def _order_line() -> None:
    op.create_table(
        "order_line",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("rev", sa.Integer, nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("by_hand", sa.Boolean, nullable=False),
        sa.Column("facts", sa.Text, nullable=False),
        sa.Column("place", sa.Text, nullable=False),
        sa.Column("people", sa.Text, nullable=False),
        sa.Column("holds_until", sa.String(10), nullable=True),
        sa.Column("owing_minor", sa.BigInteger, nullable=False),
        sa.Column("total_minor", sa.BigInteger, nullable=True),
        sa.Column("currency", sa.String(3), nullable=False),
        sa.Column("stage", sa.Integer, nullable=False),
        sa.Column("stops", sa.Integer, nullable=False),
        sa.Column("gaps", sa.Text, nullable=False),
    )
    op.create_index("ix_order_line_state", "order_line", ["state"])
    op.create_index("ix_order_line_place", "order_line", ["place"])


def _by_day() -> None:
    op.create_table(
        "due_fact",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("key", sa.Text, nullable=False),
        sa.Column("on", sa.String(10), nullable=False),
        sa.Column("until", sa.String(10), nullable=True),
        sa.Column("what", sa.Text, nullable=False),
        sa.Column("amount_minor", sa.BigInteger, nullable=True),
        sa.Column("count", sa.Integer, nullable=False),
    )
    op.create_index("ix_due_fact_on", "due_fact", ["on"])
    op.create_table(
        "money_week",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("week", sa.String(10), primary_key=True),
        sa.Column("currency", sa.String(3), nullable=False),
        sa.Column("owing_minor", sa.BigInteger, nullable=False),
        sa.Column("expected_minor", sa.BigInteger, nullable=False),
        sa.Column("out_minor", sa.BigInteger, nullable=False),
    )
    op.create_index("ix_money_week_week", "money_week", ["week"])
