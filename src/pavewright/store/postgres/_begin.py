"""Beginning a transaction: as a reader or as a writer, and for one firm."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

_ID = re.compile("[0-9a-f]{1,32}")


def begin(connection: Connection) -> None:
    """Say for which firm a transaction works; one that reads sees everything as it stood when it began.

    Both hold until the transaction ends: a connection that is given back knows no firm.
    """
    options = connection.get_execution_options()
    firm, settings = options.get("firm"), []
    if not options.get("write", False):
        settings.append("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
    if firm is not None:
        if not _ID.fullmatch(firm):
            message = "the name of a firm is made of hexadecimal digits"
            raise ValueError(message)
        settings.append(f"SET LOCAL pavewright.firm = '{firm}'")
    if settings:
        connection.exec_driver_sql("; ".join(settings))
