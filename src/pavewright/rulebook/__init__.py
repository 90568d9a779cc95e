"""Rulebook: the figures of the trade, by edition, read from plain text files.

An edition is a folder of files, one a room, each figure with its unit, source, place and status. An edition for a place
extends the common one and says only what differs there.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.rulebook._load import RulebookError, editions, load, sources
else:
    __getattr__ = face(__name__)

__all__ = ["RulebookError", "editions", "load", "sources"]
