"""Files of one firm, as its store keeps and reads them: outside where a place is set, else in the row itself."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store._turns import nobody_deletes

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

    from pavewright.store.outside._place import Place

ELSEWHERE = b""
"""What stands in the row of a file that is kept outside: no photo and no paper is empty."""


class Outside:
    """The files of one firm."""

    def __init__(self) -> None:
        """Begin without a place: files stand in their rows."""
        self.place: Place | None = None
        self.firm = ""

    def use(self, place: Place | None, firm: str) -> None:
        """Take the place for files from now on.

        Args:
            place: The place; None where files stand in their rows.
            firm: The firm.
        """
        self.place, self.firm = place, firm

    def put(self, content: bytes) -> bytes:
        """Keep a file and return what its row holds; outside it is durable before the row is written.

        Raises:
            StoreTroubleError: the place refuses.
        """
        if self.place is None or not content:
            return content
        self.place.put(self.firm, content)
        return ELSEWHERE

    def hold(self, connection: Connection, content: bytes) -> None:
        """See, where a row is written that names a file, that nobody deletes the file before the row stands.

        Args:
            connection: A connection that writes; until its transaction ends no file is deleted.
            content: The file, which was put before.
        """
        if self.place is None or not content:
            return
        nobody_deletes(connection)
        digest = hashlib.sha256(content).hexdigest()
        if not self.place.has(self.firm, digest):
            self.place.put(self.firm, content)

    def read(self, row: bytes, digest: str) -> bytes:
        """Return a file.

        Args:
            row: What its row holds.
            digest: Its hash, by which it is looked over.

        Raises:
            StoreTroubleError: it is missing, damaged, or no place is set for what is kept outside.
        """
        if row == ELSEWHERE and digest != _EMPTY:
            if self.place is None:
                raise StoreTroubleError(Trouble.FILES_UNSET, "this store")
            return self.place.get(self.firm, digest)
        if hashlib.sha256(row).hexdigest() != digest:
            raise StoreTroubleError(Trouble.FILE_DAMAGED, "the database")
        return bytes(row)


_EMPTY = hashlib.sha256(b"").hexdigest()
