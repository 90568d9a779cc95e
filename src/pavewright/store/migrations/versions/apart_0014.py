"""On a database server the rows of each firm are kept apart by the server itself."""

from __future__ import annotations

import secrets

from alembic import op

from pavewright.store._clock import now
from pavewright.store.migrations.apart import keep_apart, press

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None

_TABLES = (
    "job",
    "revision",
    "delivery",
    "photo",
    "device",
    "operation",
    "clash",
    "firm",
    "quotation_link",
    "quotation_question",
    "acceptance",
    "record_entry",
    "removed_record",
    "run",
    "run_result",
    "kept_plan",
    "order_line",
    "due_fact",
    "money_week",
    "saved_view",
    "job_template",
    "hook",
    "hook_message",
    "calendar",
    "calendar_feed",
)


def upgrade() -> None:
    """Enter the first firm, give it what was kept before, and keep every table of a firm apart; a file has one firm."""
    connection = op.get_bind()
    if connection.dialect.name != "postgresql":
        return
    connection.exec_driver_sql(
        "INSERT INTO account_firm (id, name, made, first) SELECT %s, '', %s, true "
        "WHERE NOT EXISTS (SELECT 1 FROM account_firm WHERE first)",
        (secrets.token_hex(16), now()),
    )
    op.execute("CREATE UNIQUE INDEX ix_account_firm_first ON account_firm (first) WHERE first")
    keep_apart(op, *_TABLES)
    for table, *columns in (
        ("job", "document", "summary"),
        ("revision", "document"),
        ("firm", "document"),
        ("operation", "sent", "landed"),
        ("delivery", "body"),
        ("quotation_link", "shown"),
        ("record_entry", "line"),
        ("run", "question"),
        ("job_template", "document"),
    ):
        press(op, table, *columns)
    # photos and papers are pressed already
    for table, column in (("photo", "image"), ("quotation_link", "pdf"), ("quotation_link", "notice")):
        op.execute(f"ALTER TABLE {table} ALTER COLUMN {column} SET STORAGE EXTERNAL")


def downgrade() -> None:
    """Nothing of a file was changed; firms that were kept apart are not thrown together again."""
    if op.get_bind().dialect.name == "postgresql":
        message = "firms that were kept apart are not thrown together again: bring a backup back"
        raise NotImplementedError(message)
