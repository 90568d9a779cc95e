"""The one door to the compiler of kernels, with types kept; slow to load, so fetched when first wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING, ParamSpec, TypeVar, cast

import numba

if TYPE_CHECKING:
    from collections.abc import Callable

P = ParamSpec("P")
R = TypeVar("R")


def compiled(kernel: Callable[P, R]) -> Callable[P, R]:
    """Return a kernel as machine code, kept beside its file from one run to the next.

    A kernel and all that it calls stand in one file: what is kept is renewed when that file changes, not when another
    one does. Where nothing can be kept (a read-only place), the kernel is compiled anew on each run.
    """
    try:
        return cast("Callable[P, R]", numba.njit(cache=True)(kernel))
    except RuntimeError:  # no place to keep it
        return cast("Callable[P, R]", numba.njit(kernel))
