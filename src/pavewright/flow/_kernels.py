"""Kernels by name, fetched when first wanted: the compiler takes longer to load than all the rest of a plan."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable


@cache
def kernel(file: str, name: str) -> Callable[..., Any]:
    """Return a kernel of this room: the file that holds it, without its underscore, and its name."""
    found: Callable[..., Any] = getattr(import_module(f"pavewright.flow._{file}"), name)
    return found
