"""The digest of this program: what a plan depends on beside its job."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from importlib.resources.abc import Traversable

_KINDS = (".py", ".toml", ".json")


@cache
def program_digest() -> str:
    """Return the digest of the program's own code and figures: where it is the same, the same job has the same plan.

    Source: definition, SHA-256 of names and contents of all files of code, rulebook and catalogues
    """
    found = hashlib.sha256()
    for name, file in _all_files(files("pavewright"), ""):
        content = file.read_bytes()
        found.update(f"{name}\0{len(content)}\0".encode())
        found.update(content)
    return found.hexdigest()


def _all_files(folder: Traversable, path: str) -> Iterator[tuple[str, Traversable]]:
    for each in sorted(folder.iterdir(), key=lambda one: one.name):
        name = f"{path}/{each.name}"
        if each.is_dir():
            yield from _all_files(each, name)
        elif each.name.endswith(_KINDS) and "/static/" not in name:
            yield name, each
