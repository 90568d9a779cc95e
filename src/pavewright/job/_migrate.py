"""Old documents brought to the present version, step by step, before they are checked."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NoReturn

from pavewright.job._faults import Fault, JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    Migration = Callable[[dict[str, Any]], dict[str, Any]]

MIGRATIONS: Mapping[int, Migration] = {}
"""From each old version, what makes the next one of it. Version 1 is the first: there is none yet."""


def migrated(
    document: dict[str, Any], current: int, migrations: Mapping[int, Migration] = MIGRATIONS
) -> dict[str, Any]:
    """Return a document in the present version; the document that was given stays as it is.

    Args:
        document: A document with its version.
        current: The present version.
        migrations: From each old version, what makes the next one of it. Each leaves its input unchanged.

    Raises:
        JobInvalid: its version is missing, is no whole number, is newer than the present one, or no way leads on.
    """
    version = document.get("version")
    if not isinstance(version, int) or isinstance(version, bool):
        _refuse(f"The field version takes a whole number; this program writes {current}.")
    if version > current:
        _refuse(
            f"The document has version {version} and this program reads up to {current}: bring the program up to date."
        )
    while version < current:
        if version not in migrations:
            _refuse(f"The document has version {version}, which no program ever wrote: check the number.")
        version += 1
        document = {**migrations[version - 1](document), "version": version}
    return document


def _refuse(message: str) -> NoReturn:
    raise JobInvalid((Fault("version", message),))
