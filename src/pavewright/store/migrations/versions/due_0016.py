"""What is due, places and money are told from indexes alone: state and place stand beside each day, and each once."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from pavewright.store.migrations.apart import each_firm

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None

_INDEXES = (
    ("ix_due_fact_near", "due_fact", ["on", "kind", "state", "by_hand", "until", "place", "job_id"]),
    (
        "ix_money_week_told",
        "money_week",
        ["week", "currency", "state", "job_id", "owing_minor", "expected_minor", "out_minor"],
    ),
    ("ix_order_line_placed", "order_line", ["place", "job_id"]),
    ("ix_order_line_gaps", "order_line", ["state", "gaps", "job_id"]),
)
_BEFORE = (
    ("ix_due_fact_on", "due_fact", ["on"]),
    ("ix_money_week_week", "money_week", ["week"]),
    ("ix_order_line_place", "order_line", ["place"]),
    ("ix_order_line_state", "order_line", ["state"]),
)


def upgrade() -> None:
    """Add the columns, fill them from the line of each job, and index what is asked."""
    op.add_column("due_fact", sa.Column("state", sa.String(16), nullable=False, server_default=""))
    op.add_column("due_fact", sa.Column("by_hand", sa.Boolean, nullable=False, server_default=sa.false()))
    op.add_column("due_fact", sa.Column("place", sa.Text, nullable=False, server_default=""))
    op.add_column("money_week", sa.Column("state", sa.String(16), nullable=False, server_default=""))
    for _ in each_firm(op):
        op.execute(
            "DELETE FROM due_fact WHERE EXISTS (SELECT 1 FROM due_fact AS later WHERE later.job_id = due_fact.job_id "
            "AND later.kind = due_fact.kind AND later.key = due_fact.key AND later.number > due_fact.number)"
        )
        for table, names in (("due_fact", ("state", "by_hand", "place")), ("money_week", ("state",))):
            for name in names:
                op.execute(
                    f"UPDATE {table} SET {name} = (SELECT line.{name} FROM order_line AS line "  # noqa: S608 - own names
                    f"WHERE line.job_id = {table}.job_id) "
                    f"WHERE EXISTS (SELECT 1 FROM order_line AS line WHERE line.job_id = {table}.job_id)"
                )
    for name, table, _ in _BEFORE:
        op.drop_index(name, table)
    for name, table, columns in _INDEXES:
        op.create_index(name, table, columns)


def downgrade() -> None:
    """Take the columns out again; the lines of the jobs hold the same."""
    for name, table, _ in _INDEXES:
        op.drop_index(name, table)
    for name, table, columns in _BEFORE:
        op.create_index(name, table, columns)
    for table, name in (("due_fact", "state"), ("due_fact", "by_hand"), ("due_fact", "place"), ("money_week", "state")):
        op.drop_column(table, name)
