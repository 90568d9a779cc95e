"""Front doors that open on demand: a room is loaded when something of it is asked for, not when it is named.

The ``__init__`` of a room lists what it hands out as imports for the type checker. That list is read here when a name
is first asked for, so that it stands in one place only.
"""

from __future__ import annotations

import ast
import sys
from importlib import import_module
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from collections.abc import Callable
    from importlib.abc import InspectLoader


def face(package: str) -> Callable[[str], object]:
    """Return the ``__getattr__`` of a room: it loads the module that a name comes from, and keeps what it found."""
    places: dict[str, tuple[str, str]] = {}

    def open_for(name: str) -> object:
        if not places:
            places.update(handed_out(_source(package)))
        if name not in places:
            message = f"module {package!r} has no attribute {name!r}"
            raise AttributeError(message)
        module, known_as = places[name]
        found: object = getattr(import_module(module), known_as)
        setattr(sys.modules[package], name, found)
        return found

    return open_for


def handed_out(source: str) -> dict[str, tuple[str, str]]:
    r"""Return each name that a front door imports for the type checker, with its module and its name there.

    >>> handed_out("if TYPE_CHECKING:\n    from pavewright.sums import Sum as OneSum")
    {'OneSum': ('pavewright.sums', 'Sum')}
    """
    return {
        alias.asname or alias.name: (node.module, alias.name)
        for block in ast.parse(source).body
        if isinstance(block, ast.If) and isinstance(block.test, ast.Name) and block.test.id == "TYPE_CHECKING"
        for node in block.body
        if isinstance(node, ast.ImportFrom) and node.module is not None
        for alias in node.names
    }


def _source(package: str) -> str:
    """Return the text of a front door."""
    spec = sys.modules[package].__spec__
    text = None if spec is None else cast("InspectLoader", spec.loader).get_source(package)
    if text is None:
        message = f"the text of {package} is not here, and what it hands out stands in it"
        raise ImportError(message)
    return text
