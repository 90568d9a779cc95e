"""Each photo and paper is named by its hash, so that it can stand in the row or outside the database."""

from __future__ import annotations

import hashlib

import sqlalchemy as sa
from alembic import op

from pavewright.store.migrations.apart import each_firm

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None

_FROZEN = "id, job_id, rev, made, digest, shown, pdf_sha256, notice_sha256"
"""Fields of a link that stay as they were made."""


def upgrade() -> None:
    """Name every file by its hash, and let a paper be moved out of its row and back, but never be another one."""
    op.add_column("photo", sa.Column("sha256", sa.String(64), nullable=False, server_default=""))
    op.add_column("quotation_link", sa.Column("notice_sha256", sa.String(64), nullable=True))
    connection = op.get_bind()
    for _ in each_firm(op):
        _name(connection, "photo", ("job_id", "id"), "image", "sha256")
        _name(connection, "quotation_link", ("id",), "notice", "notice_sha256")
    for words in {"sqlite": _SQLITE, "postgresql": _POSTGRESQL}.get(connection.dialect.name, ()):
        op.execute(words)


def _name(connection: sa.Connection, name: str, key: tuple[str, ...], content: str, digest: str) -> None:
    """Write the hash beside each file, one after the other, so that one of them is in memory."""
    table = sa.table(name, *(sa.column(each) for each in (*key, content, digest)))
    rows = connection.execute(sa.select(*(table.c[each] for each in key)).where(table.c[content].is_not(None))).all()
    for row in rows:
        which = [table.c[each] == value for each, value in zip(key, row, strict=True)]
        found = connection.execute(sa.select(table.c[content]).where(*which)).scalar_one()
        named = hashlib.sha256(bytes(found)).hexdigest()
        connection.execute(table.update().where(*which).values({digest: named}))


_STAYS = "BEGIN SELECT RAISE(ABORT, 'what was shown to a customer or accepted by him stays as it was'); END"
_PDF = "(NEW.pdf IS OLD.pdf OR length(NEW.pdf) = 0 OR length(OLD.pdf) = 0)"
_NOTICE = (
    "(NEW.notice IS OLD.notice OR (NEW.notice IS NOT NULL AND OLD.notice IS NOT NULL "
    "AND (length(NEW.notice) = 0 OR length(OLD.notice) = 0)))"
)
# what is moved back in is held against its hash by the program, as is whatever is read
_SQLITE = (
    "DROP TRIGGER quotation_link_stays",
    f"CREATE TRIGGER quotation_link_stays BEFORE UPDATE OF {_FROZEN} ON quotation_link {_STAYS}",
    (
        f"CREATE TRIGGER quotation_paper_stays BEFORE UPDATE OF pdf, notice ON quotation_link "
        f"WHEN NOT ({_PDF} AND {_NOTICE}) {_STAYS}"
    ),
)
_POSTGRESQL = (
    "DROP TRIGGER quotation_link_stays ON quotation_link",
    (
        f"CREATE TRIGGER quotation_link_stays BEFORE UPDATE OF {_FROZEN} ON quotation_link "
        "FOR EACH ROW EXECUTE FUNCTION pavewright_stays()"
    ),
    (
        "CREATE FUNCTION pavewright_paper_stays() RETURNS trigger AS $$ BEGIN "
        "IF (length(NEW.pdf) > 0 AND encode(sha256(NEW.pdf), 'hex') <> NEW.pdf_sha256) "
        "OR (NEW.notice IS NULL) <> (OLD.notice IS NULL) "
        "OR (length(NEW.notice) > 0 AND encode(sha256(NEW.notice), 'hex') <> NEW.notice_sha256) THEN "
        "RAISE EXCEPTION 'what was shown or accepted stays as it was'; END IF; RETURN NEW; END $$ LANGUAGE plpgsql"
    ),
    (
        "CREATE TRIGGER quotation_paper_stays BEFORE UPDATE OF pdf, notice ON quotation_link "
        "FOR EACH ROW EXECUTE FUNCTION pavewright_paper_stays()"
    ),
)


def downgrade() -> None:
    """Nothing goes back: a file that stands outside would be named by nothing."""
    message = "files may stand outside the database: bring a backup back"
    raise NotImplementedError(message)
