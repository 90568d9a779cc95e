"""Deleting, from time to time, files outside the database that nothing names any more."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from pavewright.store import StoreTroubleError
from pavewright.store.outside import sweep_files
from pavewright.web._long_tasks import LOG

if TYPE_CHECKING:
    from pavewright.store import Installation

SOON_S = 600.0
"""After how long the first sweep begins: a start is busy enough. [s]"""
EACH_S = 12 * 3600.0
"""How long after a sweep the next one begins; a file goes a day after it was first seen unnamed. [s]"""


async def sweep_now_and_then(installed: Installation, soon_s: float = SOON_S, each_s: float = EACH_S) -> None:
    """Sweep the files of every firm, until it is stopped; nothing is done where no place for files is set."""
    if installed.files is None:
        return
    await asyncio.sleep(soon_s)
    while True:
        await asyncio.to_thread(_sweep, installed)
        await asyncio.sleep(each_s)


def _sweep(installed: Installation) -> None:
    try:
        for firm in installed.accounts.firms():
            sweep_files(installed.store_of(firm.id))
    except StoreTroubleError as problem:
        LOG.error("sweeping files: %s", problem.message)
