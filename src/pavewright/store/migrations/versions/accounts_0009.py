"""Firms and people of an installation, how they come in, what was done with their rights; and who did each change."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

_DONE_BY = (
    "revision",
    "delivery",
    "photo",
    "clash",
    "firm",
    "quotation_link",
    "quotation_question",
    "removed_record",
)


def upgrade() -> None:
    """Make the tables; let the database itself refuse to change what was noted; add who did each change."""
    _make_people()
    _make_secrets()
    _make_ways_in()
    _make_notes()
    for table in _DONE_BY:
        op.add_column(table, sa.Column("who", sa.String(32), nullable=True))
    for words in {"sqlite": _SQLITE, "postgresql": _POSTGRESQL}.get(op.get_bind().dialect.name, ()):
        op.execute(words)


def _of_person(*, key: bool = False) -> sa.Column[str]:
    return sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), nullable=False, primary_key=key)


def _of_firm(*, key: bool = False) -> sa.Column[str]:
    return sa.Column("firm_id", sa.String(32), sa.ForeignKey("account_firm.id"), nullable=False, primary_key=key)


def _time(name: str, *, nullable: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.String(32), nullable=nullable)


def _text(name: str, *, nullable: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=nullable)


def _id() -> sa.Column[str]:
    return sa.Column("id", sa.String(32), primary_key=True)


def _digest() -> sa.Column[str]:
    return sa.Column("digest", sa.String(64), nullable=False)


def _make_people() -> None:
    first = sa.Column("first", sa.Boolean, nullable=False)
    op.create_table("account_firm", _id(), _text("name"), _time("made"), first)
    op.create_table(
        "account_person",
        *(_id(), _text("sign_in"), _text("folded"), _text("name"), _time("made"), _time("ended", nullable=True)),
    )
    op.create_index("ix_account_person_folded", "account_person", ["folded"], unique=True)
    op.create_table(
        "account_member",
        _of_person(key=True),
        _of_firm(key=True),
        sa.Column("role", sa.String(16), nullable=False),
        *(_text("grants"), _text("crew_name", nullable=True), _time("since"), _time("ended", nullable=True)),
    )


def _make_secrets() -> None:
    op.create_table(
        "account_secret",
        _of_person(key=True),
        *(_text("password", nullable=True), _text("totp", nullable=True)),
        sa.Column("totp_step", sa.BigInteger, nullable=True),
    )
    op.create_table(
        "account_code",
        _of_person(key=True),
        sa.Column("kind", sa.String(16), primary_key=True),
        sa.Column("digest", sa.String(64), primary_key=True),
        *(_time("expires", nullable=True), _time("used", nullable=True)),
    )
    op.create_index("ix_account_code_digest", "account_code", ["digest"])
    op.create_table(
        "account_passkey",
        *(_id(), _of_person()),
        sa.Column("credential", sa.LargeBinary, nullable=False),
        sa.Column("public_key", sa.LargeBinary, nullable=False),
        sa.Column("count", sa.BigInteger, nullable=False),
        *(_text("name"), _time("made"), _time("used", nullable=True)),
    )
    op.create_index("ix_account_passkey_credential", "account_passkey", ["credential"], unique=True)
    op.create_index("ix_account_passkey_person_id", "account_passkey", ["person_id"])


def _make_ways_in() -> None:
    op.create_table(
        "account_sign_in",
        *(_id(), _of_person(), _of_firm(), _text("device")),
        *(_time("begun"), _time("seen"), _time("expires"), _digest()),
    )
    op.create_index("ix_account_sign_in_digest", "account_sign_in", ["digest"], unique=True)
    op.create_index("ix_account_sign_in_person_id", "account_sign_in", ["person_id"])
    op.create_table(
        "account_invitation",
        *(_id(), _of_firm()),
        sa.Column("role", sa.String(16), nullable=False),
        *(_text("grants"), _text("name"), _text("sign_in"), _time("by"), _time("made"), _time("expires")),
        *(_time("used", nullable=True), _time("withdrawn", nullable=True), _digest()),
    )
    op.create_index("ix_account_invitation_digest", "account_invitation", ["digest"], unique=True)
    op.create_index("ix_account_invitation_firm_id", "account_invitation", ["firm_id"])
    op.create_table(
        "account_token",
        *(_id(), _of_firm(), _of_person(), _text("name"), _text("scopes"), _time("made")),
        *(_time("expires", nullable=True), _time("used", nullable=True), _digest()),
    )
    op.create_index("ix_account_token_digest", "account_token", ["digest"], unique=True)
    op.create_index("ix_account_token_firm_id", "account_token", ["firm_id"])


def _make_notes() -> None:
    op.create_table(
        "account_failure",
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("key", sa.String(64), nullable=False),
        _time("at"),
    )
    op.create_index("ix_account_failure_key_at", "account_failure", ["key", "at"])
    op.create_table(
        "account_audit",
        sa.Column("number", sa.Integer, primary_key=True),
        *(_time("firm_id", nullable=True), _time("person_id", nullable=True), _time("at")),
        sa.Column("code", sa.String(64), nullable=False),
        *(_text("facts"), _text("address")),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_account_audit_firm_id_number", "account_audit", ["firm_id", "number"])


_STAYS = "BEGIN SELECT RAISE(ABORT, 'what was noted stays as it was'); END"
_AGAIN = "NEW.number <= COALESCE((SELECT MAX(number) FROM account_audit), 0) AND NEW.number > 0"
# a row that is put in the place of another one is no change and no deletion to the database: it is refused before
_SQLITE = (
    f"CREATE TRIGGER account_audit_stays BEFORE UPDATE ON account_audit {_STAYS}",
    f"CREATE TRIGGER account_audit_is_kept BEFORE DELETE ON account_audit {_STAYS}",
    f"CREATE TRIGGER account_audit_is_last BEFORE INSERT ON account_audit WHEN {_AGAIN} {_STAYS}",
)
_POSTGRESQL = (
    (
        "CREATE FUNCTION pavewright_audit_stays() RETURNS trigger AS $$ "
        "BEGIN RAISE EXCEPTION 'what was noted stays as it was'; END $$ LANGUAGE plpgsql"
    ),
    (
        "CREATE TRIGGER account_audit_stays BEFORE UPDATE OR DELETE ON account_audit "
        "FOR EACH ROW EXECUTE FUNCTION pavewright_audit_stays()"
    ),
    (
        "CREATE TRIGGER account_audit_is_kept BEFORE TRUNCATE ON account_audit "
        "FOR EACH STATEMENT EXECUTE FUNCTION pavewright_audit_stays()"
    ),
)


def downgrade() -> None:
    """Take the tables away; who did what is lost."""
    for table in _DONE_BY:
        op.drop_column(table, "who")
    for table in ("audit", "failure", "token", "invitation", "sign_in", "passkey", "code", "secret", "member"):
        op.drop_table(f"account_{table}")
    op.drop_table("account_person")
    op.drop_table("account_firm")
    if op.get_bind().dialect.name == "postgresql":
        op.execute("DROP FUNCTION pavewright_audit_stays()")
