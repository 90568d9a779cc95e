"""The one door to the compiler of kernels, with types kept; slow to load, so fetched when first wanted.

What Python calls states its signature: it is compiled for that and nothing else, once, at set-up (``pavewright
compile``), so that no plan waits for the compiler. A call with other kinds of arrays is refused, never compiled anew.
What kernels call among themselves is compiled with them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Generic, NamedTuple, NoReturn, ParamSpec, TypeVar, cast

import numba
import numba.np.linalg
from numba.core.sigutils import normalize_signature

if TYPE_CHECKING:
    from collections.abc import Callable

_types: Any = numba.types
_read: Any = normalize_signature  # neither of them says its types
P = ParamSpec("P")
R = TypeVar("R")

ENTRANCES: dict[str, Entrance[Any, Any]] = {}
"""What was stated so far, by module and name."""


def _no_linear_algebra() -> NoReturn:
    """Say that there is none: no kernel has any, and to look for it loads scipy, which takes longer than a plan."""
    message = "linear algebra is not for kernels"
    raise ImportError(message)


if hasattr(numba.np.linalg, "ensure_blas"):
    numba.np.linalg.ensure_blas = _no_linear_algebra


def compiled(kernel: Callable[P, R]) -> Callable[P, R]:
    """Return what kernels of the same file call as machine code, compiled with whatever calls it.

    A kernel and all that it calls stand in one file: what is kept is renewed when that file changes, not when another
    one does.
    """
    return cast("Callable[P, R]", numba.njit(kernel))


class Entrance(Generic[P, R]):
    """A kernel that Python calls: compiled for one signature, or read from what was kept, when it is first called."""

    def __init__(self, kernel: Callable[P, R], arguments: tuple[Any, ...]) -> None:
        self.kernel = kernel
        self.arguments = arguments
        self._machine: Callable[P, R] | None = None

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> R:
        """Run the machine code."""
        machine = self._machine
        if machine is None:
            machine = self.ready()
        return machine(*args, **kwargs)

    def ready(self) -> Callable[P, R]:
        """Return the machine code, kept beside its file from one run to the next.

        Where nothing can be kept (a read-only place), the kernel is compiled anew in each run.
        """
        try:
            made = numba.njit(self.arguments, cache=True)(self.kernel)
        except RuntimeError:  # no place to keep it
            made = numba.njit(self.arguments)(self.kernel)
        self._machine = cast("Callable[P, R]", made)
        return self._machine


def called_with(*arguments: str | NamedRows) -> Callable[[Callable[P, R]], Entrance[P, R]]:
    """Return what makes a kernel for Python, with the kinds of its arguments as the compiler writes them.

    ``float64[:, ::1]`` is an array in rows without gaps, ``int64`` any whole number, ``boolean`` yes or no; one text
    may give several, with commas between.
    """
    rows = ((each.kind(),) if isinstance(each, NamedRows) else _kinds(each) for each in arguments)
    kinds = tuple(kind for row in rows for kind in row)

    def made(kernel: Callable[P, R]) -> Entrance[P, R]:
        entrance = Entrance(kernel, kinds)
        ENTRANCES[f"{kernel.__module__}.{kernel.__name__}"] = entrance
        return entrance

    return made


class NamedRows(NamedTuple):
    """An argument that is a named tuple of arrays.

    Attributes:
        of: The named tuple.
        kinds: Kinds of its fields, in order.
    """

    of: type
    kinds: tuple[str, ...]

    def kind(self) -> Any:  # noqa: ANN401 - a type of the compiler
        """Return it as the compiler has it."""
        return _types.NamedTuple([kind for each in self.kinds for kind in _kinds(each)], self.of)


def _kinds(words: str) -> tuple[Any, ...]:
    """Return the types of the compiler that a text gives."""
    arguments, _ = _read(f"({words},)")
    return tuple(arguments)
