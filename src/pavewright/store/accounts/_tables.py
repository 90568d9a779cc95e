"""The tables of an installation: its firms, its people, and how they come in; what is kept of a firm stands apart."""

from __future__ import annotations

import sqlalchemy as sa

from pavewright.store._tables import METADATA

PREFIX = "account_"
"""Every table of the installation begins so; every other one is a firm's."""

FIRMS = sa.Table(
    "account_firm",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("first", sa.Boolean, nullable=False),
)
"""The firms. The first one is in use before anybody enters a second."""

PEOPLE = sa.Table(
    "account_person",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("sign_in", sa.Text, nullable=False),
    sa.Column("folded", sa.Text, nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("ended", sa.String(32), nullable=True),
    sa.Index("ix_account_person_folded", "folded", unique=True),
)
"""The people. ``folded`` is the sign-in as it is compared: without capitals."""

MEMBERS = sa.Table(
    "account_member",
    METADATA,
    sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), primary_key=True),
    sa.Column("firm_id", sa.String(32), sa.ForeignKey("account_firm.id"), primary_key=True),
    sa.Column("role", sa.String(16), nullable=False),
    sa.Column("grants", sa.Text, nullable=False),
    sa.Column("crew_name", sa.Text, nullable=True),
    sa.Column("since", sa.String(32), nullable=False),
    sa.Column("ended", sa.String(32), nullable=True),
)
"""Who belongs to which firm, and as what."""

SECRETS = sa.Table(
    "account_secret",
    METADATA,
    sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), primary_key=True),
    sa.Column("password", sa.Text, nullable=True),
    sa.Column("totp", sa.Text, nullable=True),
    sa.Column("totp_step", sa.BigInteger, nullable=True),
)
"""The digest of a password; the secret of the codes that change, with the last step that was used."""

CODES = sa.Table(
    "account_code",
    METADATA,
    sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), primary_key=True),
    sa.Column("kind", sa.String(16), primary_key=True),
    sa.Column("digest", sa.String(64), primary_key=True),
    sa.Column("expires", sa.String(32), nullable=True),
    sa.Column("used", sa.String(32), nullable=True),
    sa.Index("ix_account_code_digest", "digest"),
)
"""Codes that open once: for recovery, for a new password."""

PASSKEYS = sa.Table(
    "account_passkey",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), nullable=False),
    sa.Column("credential", sa.LargeBinary, nullable=False),
    sa.Column("public_key", sa.LargeBinary, nullable=False),
    sa.Column("count", sa.BigInteger, nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("used", sa.String(32), nullable=True),
    sa.Index("ix_account_passkey_credential", "credential", unique=True),
    sa.Index("ix_account_passkey_person_id", "person_id"),
)
"""Passkeys: the public half of each, and how often it says that it was used."""

SIGN_INS = sa.Table(
    "account_sign_in",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), nullable=False),
    sa.Column("firm_id", sa.String(32), sa.ForeignKey("account_firm.id"), nullable=False),
    sa.Column("device", sa.Text, nullable=False),
    sa.Column("begun", sa.String(32), nullable=False),
    sa.Column("seen", sa.String(32), nullable=False),
    sa.Column("expires", sa.String(32), nullable=False),
    sa.Column("digest", sa.String(64), nullable=False),
    sa.Index("ix_account_sign_in_digest", "digest", unique=True),
    sa.Index("ix_account_sign_in_person_id", "person_id"),
)
"""Devices on which somebody is signed in, with the digest of the token; one that ended is deleted."""

INVITATIONS = sa.Table(
    "account_invitation",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("firm_id", sa.String(32), sa.ForeignKey("account_firm.id"), nullable=False),
    sa.Column("role", sa.String(16), nullable=False),
    sa.Column("grants", sa.Text, nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("sign_in", sa.Text, nullable=False),
    sa.Column("by", sa.String(32), nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("expires", sa.String(32), nullable=False),
    sa.Column("used", sa.String(32), nullable=True),
    sa.Column("withdrawn", sa.String(32), nullable=True),
    sa.Column("digest", sa.String(64), nullable=False),
    sa.Index("ix_account_invitation_digest", "digest", unique=True),
    sa.Index("ix_account_invitation_firm_id", "firm_id"),
)
"""Links by which somebody may join a firm, once; with the digest of the token."""

TOKENS = sa.Table(
    "account_token",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("firm_id", sa.String(32), sa.ForeignKey("account_firm.id"), nullable=False),
    sa.Column("person_id", sa.String(32), sa.ForeignKey("account_person.id"), nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("scopes", sa.Text, nullable=False),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("expires", sa.String(32), nullable=True),
    sa.Column("used", sa.String(32), nullable=True),
    sa.Column("digest", sa.String(64), nullable=False),
    sa.Index("ix_account_token_digest", "digest", unique=True),
    sa.Index("ix_account_token_firm_id", "firm_id"),
)
"""Tokens of other programs; one that was withdrawn is deleted."""

FAILURES = sa.Table(
    "account_failure",
    METADATA,
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("key", sa.String(64), nullable=False),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Index("ix_account_failure_key_at", "key", "at"),
)
"""Failed tries of the last days, by the digest of what was tried."""

AUDIT = sa.Table(
    "account_audit",
    METADATA,
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("firm_id", sa.String(32), nullable=True),
    sa.Column("person_id", sa.String(32), nullable=True),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("code", sa.String(64), nullable=False),
    sa.Column("facts", sa.Text, nullable=False),
    sa.Column("address", sa.Text, nullable=False),
    sa.Index("ix_account_audit_firm_id_number", "firm_id", "number"),
    sqlite_autoincrement=True,
)
"""What was done with people, rights and keys; triggers of the database refuse to change or delete it."""
