"""The one door to the compiler of kernels, with types kept; slow to load, so fetched when first wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING, NoReturn, ParamSpec, TypeVar, cast

import numba
import numba.np.linalg

if TYPE_CHECKING:
    from collections.abc import Callable

P = ParamSpec("P")
R = TypeVar("R")


def _no_linear_algebra() -> NoReturn:
    """Say that there is none: no kernel has any, and to look for it loads scipy, which takes longer than a plan."""
    message = "linear algebra is not for kernels"
    raise ImportError(message)


if hasattr(numba.np.linalg, "ensure_blas"):
    numba.np.linalg.ensure_blas = _no_linear_algebra


def compiled(kernel: Callable[P, R]) -> Callable[P, R]:
    """Return a kernel as machine code, kept beside its file from one run to the next.

    A kernel and all that it calls stand in one file: what is kept is renewed when that file changes, not when another
    one does. Where nothing can be kept (a read-only place), the kernel is compiled anew on each run.
    """
    try:
        return cast("Callable[P, R]", numba.njit(cache=True)(kernel))
    except RuntimeError:  # no place to keep it
        return cast("Callable[P, R]", numba.njit(kernel))
