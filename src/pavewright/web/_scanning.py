"""A program of this machine that looks at each file that is sent, such as one that knows viruses."""

from __future__ import annotations

import asyncio
import contextlib
import enum
import os
import signal
import tempfile
from dataclasses import dataclass
from pathlib import Path

SCAN_S = 60.0
"""How long a scan may take. [s]"""
_AT_ONCE = 2
"""Scans that run at once; the others wait."""
_HANDED_ON = ("PATH", "HOME", "LANG", "SYSTEMROOT")
"""What the program is told of the environment: no address and no key of this one."""


class Scan(enum.Enum):
    """What came of a scan."""

    CLEAN = "clean"
    REFUSED = "refused"
    NOT_DONE = "not_done"


@dataclass(frozen=True, slots=True)
class Scanned:
    """What came of a scan.

    Attributes:
        scan: Whether the file may be taken.
        code: With what the program ended; None where it did not run or did not end by itself.
    """

    scan: Scan
    code: int | None = None


class Scanner:
    """Runs the program on a file, without a shell: 0 is clean, anything else is not."""

    def __init__(self, command: tuple[str, ...], within_s: float = SCAN_S) -> None:
        """Take the program.

        Args:
            command: The program and its options; the file is put after them.
            within_s: How long it may take. [s]
        """
        self._command, self._within_s = command, within_s
        self._turns = asyncio.Semaphore(_AT_ONCE)

    async def content(self, content: bytes) -> Scanned:
        """Scan bytes, which stand in a file of their own meanwhile."""
        with tempfile.TemporaryDirectory(prefix="pavewright-scan-") as folder:
            path = Path(folder) / "sent"
            try:
                await asyncio.to_thread(path.write_bytes, content)
            except OSError:
                return Scanned(Scan.NOT_DONE)
            return await self.file(path)

    def _words(self, path: Path) -> tuple[str, ...]:
        """Return the program with its options and a file, whose path begins at the root: it is never an option."""
        return (*self._command, str(path.absolute()))

    async def file(self, path: Path) -> Scanned:
        """Scan a file. A program that cannot be started, is ended or takes too long has not looked at it."""
        told = {name: os.environ[name] for name in _HANDED_ON if name in os.environ}
        quiet = asyncio.subprocess.DEVNULL
        async with self._turns:
            try:
                running = await asyncio.create_subprocess_exec(
                    *self._words(path), stdin=quiet, stdout=quiet, stderr=quiet, env=told, start_new_session=True
                )
            except (OSError, ValueError):
                return Scanned(Scan.NOT_DONE)
            try:
                code = await asyncio.wait_for(running.wait(), self._within_s)
            except TimeoutError:
                return Scanned(Scan.NOT_DONE)
            finally:
                await _end(running)
        if code < 0:
            return Scanned(Scan.NOT_DONE)
        return Scanned(Scan.CLEAN if code == 0 else Scan.REFUSED, code)


async def _end(running: asyncio.subprocess.Process) -> None:
    """End a program with whatever it started, where it still runs."""
    if running.returncode is not None:
        return
    with contextlib.suppress(ProcessLookupError, PermissionError):
        if hasattr(os, "killpg"):
            os.killpg(running.pid, signal.SIGKILL)
        else:
            running.kill()
    await running.wait()
