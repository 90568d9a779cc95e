"""The tables of a firm. ``who`` is the person who did it, by his name in the store; null where nobody was signed in."""

from __future__ import annotations

import sqlalchemy as sa

METADATA = sa.MetaData(
    naming_convention={
        "ix": "ix_%(column_0_label)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

JOBS = sa.Table(
    "job",
    METADATA,
    sa.Column("id", sa.String(32), primary_key=True),
    sa.Column("rev", sa.Integer, nullable=False),
    sa.Column("title", sa.Text, nullable=False),
    sa.Column("words", sa.Text, nullable=False),
    sa.Column("archived", sa.Boolean, nullable=False),
    sa.Column("changed", sa.String(32), nullable=False),
    sa.Column("document", sa.Text, nullable=False),
    sa.Column("summary", sa.Text, nullable=True),
    sa.Column("summary_rev", sa.Integer, nullable=True),
    sa.Column("deleted", sa.String(32), nullable=True),
    sa.Index("ix_job_listed", "deleted", "archived", "changed", "id", "rev", "summary_rev"),
)
"""A job as it stands. ``words`` is what a search looks through, in small letters; ``deleted`` is when that was done."""

REVISIONS = sa.Table(
    "revision",
    METADATA,
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("rev", sa.Integer, primary_key=True),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("document", sa.Text, nullable=False),
    sa.Column("key", sa.String(64), nullable=True),
    sa.Column("who", sa.String(32), nullable=True),
    sa.Index("ix_revision_job_id_key", "job_id", "key", unique=True),
)
"""Every revision of every job, the present one among them. ``key`` is the name that the sender gave the save."""

DELIVERIES = sa.Table(
    "delivery",
    METADATA,
    sa.Column("id", sa.String(64), primary_key=True),
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("rev", sa.Integer, nullable=False),
    sa.Column("body", sa.Text, nullable=False),
    sa.Column("who", sa.String(32), nullable=True),
)
"""What phones and site sheets have sent, by job and the name that the sender gave it: a repeat is known by both."""

PHOTOS = sa.Table(
    "photo",
    METADATA,
    sa.Column("id", sa.String(64), primary_key=True),
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("x_mm", sa.Float, nullable=True),
    sa.Column("y_mm", sa.Float, nullable=True),
    sa.Column("image", sa.LargeBinary, nullable=False),
    sa.Column("who", sa.String(32), nullable=True),
    sa.Column("sha256", sa.String(64), nullable=False, server_default=""),
)
"""Photos, pinned to a place of the plan, by job and the name that the sender gave; an empty one stands outside."""

DEVICES = sa.Table(
    "device",
    METADATA,
    sa.Column("id", sa.String(16), primary_key=True),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("paired", sa.String(32), nullable=False),
    sa.Column("seen", sa.String(32), nullable=False),
    sa.Column("digest", sa.String(64), nullable=False),
    sa.Index("ix_device_digest", "digest", unique=True),
)
"""Devices that may reach the jobs over the network, with the digest of their token."""

OPERATIONS = sa.Table(
    "operation",
    METADATA,
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("rev", sa.Integer, primary_key=True),
    sa.Column("sender", sa.String(64), nullable=True),
    sa.Column("sent", sa.Text, nullable=True),
    sa.Column("landed", sa.Text, nullable=False),
)
"""What was done in a revision: as it was sent and as it was done in the document; ``sent`` is null where they agree."""

CLASHES = sa.Table(
    "clash",
    METADATA,
    sa.Column("id", sa.String(64), primary_key=True),
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("rev", sa.Integer, nullable=False),
    sa.Column("base", sa.Integer, nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("body", sa.Text, nullable=False),
    sa.Column("settled", sa.String(32), nullable=True),
    sa.Column("pick", sa.String(8), nullable=True),
    sa.Column("who", sa.String(32), nullable=True),
)
"""What was sent and could not be done, with both values, until a person picks one; kept afterwards too."""

FIRM = sa.Table(
    "firm",
    METADATA,
    sa.Column("rev", sa.Integer, primary_key=True, autoincrement=False),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("document", sa.Text, nullable=False),
    sa.Column("key", sa.String(64), nullable=True, unique=True),
    sa.Column("who", sa.String(32), nullable=True),
)
"""The book of the firm in its revisions, old ones thinned, the last one in force; ``key`` names the save."""

CALENDAR = sa.Table(
    "calendar",
    METADATA,
    sa.Column("rev", sa.Integer, primary_key=True, autoincrement=False),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("document", sa.Text, nullable=False),
    sa.Column("key", sa.String(64), nullable=True, unique=True),
    sa.Column("who", sa.String(32), nullable=True),
)
"""The calendar of the firm in its revisions, the last one in force; ``key`` names the save."""

CALENDAR_FEEDS = sa.Table(
    "calendar_feed",
    METADATA,
    sa.Column("id", sa.String(16), primary_key=True),
    sa.Column("person", sa.String(12), nullable=False),
    sa.Column("digest", sa.String(64), nullable=False, unique=True),
    sa.Column("made", sa.String(32), nullable=False),
    sa.Column("who", sa.String(32), nullable=True),
)
"""Feeds by which people read their own days: the digest of the token, nothing by which it could be made again."""

QUOTATION_LINKS = sa.Table(
    "quotation_link",
    METADATA,
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
    sa.Column("who", sa.String(32), nullable=True),
    sa.Column("notice_sha256", sa.String(64), nullable=True),
    sa.Index("ix_quotation_link_digest", "digest", unique=True),
    sa.Index("ix_quotation_link_job_id", "job_id"),
)
"""Links that open a quotation to a customer: the digest of the token, what is shown and its PDF, frozen when made."""

QUOTATION_QUESTIONS = sa.Table(
    "quotation_question",
    METADATA,
    sa.Column("id", sa.String(16), primary_key=True),
    sa.Column("link_id", sa.String(16), sa.ForeignKey("quotation_link.id"), nullable=False),
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("words", sa.Text, nullable=False),
    sa.Column("answer", sa.Text, nullable=True),
    sa.Column("answered", sa.String(32), nullable=True),
    sa.Column("who", sa.String(32), nullable=True),
    sa.Index("ix_quotation_question_link_id", "link_id"),
)
"""What a customer asks about his quotation, and what he is answered."""

ACCEPTANCES = sa.Table(
    "acceptance",
    METADATA,
    sa.Column("link_id", sa.String(16), sa.ForeignKey("quotation_link.id"), primary_key=True),
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), nullable=False),
    sa.Column("rev", sa.Integer, nullable=False),
    sa.Column("at", sa.String(32), nullable=False),
    sa.Column("body", sa.Text, nullable=False),
    sa.Column("pdf_sha256", sa.String(64), nullable=False),
    sa.Index("ix_acceptance_job_id", "job_id"),
)
"""What a customer accepted, once for a link; triggers of the database refuse to change or delete it."""

RECORD_ENTRIES = sa.Table(
    "record_entry",
    METADATA,
    sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id"), primary_key=True),
    sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
    sa.Column("line", sa.Text, nullable=False),
    sa.Column("digest", sa.String(64), nullable=False),
)
"""What happened in a job, entry after entry; triggers of the database refuse to change one or to put one in between."""

REMOVED_RECORDS = sa.Table(
    "removed_record",
    METADATA,
    sa.Column("job", sa.String(32), primary_key=True),
    sa.Column("at", sa.String(32), primary_key=True),
    sa.Column("entries", sa.Integer, nullable=False),
    sa.Column("head", sa.String(64), nullable=False),
    sa.Column("who", sa.String(32), nullable=True),
)
"""The last hash of the record of a job that was removed for good: nothing else of it is left."""
