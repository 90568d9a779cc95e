"""Old documents brought to the present version, step by step, before they are checked."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

MIGRATIONS: Mapping[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}
"""From each old version, what makes the next one of it. Version 1 is the first: there is none yet."""


def migrated(
    document: dict[str, Any],
    current: int,
    migrations: Mapping[int, Callable[[dict[str, Any]], dict[str, Any]]] = MIGRATIONS,
) -> dict[str, Any] | None:
    """Return a document in the present version; None where its version is not known or no way leads on from it.

    Args:
        document: A document with its version.
        current: The present version.
        migrations: From each old version, what makes the next one of it. Each leaves its input unchanged.
    """
    version = document.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version > current:
        return None
    while version < current:
        if version not in migrations:
            return None
        version += 1
        document = {**migrations[version - 1](document), "version": version}
    return document
