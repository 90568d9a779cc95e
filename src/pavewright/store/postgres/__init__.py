"""Postgres: the settings of a database server that keeps the rows of each firm apart, and what it refuses.

A connection works for one firm: it says for which when a transaction begins, and the server itself shows no row of
another one and takes none. A role that sees past this is refused.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.postgres._begin import begin
    from pavewright.store.postgres._refused import must_be_bound, must_keep_apart
else:
    __getattr__ = face(__name__)

__all__ = ["begin", "must_be_bound", "must_keep_apart"]
