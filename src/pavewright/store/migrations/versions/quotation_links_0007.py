"""Links that open a quotation to a customer, what he asks, and what he accepted, which nobody can change."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

_FROZEN = ("id", "job_id", "rev", "made", "digest", "shown", "pdf", "notice", "pdf_sha256")
"""Fields of a link that stay as they were made; whether it was withdrawn or opened may still be noted."""


def upgrade() -> None:
    """Make the tables, and have the database itself refuse to change what was shown and what was accepted."""
    op.create_table(
        "quotation_link",
        sa.Column("id", sa.String(16), primary_key=True),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
        sa.Column("rev", sa.Integer, nullable=False),
        sa.Column("made", sa.String(32), nullable=False),
        sa.Column("expires", sa.String(10), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("withdrawn", sa.String(32), nullable=True),
        sa.Column("opened", sa.String(32), nullable=True),
        sa.Column("seen", sa.String(32), nullable=True),
        sa.Column("opens", sa.Integer, nullable=False),
        sa.Column("shown", sa.Text, nullable=False),
        sa.Column("pdf", sa.LargeBinary, nullable=False),
        sa.Column("notice", sa.LargeBinary, nullable=True),
        sa.Column("pdf_sha256", sa.String(64), nullable=False),
    )
    op.create_index("ix_quotation_link_digest", "quotation_link", ["digest"], unique=True)
    op.create_index("ix_quotation_link_job_id", "quotation_link", ["job_id"])
    _make_answers()
    dialect = op.get_bind().dialect.name
    for words in {"sqlite": _SQLITE, "postgresql": _POSTGRESQL}.get(dialect, ()):
        op.execute(words)


def _make_answers() -> None:
    """Make the tables of what comes back by a link."""
    op.create_table(
        "quotation_question",
        sa.Column("id", sa.String(16), primary_key=True),
        sa.Column("link_id", sa.String(16), sa.ForeignKey("quotation_link.id"), nullable=False),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("words", sa.Text, nullable=False),
        sa.Column("answer", sa.Text, nullable=True),
        sa.Column("answered", sa.String(32), nullable=True),
    )
    op.create_index("ix_quotation_question_link_id", "quotation_question", ["link_id"])
    op.create_table(
        "acceptance",
        sa.Column("link_id", sa.String(16), sa.ForeignKey("quotation_link.id"), primary_key=True),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
        sa.Column("rev", sa.Integer, nullable=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("pdf_sha256", sa.String(64), nullable=False),
    )
    op.create_index("ix_acceptance_job_id", "acceptance", ["job_id"])


_FIELDS = ", ".join(_FROZEN)
_STAYS = "BEGIN SELECT RAISE(ABORT, 'what was shown to a customer or accepted by him stays as it was'); END"
_NOT_DELETED = "(SELECT deleted FROM job WHERE id = OLD.job_id) IS NULL"
_ACCEPTED = "EXISTS (SELECT 1 FROM acceptance WHERE link_id = NEW.link_id)"
_LINKED = "EXISTS (SELECT 1 FROM quotation_link WHERE id = NEW.id OR digest = NEW.digest)"
# a row that is put in the place of another one is no change and no deletion to the database: it is refused before
_SQLITE = (
    f"CREATE TRIGGER quotation_link_stays BEFORE UPDATE OF {_FIELDS} ON quotation_link {_STAYS}",
    f"CREATE TRIGGER acceptance_stays BEFORE UPDATE ON acceptance {_STAYS}",
    f"CREATE TRIGGER acceptance_is_kept BEFORE DELETE ON acceptance WHEN {_NOT_DELETED} {_STAYS}",
    f"CREATE TRIGGER quotation_link_is_kept BEFORE DELETE ON quotation_link WHEN {_NOT_DELETED} {_STAYS}",
    f"CREATE TRIGGER acceptance_is_one BEFORE INSERT ON acceptance WHEN {_ACCEPTED} {_STAYS}",
    f"CREATE TRIGGER quotation_link_is_one BEFORE INSERT ON quotation_link WHEN {_LINKED} {_STAYS}",
)
_POSTGRESQL = (
    (
        "CREATE FUNCTION pavewright_stays() RETURNS trigger AS $$ "
        "BEGIN RAISE EXCEPTION 'what was shown or accepted stays as it was'; END $$ LANGUAGE plpgsql"
    ),
    (
        "CREATE FUNCTION pavewright_is_kept() RETURNS trigger AS $$ "
        "BEGIN IF (SELECT deleted FROM job WHERE id = OLD.job_id) IS NULL THEN "
        "RAISE EXCEPTION 'what was shown or accepted stays as it was'; END IF; RETURN OLD; END $$ LANGUAGE plpgsql"
    ),
    (
        f"CREATE TRIGGER quotation_link_stays BEFORE UPDATE OF {_FIELDS} ON quotation_link "
        "FOR EACH ROW EXECUTE FUNCTION pavewright_stays()"
    ),
    "CREATE TRIGGER acceptance_stays BEFORE UPDATE ON acceptance FOR EACH ROW EXECUTE FUNCTION pavewright_stays()",
    "CREATE TRIGGER acceptance_is_kept BEFORE DELETE ON acceptance FOR EACH ROW EXECUTE FUNCTION pavewright_is_kept()",
    (
        "CREATE TRIGGER quotation_link_is_kept BEFORE DELETE ON quotation_link "
        "FOR EACH ROW EXECUTE FUNCTION pavewright_is_kept()"
    ),
)


def downgrade() -> None:
    """Take the tables away."""
    for table in ("acceptance", "quotation_question", "quotation_link"):
        op.drop_table(table)
    if op.get_bind().dialect.name == "postgresql":
        op.execute("DROP FUNCTION pavewright_stays()")
        op.execute("DROP FUNCTION pavewright_is_kept()")
