"""What looks after files needs of a store: connections to it, and the place of its files."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    from pavewright.store.outside._of_firm import Outside


class Kept(Protocol):
    """A store as it keeps files.

    Attributes:
        name: Its file, or its address without the password.
        outside: Its files.
    """

    name: str
    outside: Outside

    @property
    def is_file(self) -> bool:
        """Whether the store is one file of this machine."""

    def reading(self) -> AbstractContextManager[Connection]:
        """Give a connection to read by."""

    def writing(self) -> AbstractContextManager[Connection]:
        """Give a connection to write by: all that is done over it is kept, or nothing."""
