"""A paper: a file of the pack."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Paper:
    """A file of the pack.

    Attributes:
        name: Its name, with folders parted by a slash.
        media_type: What kind of file it is.
        content: Its bytes.
    """

    name: str
    media_type: str
    content: bytes
