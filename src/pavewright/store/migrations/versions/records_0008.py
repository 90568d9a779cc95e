"""Records of jobs: entries that nobody can change, and what is left of one whose job was removed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables, and have the database itself refuse to change an entry or to put one anywhere but at the end."""
    op.create_table(
        "record_entry",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("line", sa.Text, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
    )
    op.create_table(
        "removed_record",
        sa.Column("job", sa.String(32), primary_key=True),
        sa.Column("at", sa.String(32), primary_key=True),
        sa.Column("entries", sa.Integer, nullable=False),
        sa.Column("head", sa.String(64), nullable=False),
    )
    dialect = op.get_bind().dialect.name
    for words in {"sqlite": _SQLITE, "postgresql": _POSTGRESQL}.get(dialect, ()):
        op.execute(words)


_STAYS = "BEGIN SELECT RAISE(ABORT, 'an entry of a record stays as it was'); END"
_KEPT = "(SELECT deleted FROM job WHERE id = OLD.job_id) IS NULL"
_NOT_NEXT = "NEW.number <> 1 + COALESCE((SELECT MAX(number) FROM record_entry WHERE job_id = NEW.job_id), 0)"
_AGAIN = "EXISTS (SELECT 1 FROM removed_record WHERE job = NEW.job AND at = NEW.at)"
# a row that is put in the place of another one is no change and no deletion to the database: it is refused before
_SQLITE = (
    f"CREATE TRIGGER record_entry_stays BEFORE UPDATE ON record_entry {_STAYS}",
    f"CREATE TRIGGER record_entry_is_kept BEFORE DELETE ON record_entry WHEN {_KEPT} {_STAYS}",
    f"CREATE TRIGGER record_entry_is_last BEFORE INSERT ON record_entry WHEN {_NOT_NEXT} {_STAYS}",
    f"CREATE TRIGGER removed_record_stays BEFORE UPDATE ON removed_record {_STAYS}",
    f"CREATE TRIGGER removed_record_is_kept BEFORE DELETE ON removed_record {_STAYS}",
    f"CREATE TRIGGER removed_record_is_one BEFORE INSERT ON removed_record WHEN {_AGAIN} {_STAYS}",
)
_RAISES = "RAISE EXCEPTION 'an entry of a record stays as it was'"
_POSTGRESQL = (
    f"CREATE FUNCTION pavewright_record_stays() RETURNS trigger AS $$ BEGIN {_RAISES}; END $$ LANGUAGE plpgsql",
    (
        "CREATE FUNCTION pavewright_record_is_kept() RETURNS trigger AS $$ "
        f"BEGIN IF {_KEPT} THEN {_RAISES}; END IF; RETURN OLD; END $$ LANGUAGE plpgsql"
    ),
    (
        "CREATE FUNCTION pavewright_record_is_last() RETURNS trigger AS $$ "
        f"BEGIN IF {_NOT_NEXT} THEN {_RAISES}; END IF; RETURN NEW; END $$ LANGUAGE plpgsql"
    ),
    *(
        f"CREATE TRIGGER {name} BEFORE {when} ON {table} FOR EACH ROW EXECUTE FUNCTION pavewright_record_{does}()"
        for name, when, table, does in (
            ("record_entry_stays", "UPDATE", "record_entry", "stays"),
            ("record_entry_is_kept", "DELETE", "record_entry", "is_kept"),
            ("record_entry_is_last", "INSERT", "record_entry", "is_last"),
            ("removed_record_stays", "UPDATE OR DELETE", "removed_record", "stays"),
        )
    ),
)


def downgrade() -> None:
    """Take the tables away."""
    for table in ("removed_record", "record_entry"):
        op.drop_table(table)
    if op.get_bind().dialect.name == "postgresql":
        for does in ("stays", "is_kept", "is_last"):
            op.execute(f"DROP FUNCTION pavewright_record_{does}()")
