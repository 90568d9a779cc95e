"""The tables of long runs: what was asked, what was answered, and plans that need not be made again."""

from __future__ import annotations

import sqlalchemy as sa

from pavewright.store._tables import METADATA

RUNS = sa.Table(
    "run",
    METADATA,
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
"""A run: its question and the digest of its pieces, by which it is known again when it is taken up."""

RUN_RESULTS = sa.Table(
    "run_result",
    METADATA,
    sa.Column("run_id", sa.String(32), sa.ForeignKey("run.id"), primary_key=True),
    sa.Column("key", sa.String(64), primary_key=True),
    sa.Column("failed", sa.Boolean, nullable=False),
    sa.Column("answer", sa.LargeBinary, nullable=False),
)
"""The answer to each piece of a run, once: run and key together are its name."""

KEPT_PLANS = sa.Table(
    "kept_plan",
    METADATA,
    sa.Column("digest", sa.String(64), primary_key=True),
    sa.Column("used", sa.String(32), nullable=False),
    sa.Column("answer", sa.LargeBinary, nullable=False),
    sa.Index("ix_kept_plan_used", "used"),
)
"""What plans answered, by the digest of all that they depend on; ``used`` is the day on which it was last asked for."""
