"""A key for each save, and the names of deliveries and photos by job.

A save that is sent again is known by its key. A name that a phone gave to a delivery or a photo is known within its
job: the same name on another job is another thing.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the key of a save; let deliveries and photos be known by job and name."""
    op.add_column("revision", sa.Column("key", sa.String(64), nullable=True))
    op.create_index("ix_revision_job_id_key", "revision", ["job_id", "key"], unique=True)
    for table in ("delivery", "photo"):
        with op.batch_alter_table(table) as batch:
            batch.drop_constraint(f"pk_{table}", type_="primary")
            batch.create_primary_key(f"pk_{table}", ["job_id", "id"])


def downgrade() -> None:
    """Take the keys away; a name that stands on two jobs keeps this from being done."""
    for table in ("delivery", "photo"):
        with op.batch_alter_table(table) as batch:
            batch.drop_constraint(f"pk_{table}", type_="primary")
            batch.create_primary_key(f"pk_{table}", ["id"])
    op.drop_index("ix_revision_job_id_key", "revision")
    op.drop_column("revision", "key")
