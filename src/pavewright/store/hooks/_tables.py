"""The tables of hooks. A secret stands as it is: whoever signs has to read it again."""

from __future__ import annotations

import sqlalchemy as sa

from pavewright.store._tables import METADATA

HOOKS = sa.Table(
    "hook",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("address", sa.Text, nullable=False),
    sa.Column("events", sa.Text, nullable=False),
    sa.Column("secret", sa.Text, nullable=False),
    sa.Column("secret_before", sa.Text, nullable=True),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("who", sa.String(32), nullable=True),
)
"""Addresses that are told. ``secret_before`` signs too, until the next rotation or until it is dropped."""

MESSAGES = sa.Table(
    "hook_message",
    METADATA,
    sa.Column("id", sa.String(40), primary_key=True),
    sa.Column("hook_id", sa.String(32), sa.ForeignKey("hook.id"), nullable=False, index=True),
    sa.Column("event", sa.String(32), nullable=False),
    sa.Column("body", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("due", sa.String(32), nullable=True, index=True),
    sa.Column("tries", sa.Integer, nullable=False),
    sa.Column("state", sa.String(16), nullable=False),
    sa.Column("told", sa.Text, nullable=False),
)
"""What is to be told to whom: ``due`` is when next, null where it is done or given up; ``told`` is what came last."""
