"""When a job was deleted: until it is removed for good it can be brought back."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the time of deletion."""
    op.add_column("job", sa.Column("deleted", sa.String(32), nullable=True))


def downgrade() -> None:
    """Take it away; deleted jobs stand in the list again."""
    op.drop_column("job", "deleted")
