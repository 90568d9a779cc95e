"""The tables of the order book: what is kept of each job beside its document, saved views, templates."""

from __future__ import annotations

import sqlalchemy as sa

from pavewright.store._tables import METADATA

ORDER_LINES = sa.Table(
    "order_line",
    METADATA,
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
    sa.Index("ix_order_line_placed", "place", "job_id"),
    sa.Index("ix_order_line_gaps", "state", "gaps", "job_id"),
)
"""What lists and filters ask of a job: its state without its links, where it is, who, money; worked out for ``rev``."""

DUE_FACTS = sa.Table(
    "due_fact",
    METADATA,
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
    sa.Column("kind", sa.String(16), nullable=False),
    sa.Column("key", sa.Text, nullable=False),
    sa.Column("on", sa.String(10), nullable=False),
    sa.Column("until", sa.String(10), nullable=True),
    sa.Column("what", sa.Text, nullable=False),
    sa.Column("amount_minor", sa.BigInteger, nullable=True),
    sa.Column("count", sa.Integer, nullable=False),
    sa.Column("state", sa.String(16), nullable=False, server_default=""),
    sa.Column("by_hand", sa.Boolean, nullable=False, server_default=sa.false()),
    sa.Column("place", sa.Text, nullable=False, server_default=""),
    sa.Index("ix_due_fact_near", "on", "kind", "state", "by_hand", "until", "place", "job_id"),
)
"""Days of a job on which something falls due, whatever the day on which somebody looks; of one kind and key one day.

State and place are those of its line, so that what is due is counted from the index alone.
"""

MONEY_WEEKS = sa.Table(
    "money_week",
    METADATA,
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("week", sa.String(10), primary_key=True),
    sa.Column("currency", sa.String(3), nullable=False),
    sa.Column("owing_minor", sa.BigInteger, nullable=False),
    sa.Column("expected_minor", sa.BigInteger, nullable=False),
    sa.Column("out_minor", sa.BigInteger, nullable=False),
    sa.Column("state", sa.String(16), nullable=False, server_default=""),
    sa.Index("ix_money_week_told", "week", "currency", "state", "job_id", "owing_minor", "expected_minor", "out_minor"),
)
"""Money of a job by weeks, each known by its Monday, with the state of its line."""

SAVED_VIEWS = sa.Table(
    "saved_view",
    METADATA,
    sa.Column("id", sa.String(16), primary_key=True),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("body", sa.Text, nullable=False),
)
"""Filters of the list of jobs under a name, for everybody of the firm."""

JOB_TEMPLATES = sa.Table(
    "job_template",
    METADATA,
    sa.Column("id", sa.String(16), primary_key=True),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("document", sa.Text, nullable=False),
)
"""Jobs to begin from: units, prices, crew and terms of the firm, nothing of anybody's house."""

OF_A_JOB = (ORDER_LINES, DUE_FACTS, MONEY_WEEKS)
"""The tables that hold what is worked out of one job."""
