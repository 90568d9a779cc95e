"""Child processes that can neither outlive nor outgrow what they are for.

A child stands in a process group of its own, so that it ends with all that it started; a child of a child stays in the
group of the first. It ends with its parent, and on
systems that know such limits it takes no more memory and no more time of the processor than it was given.
"""

from __future__ import annotations

import contextlib
import ctypes
import os
import signal
import subprocess
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_PARENT = "PAVEWRIGHT_PARENT"
"""The parent's number, in the surroundings of a child."""
_PR_SET_PDEATHSIG = 1
"""prctl: send this process a signal when its parent ends."""


class ChildStoppedError(Exception):
    """The child took longer than it was given and was ended."""


class ChildEndedError(Exception):
    """The child ended without an answer: it fell over, or asked for more memory than it was given.

    Carries what it wrote on its error stream, and whether the system ended it.
    """

    def __init__(self, message: str, *, by_signal: bool = False) -> None:
        """Keep both."""
        super().__init__(message)
        self.by_signal = by_signal


def surroundings() -> dict[str, str]:
    """Return the environment of a child that is started from here."""
    return os.environ | {_PARENT: str(os.getpid())}


def begin(*, memory_bytes: int | None = None, cpu_s: int | None = None) -> None:
    """Take the limits of a child, called by itself before it does anything else.

    Args:
        memory_bytes: Most memory of its own; None for no limit.
        cpu_s: Most time of the processor; None for no limit. [s]
    """
    if sys.platform == "linux":
        with contextlib.suppress(OSError, AttributeError):
            ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    parent = os.environ.get(_PARENT)
    if parent is not None and hasattr(os, "getppid") and os.getppid() != int(parent):
        os._exit(0)  # the parent ended before this line was reached
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource  # noqa: PLC0415 - not on every system

        if memory_bytes is not None:
            resource.setrlimit(resource.RLIMIT_DATA, (memory_bytes, memory_bytes))
        if cpu_s is not None:
            resource.setrlimit(resource.RLIMIT_CPU, (cpu_s, cpu_s + 1))


def end_group(pid: int) -> None:
    """End a child and all that it started."""
    with contextlib.suppress(ProcessLookupError, PermissionError):
        if hasattr(os, "killpg"):
            os.killpg(pid, signal.SIGKILL)
        else:
            os.kill(pid, signal.SIGTERM)


def answer_of(words: Sequence[str], payload: bytes, *, seconds: float) -> bytes:
    """Return what a child writes on its output after it was given a payload on its input.

    Args:
        words: Command of the child.
        payload: Its input.
        seconds: How long it may take. [s]

    Raises:
        ChildStoppedError: it took longer.
        ChildEndedError: it ended without an answer; carries what it wrote on its error stream.
    """
    inner = _PARENT in os.environ
    child = subprocess.Popen(  # noqa: S603 - our own interpreter and files
        list(words),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=surroundings(),
        start_new_session=not inner,
    )
    try:
        answer, errors = child.communicate(payload, timeout=seconds)
    except subprocess.TimeoutExpired:
        message = f"longer than {seconds:g} s"
        raise ChildStoppedError(message) from None
    finally:
        if inner:
            child.kill()
        else:
            end_group(child.pid)
        child.wait()
        for stream in (child.stdin, child.stdout, child.stderr):
            if stream is not None:
                with contextlib.suppress(OSError):
                    stream.close()
    if child.returncode:
        raise ChildEndedError(errors.decode("utf-8", "replace"), by_signal=child.returncode < 0)
    return answer
