"""The file of jobs, opened for a command."""

from __future__ import annotations

from contextlib import closing, contextmanager
from typing import TYPE_CHECKING

from pavewright.cli._stop import stop
from pavewright.cli._where import open_kept

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pavewright.store import Store


@contextmanager
def store_or_stop(data: Path | None) -> Iterator[Store]:
    """Open the file of jobs; say what is amiss with it and leave with exit code 2 where it cannot be used."""
    # the database is loaded for the commands that read it: the others start quicker without it
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    try:
        with closing(open_kept(data)) as store:
            yield store
    except StoreTroubleError as trouble:
        stop(str(trouble))
