"""A drill: a whole copy is brought back into an empty place, and all that stands there is held against the copy."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from pavewright.store.whole._loading import Compared, compared, loaded_into_files, loaded_into_server
from pavewright.store.whole._reading import whole_copy

if TYPE_CHECKING:
    from pavewright.store.whole._manifest import Manifest


@dataclass(frozen=True, slots=True)
class Drilled:
    """What a drill found.

    Attributes:
        manifest: What the copy says of itself.
        tables: Every table, as it was copied and as it was read back.
    """

    manifest: Manifest
    tables: tuple[Compared, ...]

    @property
    def same(self) -> bool:
        """Whether all that was copied was read back as it was."""
        return all(each.same for each in self.tables)


def drill(backup: Path, passphrase: str | None = None, database: str | None = None) -> Drilled:
    """Bring a whole copy back into an empty place and compare; nothing of it stays.

    Args:
        backup: The copy.
        passphrase: What opens it; None where it is not locked.
        database: Address of an empty database of a server; None for files in a folder that is deleted afterwards.

    Raises:
        StoreTroubleError: it cannot be read or brought back.
    """
    with whole_copy(backup, passphrase) as copy:
        if database is not None:
            with loaded_into_server(copy, database, keep=False) as at:
                return Drilled(copy.manifest, tuple(compared(copy, at)))
        with (
            tempfile.TemporaryDirectory(prefix="pavewright-drill-") as folder,
            loaded_into_files(copy, lambda firm: Path(folder) / f"{firm}.sqlite") as at,
        ):
            return Drilled(copy.manifest, tuple(compared(copy, at)))
