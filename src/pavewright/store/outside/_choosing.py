"""Which place for files is meant."""

from __future__ import annotations

from pathlib import Path

from pavewright.store._troubles import StoreTroubleError, Trouble
from pavewright.store.outside._folder import Folder
from pavewright.store.outside._place import Place
from pavewright.store.outside._s3 import S3


def open_place(where: str | Path) -> Place:
    """Return a place for files.

    Args:
        where: A folder, made where it is missing; or ``s3://BUCKET/PREFIX``.

    Raises:
        StoreTroubleError: it is neither, cannot be made, or what speaks with it is not installed.
    """
    if isinstance(where, Path):
        return Place(Folder(where))
    if where.startswith("s3://"):
        return Place(S3(where))
    if "://" in where or not where.strip():
        raise StoreTroubleError(Trouble.NO_PLACE, "What was given")
    return Place(Folder(Path(where)))
